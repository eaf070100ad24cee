package geometry

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
)

// A girder whose corners alone are four-fold: a quarter-turn carries corners to corners, and the shape to another.
func TestCornersAloneAreNotTheShape(t *testing.T) {
	girder := orb.MultiPolygon{{{{-3, -3}, {3, -3}, {3, -1}, {1, -1}, {1, 1}, {3, 1}, {3, 3}, {-3, 3}, {-3, 1}, {-1, 1},
		{-1, -1}, {-3, -1}, {-3, -3}}}}
	a := NewShape(girder)
	turned := NewShape(Transform(girder, TurnDegrees(90)))
	if SameWithin(a, turned, 0.02) {
		t.Error("the girder is its own quarter-turn")
	}
	if !SameWithin(a, NewShape(Transform(girder, TurnDegrees(180))), 0.02) {
		t.Error("the girder is not its own half-turn")
	}
}

// Whatever points lie along its edges, a shape is the same; moved by less than the slack it is, by more it is not.
func TestSameWithinAgainstSampledBoundaries(t *testing.T) {
	seed := uint64(91)
	r := rand.New(rand.NewPCG(seed, 1))
	// gap is the greatest distance of sampled points of a's boundary from b's, by brute force.
	gap := func(a, b orb.MultiPolygon) float64 {
		worst := 0.0
		for _, e := range edgesOf(a) {
			for i := range 21 {
				f := float64(i) / 20
				p := orb.Point{e[0][0] + f*(e[1][0]-e[0][0]), e[0][1] + f*(e[1][1]-e[0][1])}
				near := math.Inf(1)
				for _, g := range edgesOf(b) {
					near = math.Min(near, math.Sqrt(dist2(nearestOn(g[0], g[1], p), p)))
				}
				worst = math.Max(worst, near)
			}
		}
		return worst
	}
	both := 0
	for n := range 400 {
		a := blob(r, orb.Point{}, 10, 5+r.IntN(12), r.IntN(2) == 0)
		b := Transform(a, Translate(0.03*r.NormFloat64(), 0.03*r.NormFloat64()))
		if r.IntN(3) == 0 { // a corner elsewhere
			k := 1 + r.IntN(len(b[0][0])-2)
			b[0][0][k][0] += 0.06 * r.NormFloat64()
		}
		const slack = 0.05
		g := math.Max(gap(a, b), gap(b, a))
		if math.Abs(g-slack) < 1e-3 {
			continue // the samples may miss the worst place
		}
		got := SameWithin(NewShape(a), NewShape(b), slack)
		if got != (g < slack) {
			t.Errorf("seed %d, %d: same %v, and the boundaries are %g apart", seed, n, got, g)
		}
		if got {
			both++
		}
	}
	if both < 40 || both > 360 {
		t.Errorf("%d of 400 are the same", both)
	}
}
