package main

import (
	"fmt"

	"openwork/pattern"
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
	all, more, err := ties.ProposeCounted(l)
	if err != nil {
		return mended{}, err
	}
	m := mended{Added: len(all) - len(d.Ties)}
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
	if more > 0 {
		m.Text += fmt.Sprintf(" It is too crowded to do that without other faults: there are %d more than before, islands aside. "+
			"Make the repeat larger or the silhouettes smaller.", more)
	}
	return m, nil
}
