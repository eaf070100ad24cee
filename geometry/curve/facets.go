package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// facets returns a ring as lines, short edges drawn together, and how far the two lie from each other: further than the
// tolerance where no shorter way leaves no edge too short, or where drawing together would make the ring cross itself.
// Where there is none at all, edges are too short.
func facets(r orb.Ring, o Options) (Path, float64) {
	// Too short an edge is worse than a place somewhat off.
	for _, times := range [...]float64{1, 1.5, 2.5, 4} {
		for _, longer := range [...]float64{1, 1.15, 1.4} {
			path, dev, ok := drawnTogether(r, o, longer*o.Shortest, times*o.Tolerance)
			if ok && path.Shortest() >= o.Shortest && uncrossed(path) {
				return path, dev
			}
		}
	}
	return Polygon(r), 0
}

// drawnTogether returns a ring as lines with edges shorter than least mm drawn together within a tolerance, moved so
// that it keeps its area, and how far the two lie from each other; ok is false when nothing is left of it.
func drawnTogether(r orb.Ring, o Options, least, tolerance float64) (path Path, dev float64, ok bool) {
	var out orb.Ring
	for _, k := range tidied(open(r), least, tolerance) {
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
