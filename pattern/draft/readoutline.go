package draft

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
)

// outline reads a MultiPolygon's coordinates and turns its rings the right way round.
func (r *reader) outline() orb.MultiPolygon {
	var mp orb.MultiPolygon
	r.list(0, "", func() {
		var p orb.Polygon
		r.list(0, "", func() { p = append(p, r.ring()) })
		if len(p) == 0 {
			r.fail("a polygon needs a ring; this one has none")
		}
		mp = append(mp, p)
	})
	if r.err != nil {
		return nil
	}
	return geometry.Orient(mp)
}

func (r *reader) ring() orb.Ring {
	var ring orb.Ring
	given := 0
	r.list(0, "", func() {
		p := orb.Point(r.point())
		if given++; r.err == nil {
			// Twice, because points that repeat the one before do not count in the end.
			if r.points++; r.points > 2*MaxPoints {
				r.fail("%s", tooManyPoints)
			}
			if len(ring) == 0 || ring[len(ring)-1] != p {
				ring = append(ring, p)
			}
		}
	})
	if r.err == nil && len(ring) < 4 {
		r.fail("a ring of %d points (%d without repeats) bounds nothing; it needs at least three corners and its "+
			"first point again at the end",
			given, len(ring))
	}
	return ring
}
