package main

import (
	"fmt"

	"openwork/pattern"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/sheet/ties"
)

// mended is a draft with ties for what would drop out, in the shape the worker answers.
type mended struct {
	Draft string `json:"draft"`
	Added int    `json:"added"`
	Text  string `json:"text"`
}

// mend is the answer of mend.
func mend(d pattern.Draft) (mended, error) {
	l, err := layoutOf(d)
	if err != nil {
		return mended{}, err
	}
	all, err := ties.Propose(l)
	if err != nil {
		return mended{}, err
	}
	m := mended{Added: len(all) - len(d.Ties)}
	before := l
	d.Ties = all
	m.Draft = string(d.Encode())
	switch m.Added {
	case 0:
		m.Text = "Every piece of sheet is held; no tie is needed."
		return m, nil
	case 1:
		m.Text = "One tie was added, and every piece of sheet is held."
	default:
		m.Text = fmt.Sprintf("%d ties were added, and every piece of sheet is held.", m.Added)
	}
	more, err := moreFaults(before, d)
	if err != nil {
		return mended{}, err
	}
	if more > 0 {
		m.Text += fmt.Sprintf(" It is too crowded to do that without other faults: there are %d more than before, islands aside. "+
			"Make the repeat larger or the silhouettes smaller.", more)
	}
	return m, nil
}

// moreFaults returns how many more faults, islands aside, a mended draft has than it had.
func moreFaults(before *pattern.Layout, mended pattern.Draft) (int, error) {
	after, err := layoutOf(mended)
	if err != nil {
		return 0, err
	}
	n := 0
	for sign, l := range map[int]*pattern.Layout{-1: before, 1: after} {
		r, err := panel.Measure(l)
		if err != nil {
			return 0, err
		}
		for _, p := range r.Problems {
			if p.Severity == sheet.Fault && p.Kind != sheet.Island {
				n += sign
			}
		}
	}
	return n, nil
}
