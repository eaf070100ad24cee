package main

import (
	"github.com/paulmach/orb"

	"openwork/pattern/fold"
	"openwork/pattern/progress"
)

// remakeInput names a motif that stands on a mirror or a rotation point, and the way in which its silhouette is made
// symmetrical there.
type remakeInput struct {
	drafted
	Motif string `json:"motif"`
	Way   string `json:"way"`
}

func (*remakeInput) usual() *remakeInput { return &remakeInput{} }

// run makes a motif's silhouette symmetrical where it stands.
func (in *remakeInput) run(progress.Func) (orb.MultiPolygon, error) {
	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	return fold.Outline(l, in.draft.Motif(in.Motif), in.Way)
}
