package pen

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// A stroke whose first two samples at even steps fall on one place, because the hand turned back between them, once
// took for ever: the step was measured across and not along the line.
func TestStrokeTurnsBackAtOnce(t *testing.T) {
	var there []orb.Point
	// sixteen steps of 0.25 mm, each back over the one before: samples 0.5 mm apart lie all but on one place
	for i := range 17 {
		there = append(there, orb.Point{0.25*float64(i%2) + 1e-10*float64(i), 0})
	}
	for _, jitter := range []float64{0.1, 0.25, 0.5} {
		if pts, err := Smooth(there, jitter, false); err != nil || !finite(pts) {
			t.Errorf("jitter %g: %v, %v", jitter, pts, err)
		}
		if r, err := Stroke(there, jitter); err == nil {
			whole(t, "there and back", r.Nodes)
		}
	}
}

// A stretch drawn by fewer points leaves the old one by no more than was allowed, in the tightest curls too.
func TestSimplifiedStaysWithin(t *testing.T) {
	for _, curl := range []float64{0.2, 1, 5} {
		// A long side with a curl on it that is far shorter than the steps between samples of the whole.
		r := Ring{Nodes: []Node{Corner(orb.Point{0, 0}), Corner(orb.Point{900, 0})}}
		round := func(at, along orb.Point) {
			r.Nodes = append(r.Nodes, Node{At: at, In: geometry.Sub(at, along), Out: geometry.Add(at, along),
				Round: true})
		}
		round(orb.Point{900, 60}, orb.Point{-10, 0})
		round(orb.Point{450 + curl, 60}, orb.Point{-curl, 0})
		round(orb.Point{450, 60 + curl}, orb.Point{0, curl})
		round(orb.Point{450 - curl, 60}, orb.Point{-curl, 0})
		round(orb.Point{0, 60}, orb.Point{-10, 0})
		for _, within := range []float64{0.05, 0.1, 0.5} {
			less, err := r.Simplified(Stretch{}, within)
			if err != nil {
				t.Fatal(err)
			}
			was, is := r.Polygon(), less.Polygon()
			off := 0.0
			for _, p := range was {
				off = math.Max(off, fromRing(p, is))
			}
			for _, p := range is {
				off = math.Max(off, fromRing(p, was))
			}
			if off > within+2*FlattenSlack+geometry.Grid {
				t.Errorf("a curl of %g mm, within %g mm: %d points for %d leave it by %.3f mm", curl, within,
					len(less.Nodes), len(r.Nodes), off)
			}
		}
	}
}
