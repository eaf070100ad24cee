package overlay

import (
	"math"
	"math/rand/v2"
	"testing"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

// TestTangles winds random closed walks about, on a coarse grid and off it, and compares with winding numbers.
func TestTangles(t *testing.T) {
	rng := rand.New(rand.NewPCG(seed, 7))
	for k := range 400 {
		var rings []orb.Ring
		for range 1 + rng.IntN(4) {
			var r orb.Ring
			for range 3 + rng.IntN(12) {
				p := orb.Point{float64(rng.IntN(8)), float64(rng.IntN(8))}
				if k%3 == 1 {
					p = orb.Point{8 * rng.Float64(), 8 * rng.Float64()}
				} else if k%3 == 2 { // hair's breadths off the grid
					p[0] += float64(rng.IntN(5)-2) * math.Pow(10, -float64(6+rng.IntN(5)))
				}
				r = append(r, p)
			}
			rings = append(rings, append(r, r[0]))
		}
		got, err := Positive(rings)
		if err != nil {
			t.Fatalf("walk %d (seed %d): %v", k, seed, err)
		}
		if f := geostest.Fault(got); f != "" {
			t.Fatalf("walk %d (seed %d): %s", k, seed, f)
		}
		holdPoints(t, "walk", rng, rings, got)
	}
}

// TestDust winds walks about within a few hundred steps of the grid, where nearly everything is snapped to something.
// Some of these need a second frame. Nothing is asked of the results but that they are valid and small.
func TestDust(t *testing.T) {
	rng := rand.New(rand.NewPCG(seed, 11))
	again := 0
	var walks []orb.Ring
	for range 4000 {
		var r orb.Ring
		for range 3 + rng.IntN(40) {
			r = append(r, orb.Point{gridStep * float64(rng.IntN(300)), gridStep * float64(rng.IntN(300))})
		}
		walks = append(walks, r)
	}
	walks = geometrytest.Share(t, walks, 1600)
	for k, r := range walks {
		rule := func(a, _ int32) bool { return a > 0 }
		if _, err := outlineIn(frames[:1], "dust", []orb.Ring{r}, nil, rule); err != nil {
			again++
		}
		got, err := Positive([]orb.Ring{r})
		if err != nil {
			t.Fatalf("walk %d (seed %d): %v", k, seed, err)
		}
		if a := geometry.Area(got); a < 0 || a > 1e-13 {
			t.Errorf("walk %d (seed %d) has an area of %g", k, seed, a)
		}
	}
	t.Logf("%d of %d needed another frame", again, len(walks))
	if again > len(walks)/100 {
		t.Errorf("%d of %d walks needed another frame", again, len(walks))
	}
}

// TestEveryFrame makes each attempt on its own: the coarser grids and the turned frames find what the first one finds.
func TestEveryFrame(t *testing.T) {
	rule := func(a, b int32) bool { return a > 0 && b <= 0 }
	for _, f := range pairFamilies {
		rng := rand.New(rand.NewPCG(seed, 8))
		for range 3 {
			s := f.make(rng)
			var ra, rb []orb.Ring
			for _, p := range s[0] {
				ra = append(ra, p...)
			}
			for _, p := range s[1] {
				rb = append(rb, p...)
			}
			want, err := frames[0].attempt(ra, rb, rule)
			if err != nil {
				t.Fatal(err)
			}
			for _, at := range frames[1:] {
				got, err := at.attempt(ra, rb, rule)
				if err != nil {
					t.Errorf("%s (seed %d) in %v: %v", f.name, seed, at, err)
					continue
				}
				if a, b := geometry.Area(got), geometry.Area(want); math.Abs(a-b) > slackOf(s...)*at.step/gridStep {
					t.Errorf("%s (seed %d) in %v: area %.12g, in the first frame %.12g", f.name, seed, at, a, b)
				}
			}
		}
	}
}
