package residue

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
)

// blob is a ragged outline as seen from its middle.
func blob(r *rand.Rand, size float64, n int) orb.MultiPolygon {
	var out orb.Ring
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * (float64(i) + 0.7*r.Float64()) / float64(n))
		d := size * (0.45 + 0.55*r.Float64())
		out = append(out, orb.Point{d * c, d * s})
	}
	return polygon(append(out, out[0]))
}

// wavy is a smooth outline.
func wavy(r *rand.Rand, size float64, n int) orb.MultiPolygon {
	p, q := 6*r.Float64(), 6*r.Float64()
	var out orb.Ring
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		d := size * (0.6 + 0.2*math.Cos(5*a+p) + 0.15*math.Cos(9*a+q))
		out = append(out, orb.Point{d * math.Cos(a), d * math.Sin(a)})
	}
	return polygon(append(out, out[0]))
}

func BenchmarkPieces(b *testing.B) {
	for _, c := range []struct {
		name string
		make func(*rand.Rand, float64, int) orb.MultiPolygon
	}{{"ragged", blob}, {"smooth", wavy}} {
		for _, n := range []int{100, 300, 600, 5000} {
			for _, size := range []float64{10, 40} {
				mp := c.make(rand.New(rand.NewPCG(1, 2)), size, n)
				for _, inside := range []bool{false, true} {
					b.Run(fmt.Sprintf("%s/%d points/%g mm/inside %v", c.name, n, size, inside), func(b *testing.B) {
						b.ReportAllocs()
						for b.Loop() {
							if _, err := find(mp, 3, 0.05, inside); err != nil {
								b.Fatal(err)
							}
						}
					})
				}
			}
		}
	}
}
