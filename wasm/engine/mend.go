package main

import (
	"fmt"
	"io"
	"math"
	"os"

	"openwork/pattern/progress"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/sheet/ties"
)

// mended is a draft with ties for what would drop out.
type mended struct {
	Draft string `json:"draft"`
	Added int    `json:"added"`
	Text  string `json:"text"`
}

// print prints the draft; what was done goes to standard error.
func (m *mended) print(out io.Writer) error {
	fmt.Fprintln(os.Stderr, m.Text)
	_, err := io.WriteString(out, m.Draft)
	return err
}

type mendInput struct{ drafted }

func (*mendInput) usual() *mendInput { return &mendInput{} }

// run adds ties for every piece of sheet that would drop out. Its text says what is worse with the ties, if anything
// is, as the check of the panel counts it.
func (in *mendInput) run(progress.Func) (*mended, error) {
	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	before, err := panel.Measure(l)
	if err != nil {
		return nil, err
	}
	p, err := ties.For(l, before, math.MaxInt)
	if err != nil {
		return nil, err
	}

	d := in.draft
	d.Ties = p.Ties
	m := &mended{Draft: string(d.Encode()), Added: p.Added}

	switch p.Added {
	case 0:
		m.Text = "Every piece of sheet is held; no tie is needed."
	case 1:
		m.Text = "One tie was added, and every piece of sheet is held."
	default:
		m.Text = fmt.Sprintf("%d ties were added, and every piece of sheet is held.", p.Added)
	}

	switch p.Single {
	case 0:
	case 1:
		m.Text += fmt.Sprintf(" One kind of piece, %g mm across or more, hangs on a single tie: there is no room for "+
			"the "+
			"two that craft practice gives it.", ties.TwoFrom)
	default:
		m.Text += fmt.Sprintf(" %d kinds of pieces, %g mm across or more, hang on a single tie each: there is no "+
			"room for "+
			"the two that craft practice gives them.", p.Single, ties.TwoFrom)
	}

	if len(p.Grown) > 0 {
		m.Text += " The panel is too crowded to do that without making something else worse: it now has " +
			sheet.SummaryOfGrown(before.Totals, p.After.Totals, sheet.Fault) +
			". Make the repeat larger or the silhouettes smaller."
	}
	return m, nil
}
