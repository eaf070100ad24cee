package main

import (
	"fmt"
	"math"

	"openwork/pattern"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/mends"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/sheet/ties"
)

// mended is a draft with ties for what would drop out, in the shape the worker answers.
type mended struct {
	Draft string `json:"draft"`
	Added int    `json:"added"`
	Text  string `json:"text"`
}

// mend is the answer of mend. Its text says what is worse with the ties, if anything is, as the check of the panel
// counts it.
func mend(d pattern.Draft) (mended, error) {
	l, err := layoutOf(d)
	if err != nil {
		return mended{}, err
	}
	before, err := panel.Measure(l)
	if err != nil {
		return mended{}, err
	}
	p, err := ties.For(l, before, math.MaxInt)
	if err != nil {
		return mended{}, err
	}
	d.Ties = p.Ties
	m := mended{Draft: string(d.Encode()), Added: p.Added}
	switch p.Added {
	case 0:
		m.Text = "Every piece of sheet is held; no tie is needed."
	case 1:
		m.Text = "One tie was added, and every piece of sheet is held."
	default:
		m.Text = fmt.Sprintf("%d ties were added, and every piece of sheet is held.", p.Added)
	}
	if len(p.Grown) > 0 {
		m.Text += " The panel is too crowded to do that without making something else worse: it now has " +
			sheet.TellGrown(before.Totals, p.After.Totals, sheet.Fault) + ". Make the repeat larger or the silhouettes smaller."
	}
	return m, nil
}

// lastChecked is the draft that was checked last, its layout and report. The page asks for mends as soon as it has the
// report, so that the worker need not check the same draft twice. It is for one request after the other, as a worker
// has them.
type lastChecked struct {
	draft  string // as it was sent; empty: none
	layout *pattern.Layout
	report sheet.Report
}

// check is checkReport of a draft that was sent as a text, and remembers it.
func (k *lastChecked) check(text string, d pattern.Draft, told progress.Func) (sheet.Report, error) {
	*k = lastChecked{}
	l, err := layoutOf(d)
	if err != nil {
		return sheet.Report{}, err
	}
	r, err := panel.CheckTold(l, told)
	if err != nil {
		return sheet.Report{}, err
	}
	*k = lastChecked{text, l, r}
	return r, nil
}

// mends is the answer of mends: what would put the draft right.
func (k *lastChecked) mends(text string, d pattern.Draft, told progress.Func) ([]sheet.Mend, error) {
	if k.layout == nil || k.draft != text {
		if _, err := k.check(text, d, told.Within(0, 0.3)); err != nil {
			return nil, err
		}
		told = told.Within(0.3, 1)
	}
	return mends.Offer(k.layout, k.report, told)
}
