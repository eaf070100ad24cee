package main

import (
	"openwork/pattern/colouring/subgroups"
	"openwork/pattern/progress"
	"openwork/pattern/symmetry"
)

// colouringsInput asks for the perfect colourings of a plane group by K colours.
type colouringsInput struct {
	Symbol string `json:"symbol"`
	K      int    `json:"k"`
}

func (*colouringsInput) usual() *colouringsInput { return &colouringsInput{K: 2} }

func (in *colouringsInput) declare(f flagSet) {
	f.IntVar(&in.K, "k", in.K, "how many colours, from 1 to 12")
}

func (in *colouringsInput) take(symbol string) error {
	in.Symbol = symbol
	return nil
}

// run finds the colourings.
func (in *colouringsInput) run(progress.Func) ([]subgroups.Class, error) {
	g, err := symmetry.Find(in.Symbol)
	if err != nil {
		return nil, err
	}
	return subgroups.Of(g, in.K)
}
