package pattern_test

import (
	"math/rand/v2"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// What a drag step costs without colours and with twelve: one command, a layout, the copies.
func BenchmarkDragStep(b *testing.B) {
	plain := patterntest.Draft(rand.New(rand.NewPCG(191, 0)), "p2mg")
	plain.Panel = draft.Panel{Width: 500, Height: 500}
	coloured := patterntest.Coloured(rand.New(rand.NewPCG(191, 0)), plain)
	g, err := symmetry.Find("p2mg")
	if err != nil {
		b.Fatal(err)
	}
	p := patterntest.Perms(g, 2, [2]symmetry.Fraction{symmetry.Frac(0, 1), symmetry.Frac(0, 1)})
	coloured, err = pattern.Apply(coloured, pattern.Command{Name: "colouring", Perms: &p})
	if err != nil {
		b.Fatal(err)
	}
	for name, d := range map[string]draft.Draft{"plain": plain, "coloured": coloured} {
		b.Run(name, func(b *testing.B) {
			cache := pattern.NewShapes()
			for b.Loop() {
				next, err := pattern.Apply(d, pattern.Command{Name: "place", ID: d.Motifs[0].ID,
					Values: map[string]float64{"x": d.Motifs[0].At[0] + 0.1}})
				if err != nil {
					b.Fatal(err)
				}
				l, err := pattern.NewLayout(next, cache)
				if err != nil {
					b.Fatal(err)
				}
				copies, err := l.Copies()
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(len(copies)), "copies")
			}
		})
	}
}
