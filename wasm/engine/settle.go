package main

import (
	"openwork/pattern/draft"
	"openwork/pattern/fit"
	"openwork/pattern/progress"
)

// settleInput asks where a motif of a draft comes to rest, all its copies keeping the bridge.
type settleInput struct {
	drafted
	Motif string `json:"motif"`
}

func (*settleInput) usual() *settleInput { return &settleInput{} }

// run finds the place nearest to the motif's own.
func (in *settleInput) run(progress.Func) (*draft.Motif, error) {
	m, err := fit.Settle(in.draft, in.Motif)
	if err != nil {
		return nil, err
	}
	return &m, nil
}
