package main

import (
	"openwork/pattern/progress"
	"openwork/pattern/recognise"
)

type recogniseInput struct{ drafted }

func (*recogniseInput) usual() *recogniseInput { return &recogniseInput{} }

// run finds the plane group that a draft's field really has.
func (in *recogniseInput) run(progress.Func) (*recognise.Finding, error) {
	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	found, err := recognise.Of(l)
	return &found, err
}
