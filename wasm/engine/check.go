package main

import (
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
)

// checked is the output of check.
type checked struct{ sheet.Report }

func (c *checked) verdict() error {
	if !c.Sound {
		return errUnsound
	}
	return nil
}

type checkInput struct{ drafted }

func (*checkInput) usual() *checkInput { return &checkInput{} }

// run checks the whole panel, and remembers it for mends.
func (in *checkInput) run(report progress.Func) (*checked, error) {
	r, err := last.check(in.Text, in.draft, report)
	return &checked{r}, err
}

// checkReport checks a draft's whole panel.
func checkReport(d draft.Draft) (sheet.Report, error) {
	return new(lastChecked).check("", d, nil)
}

// last is what this worker checked last.
var last lastChecked

// lastChecked is the draft that was checked last, its layout and report. The page asks for mends as soon as it has the
// report, so that the worker need not check the same draft twice. It is for one request after the other, as a worker
// has them.
type lastChecked struct {
	draft  string // as it was sent; empty: none
	layout *pattern.Layout
	report sheet.Report
}

// check checks a draft that was sent as a text, and remembers it.
func (k *lastChecked) check(text string, d draft.Draft, report progress.Func) (sheet.Report, error) {
	*k = lastChecked{}
	l, err := layoutOf(d)
	if err != nil {
		return sheet.Report{}, err
	}
	r, err := panel.CheckWithProgress(l, report)
	if err != nil {
		return sheet.Report{}, err
	}
	*k = lastChecked{text, l, r}
	return r, nil
}
