package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// facets returns a ring as lines, short edges drawn together, and how far the two lie from each other: further than the
// tolerance where no shorter way leaves no edge too short.
func facets(r orb.Ring, o Options) (Path, float64) {
	var out orb.Ring
	dev := 0.0
	for _, times := range [...]float64{1, 1.5, 2.5, 4} { // too short an edge is worse than a place somewhat off
		out, dev = nil, 0
		for _, k := range tidied(open(r), o.Shortest, times*o.Tolerance) {
			out, dev = append(out, k.at), max(dev, k.stray)
		}
		if len(out) >= 3 && Polygon(append(out, out[0])).Shortest() >= o.Shortest {
			break
		}
	}
	if len(out) < 3 {
		return Polygon(r), 0
	}
	out = append(out, out[0])
	by := (geometry.RingArea(r)-geometry.RingArea(out))/ringLength(out) + o.Beside
	if math.Abs(by) < o.Tolerance-dev {
		out, dev = beside(out, by), dev+math.Abs(by)
	}
	return Polygon(out), dev
}
