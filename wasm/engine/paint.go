package main

import (
	"openwork/pattern/paint"
	"openwork/pattern/progress"
)

// paintInput asks what paste a draft takes, for so many panels.
type paintInput struct {
	drafted
	Panels int `json:"panels"`
}

func (*paintInput) usual() *paintInput { return &paintInput{Panels: 1} }

func (in *paintInput) declare(f flagSet) {
	f.IntVar(&in.Panels, "panels", in.Panels, "how many like it are painted")
}

// run reckons the paste.
func (in *paintInput) run(report progress.Func) (*paint.Reckoning, error) {
	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	return paint.Reckon(l, in.Panels, report)
}
