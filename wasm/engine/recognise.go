package main

import (
	"openwork/pattern/progress"
	"openwork/pattern/recognise"
)

type recogniseInput struct{ drafted }

func (*recogniseInput) usual() *recogniseInput { return &recogniseInput{} }

// run finds the plane group that a draft's field really has, and, where it is painted in colours, what these leave of
// it.
func (in *recogniseInput) run(progress.Func) (*recognise.Finding, error) {
	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	if len(in.draft.PaintOf().Colours) == 0 {
		found, err := recognise.Of(l)
		return &found, err
	}
	found, err := recognise.Coloured(l, recognise.Colours{Cells: l.ColourCells(), Of: l.ColourOf})
	return &found, err
}
