package simplify

import (
	"math"
	"math/rand"
	"testing"

	"openwork/geometry"

	"github.com/paulmach/orb"
)

// Strips, gaps and holes narrower than the tolerance: nothing crosses, nothing is lost.
func TestNearerThanTheTolerance(t *testing.T) {
	for seed := range int64(15) {
		rng := rand.New(rand.NewSource(seed))
		var mp orb.MultiPolygon
		gap := 0.002 + 0.05*rng.Float64()
		// A wavy strip folded on itself, a comb of teeth, and one blob in another with next to nothing between.
		wave := func(x float64) float64 { return 0.7 * math.Sin(x) }
		var strip orb.Ring
		for k := range 400 {
			x := float64(k) / 20
			strip = append(strip, orb.Point{x, wave(x)})
		}
		for k := 399; k >= 0; k-- {
			x := float64(k) / 20
			strip = append(strip, orb.Point{x, wave(x) + gap})
		}
		mp = append(mp, orb.Polygon{append(strip, strip[0])})
		var comb orb.Ring
		for k := range 40 {
			x := float64(k) * gap * 2
			comb = append(comb, orb.Point{x, 5 + 0.1*rng.Float64()}, orb.Point{x, 9}, orb.Point{x + gap, 9},
				orb.Point{x + gap, 5 + 0.1*rng.Float64()})
		}
		comb = append(comb, orb.Point{40 * gap * 2, 3}, orb.Point{0, 3})
		mp = append(mp, orb.Polygon{backward(append(comb, comb[0]))})
		state := *rng
		outer := wobbly(&state, 30, 20, 6, 0, 900)
		var inner orb.Ring
		for _, v := range outer {
			k := 1 - gap/6
			inner = append(inner, orb.Point{30 + k*(v[0]-30), 20 + k*(v[1]-20)})
		}
		mp = append(mp, orb.Polygon{outer, backward(inner)})
		const tolerance = 0.05
		got, err := Outline(mp, Options{Tolerance: tolerance})
		if err != nil {
			t.Errorf("seed %d, gap %g: %v", seed, gap, err)
			continue
		}
		if len(got) != 3 || len(got[2]) != 2 {
			t.Errorf("seed %d: %d polygons", seed, len(got))
			continue
		}
		if bad := meets(got); bad > 0 {
			t.Errorf("seed %d, gap %g: %d pairs of edges meet", seed, gap, bad)
		}
		for k, r := range []orb.Ring{mp[0][0], mp[1][0], outer} {
			if to, from := away(got[k][0], r, 0.05), away(r, got[k][0], 1); to > tolerance+geometry.Grid ||
				from > tolerance+geometry.Grid {
				t.Errorf("seed %d, ring %d: %g and %g mm away", seed, k, to, from)
			}
		}
	}
}

// Points that rings share stay shared, and nothing else touches.
func TestTouchingRings(t *testing.T) {
	a := dense(closed(orb.Point{0, 0}, orb.Point{5, 0}, orb.Point{5, 5}, orb.Point{0, 5}, orb.Point{0, 2.6}), 0.2)
	b := dense(closed(orb.Point{5, 5}, orb.Point{9, 5}, orb.Point{9, 9}, orb.Point{5, 9}), 0.2)
	hole := ringOf(100, func(a float64) orb.Point { return orb.Point{1 - math.Cos(a), 2.5 - math.Sin(a)} })
	hole[0], hole[100] = orb.Point{0, 2.6}, orb.Point{0, 2.6}
	got, err := Outline(orb.MultiPolygon{{a, backward(hole)}, {b}}, Options{Tolerance: 0.05})
	if err != nil || len(got) != 2 || len(got[0]) != 2 {
		t.Fatal(got, err)
	}
	for _, want := range []orb.Point{{5, 5}, {0, 2.6}} {
		n := 0
		for _, p := range got {
			for _, r := range p {
				for _, v := range r[1:] {
					if v == want {
						n++
					}
				}
			}
		}
		if n != 2 {
			t.Errorf("%v is a corner of %d rings, not 2", want, n)
		}
	}
	if geometry.Points(got) > 60 {
		t.Errorf("%d points", geometry.Points(got))
	}
}
