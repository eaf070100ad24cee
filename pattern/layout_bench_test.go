package pattern_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"openwork/pattern"
	"openwork/pattern/patterntest"
)

// As many motifs as a draft holds, all at one place, each turned a little further: no two are the same, and all must be held
// against each other.
func BenchmarkLayoutOfMotifsAtOnePlace(b *testing.B) {
	d := pattern.Default()
	d.Repeat = pattern.Repeat{Group: "p6mm", A: 200, B: 200, Gamma: 120}
	d.Silhouettes = []pattern.Silhouette{{ID: "s", Outline: patterntest.Smooth(rand.New(rand.NewPCG(1, 0)), 20, 300)}}
	for i := range pattern.MaxMotifs {
		d.Motifs = append(d.Motifs, pattern.Motif{ID: fmt.Sprint(i), Silhouette: "s", Scale: 1, Turn: float64(i) / 10})
	}
	for b.Loop() {
		if _, err := pattern.NewLayout(d, nil); err != nil {
			b.Fatal(err)
		}
	}
}
