package panel

import (
	"math/rand/v2"
	"testing"

	"openwork/pattern"
	"openwork/pattern/patterntest"
)

// BenchmarkPanel checks 2,000 copies of 300 points each, of which one in twenty runs into another: twenty motifs in a p1
// cell, a hundred cells, one motif pushed into the next.
func BenchmarkPanel(b *testing.B) {
	r := rand.New(rand.NewPCG(77, 1))
	d := pattern.Default()
	d.Panel = pattern.Panel{Width: 2040, Height: 1640}
	d.Field = pattern.Field{Margin: 20, Origin: [2]float64{20, 20}, Edge: pattern.Whole}
	d.Repeat = pattern.Repeat{Group: "p1", A: 200, B: 160, Gamma: 90}
	for i := range 4 {
		d.Silhouettes = append(d.Silhouettes, pattern.Silhouette{ID: string(rune('a' + i)), Outline: patterntest.Smooth(r, 15, 300)})
	}
	for i := range 20 {
		at := [2]float64{20 + 40*float64(i%5), 20 + 40*float64(i/5)}
		if i == 7 {
			at[0] -= 28
		}
		d.Motifs = append(d.Motifs, pattern.Motif{ID: string(rune('m')) + string(rune('a'+i)), Silhouette: string(rune('a' + i%4)), At: at, Turn: float64(17 * i), Scale: 1})
	}
	var overlaps, copies int
	for b.Loop() {
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			b.Fatal(err)
		}
		report, err := Check(l)
		if err != nil {
			b.Fatal(err)
		}
		overlaps, copies = 0, report.Counts.Copies
		for _, p := range report.Problems {
			if p.Kind == "overlap" {
				overlaps++
			}
		}
	}
	if copies < 1900 || overlaps < 90 {
		b.Fatalf("%d copies, %d overlaps", copies, overlaps)
	}
}
