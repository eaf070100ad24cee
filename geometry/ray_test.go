package geometry

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
)

// The tree finds what going through every edge finds.
func TestRayHitAgainstEveryEdge(t *testing.T) {
	seed := uint64(12)
	r := rand.New(rand.NewPCG(seed, 1))
	hits := 0
	for n := range 500 {
		mp := blob(r, orb.Point{20 * r.NormFloat64(), 20 * r.NormFloat64()}, 10, 5+r.IntN(80), r.IntN(2) == 0)
		s := NewShape(mp)
		p := orb.Point{15 * r.NormFloat64(), 15 * r.NormFloat64()}
		sin, cos := math.Sincos(2 * math.Pi * r.Float64())
		far := 80 * r.Float64()
		want, found := far, false
		for _, e := range edgesOf(mp) {
			if d, ok := rayMeets(p, orb.Point{cos, sin}, e[0], e[1]); ok && d <= want {
				want, found = d, true
			}
		}
		got, ok := s.RayHit(p, orb.Point{cos, sin}, far)
		if ok != found || (ok && got != want) {
			t.Errorf("seed %d, %d: %g %v, want %g %v", seed, n, got, ok, want, found)
		}
		if ok {
			hits++
		}
	}
	if hits < 50 {
		t.Errorf("only %d rays hit", hits)
	}
	square := NewShape(orb.MultiPolygon{{{{1, -1}, {3, -1}, {3, 1}, {1, 1}, {1, -1}}}})
	if d, ok := square.RayHit(orb.Point{}, orb.Point{1, 0}, 10); !ok || d != 1 {
		t.Errorf("a square 1 mm away is hit after %g, %v", d, ok)
	}
}
