package main

import (
	"openwork/pattern/draft"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/mends"
)

type mendsInput struct{ drafted }

func (*mendsInput) usual() *mendsInput { return &mendsInput{} }

// run finds what would put a draft right.
func (in *mendsInput) run(report progress.Func) ([]sheet.Mend, error) {
	return last.mends(in.Text, in.draft, report)
}

// mends finds what would put a draft right, one that may have been checked just now.
func (k *lastChecked) mends(text string, d draft.Draft, report progress.Func) ([]sheet.Mend, error) {
	if k.layout == nil || k.draft != text {
		if _, err := k.check(text, d, report.Within(0, 0.3)); err != nil {
			return nil, err
		}
		report = report.Within(0.3, 1)
	}
	return mends.Offer(k.layout, k.report, report)
}
