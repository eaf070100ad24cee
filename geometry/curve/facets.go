package curve

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
)

// facets returns a ring as lines, short edges drawn together, and how far the two lie from each other: further than the
// tolerance where no shorter way leaves no edge too short, or where drawing together would make the ring cross itself.
// Where there is none at all, edges are too short. Once loops were cut away, the distance is that from what is left.
func facets(r orb.Ring, o Options) (Path, float64) {
	// Too short an edge is worse than a place somewhat off. Most rings are done at once, the rest thoroughly.
	from, shortest := r, o.Shortest-math.Sqrt2*o.Grid // points on the grid may come a step nearer
	for i, times := range [...]float64{1, 1, 1.1, 1.2, 1.5, 2.5, 4} {
		path, dev, ok := drawnTogether(from, o, o.Shortest, times*o.Tolerance, i > 0)
		switch {
		case !ok || path.Shortest() < shortest:
		case uncrossed(path):
			return path, dev
		default:
			// Loops are cut away, and what is short then is drawn together again.
			if cut := withoutLoops(path.Flatten(1)); cut != nil {
				from = cut
			}
		}
	}
	return Polygon(r), 0
}

// withoutLoops returns the largest ring of what a ring of lines winds round, running as it does; nil where there is
// none.
func withoutLoops(r orb.Ring) orb.Ring {
	turned := geometry.RingArea(r) < 0
	if turned {
		r = slices.Clone(r)
		slices.Reverse(r)
	}
	mp, err := overlay.Positive([]orb.Ring{r})
	if err != nil {
		return nil
	}
	var best orb.Ring
	for _, p := range mp {
		if best == nil || geometry.RingArea(p[0]) > geometry.RingArea(best) {
			best = p[0]
		}
	}
	if turned {
		slices.Reverse(best)
	}
	return best
}

// drawnTogether returns a ring as lines with edges shorter than least mm drawn together within a tolerance, moved so
// that it keeps its area, and how far the two lie from each other; ok is false when nothing is left of it.
func drawnTogether(r orb.Ring, o Options, least, tolerance float64, thoroughly bool) (path Path, dev float64, ok bool) {
	var out orb.Ring
	for _, k := range tidied(open(r), least, tolerance, thoroughly) {
		out, dev = append(out, k.at), max(dev, k.stray)
	}
	if len(out) < 3 {
		return Path{}, 0, false
	}
	out = append(out, out[0])
	by := (geometry.RingArea(r)-geometry.RingArea(out))/ringLength(out) + o.Beside
	if math.Abs(by) < o.Tolerance-dev {
		out, dev = beside(out, by), dev+math.Abs(by)
	}
	if path = Polygon(out); o.Grid > 0 && o.Kind != Line {
		path = path.onGrid(o.Grid)
	}
	return path, dev, true
}

// uncrossed reports whether a closed path of lines does not cross or touch itself, whichever way it runs.
func uncrossed(p Path) bool {
	ring := distinct(p.Flatten(1))
	return geometry.CheckOutline(geometry.Orient(orb.MultiPolygon{{ring}})) == nil
}
