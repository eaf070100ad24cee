package pattern_test

import (
	"math/rand/v2"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// BenchmarkTies: a drag step of a layout whose silhouette of 300 points has ties, and one step of a tie itself.
func BenchmarkTies(b *testing.B) {
	r := rand.New(rand.NewPCG(5, 5))
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p6mm", A: 150, B: 150, Gamma: 120}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "S", Outline: patterntest.Smooth(r, 30, 300)}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{40, 20}, Scale: 1}}
	d.Ties = []draft.Tie{{Silhouette: "s", From: [2]float64{0, 0}, To: [2]float64{40, 1}, Width: 3},
		{Silhouette: "s", From: [2]float64{0, 0}, To: [2]float64{-40, 1}, Width: 3},
		{From: [2]float64{3, 4}, To: [2]float64{9, 5}, Width: 3}}
	for name, c := range map[string]func(k int) pattern.Command{
		"drag of a motif": func(k int) pattern.Command {
			return pattern.Command{Name: "place", ID: "m", Values: value("x", 40+float64(k%50)/10)}
		},
		"drag of a tie": func(k int) pattern.Command {
			return pattern.Command{Name: "retie", Values: value("index", 0.0, "toY", 1+float64(k%5000)/500)}
		},
	} {
		b.Run(name, func(b *testing.B) {
			shapes := pattern.NewShapes()
			for k := 0; b.Loop(); k++ {
				next, err := pattern.Apply(d, c(k))
				if err != nil {
					b.Fatal(err)
				}
				if _, err := pattern.NewLayout(next, shapes); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
