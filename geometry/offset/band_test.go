package offset

import (
	"math"
	"math/rand/v2"
	"testing"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/geometry/grow"
	"openwork/geometry/overlay"

	"github.com/paulmach/orb"
)

// dense are outlines whose edges are short against what they are offset by.
var dense = []struct {
	name string
	make func(rng *rand.Rand) orb.MultiPolygon
}{
	{"smooth", func(rng *rand.Rand) orb.MultiPolygon { return wavy(rng, 2000, 0) }},
	{"noise", func(rng *rand.Rand) orb.MultiPolygon { return wavy(rng, 1500, 0.01) }},
	{"rough noise", func(rng *rand.Rand) orb.MultiPolygon { return wavy(rng, 600, 0.1) }},
	{"teeth", func(rng *rand.Rand) orb.MultiPolygon {
		r := orb.Ring{{0, -3}, {12, -3}}
		for i := range 60 {
			x := 12 - 0.2*float64(i)
			r = append(r, orb.Point{x, 2 + rng.Float64()}, orb.Point{x - 0.07, 2}, orb.Point{x - 0.1, -1},
				orb.Point{x - 0.17, -1 - rng.Float64()})
		}
		return geometry.Orient(orb.MultiPolygon{{append(r, r[0])}})
	}},
	{"holes", func(rng *rand.Rand) orb.MultiPolygon { return shellWithHoles(rng, 60) }},
}

func wavy(rng *rand.Rand, n int, noise float64) orb.MultiPolygon {
	phase := 2 * math.Pi * rng.Float64()
	ring := func(size float64, n int) orb.Ring {
		var r orb.Ring
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			d := size*(1+0.2*math.Sin(5*a+phase)) + noise*(2*rng.Float64()-1)
			r = append(r, orb.Point{geometry.Snap(d * math.Cos(a)), geometry.Snap(d * math.Sin(a))})
		}
		return append(r, r[0])
	}
	return geometry.Orient(orb.MultiPolygon{{ring(6, n), ring(3, n/2)}})
}

// TestThreeWaysAgree holds the curve that takes crossings, and the uniting run by run, against the plain curve.
func TestThreeWaysAgree(t *testing.T) {
	const tolerance = 0.0005
	all := dense
	all = append(all, families...)
	for _, f := range geometrytest.Share(t, all, len(all)/2) {
		t.Run(f.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(seed, 7))
			for range *more {
				s := f.make(rng)
				for _, d := range []float64{math.Exp(4*rng.Float64() - 4), -math.Exp(4*rng.Float64() - 4)} {
					checkWays(t, s, beside{distance: d, step: grow.Step(math.Abs(d), tolerance)})
				}
			}
		})
	}
}

func checkWays(t *testing.T, s orb.MultiPolygon, b beside) {
	t.Helper()
	for _, p := range s {
		var rings [][]orb.Point
		for j, r := range p {
			rings = append(rings, grow.Distinct(r, j == 0))
		}
		plain := b
		plain.through = true
		want, err := plain.atOnce(rings)
		if err != nil {
			t.Fatal(err)
		}
		for name, way := range map[string]func([][]orb.Point) (orb.MultiPolygon, error){"at once": b.atOnce,
			"by runs": b.byRuns} {
			got, err := way(rings)
			if err != nil {
				t.Errorf("by %g %s (seed %d): %v", b.distance, name, seed, err)
				continue
			}
			if err := geometry.CheckOutline(got); err != nil && len(got) > 0 {
				t.Errorf("by %g %s (seed %d): %v", b.distance, name, seed, err)
			}
			one, err := overlay.Difference(got, want)
			if err != nil {
				t.Fatal(err)
			}
			other, err := overlay.Difference(want, got)
			if err != nil {
				t.Fatal(err)
			}
			// All three flatten the same arcs at the same places; what differs is snapping, up to 1e-8 mm each time.
			slack := rounding * (geometry.Length(want) + 1)
			if a := geometry.Area(one) + geometry.Area(other); a > slack {
				t.Errorf("by %g %s (seed %d): differs from the plain way in %.3g mm², %.3g allowed", b.distance, name,
					seed, a, slack)
			}
		}
	}
}
