package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// deviation returns a bound on how far a way of chords and a polygon's way lie from each other, each point of either
// from the other, in mm; +Inf as soon as it is over limit. Both run the same way between ends that belong together.
//
// The two are walked together: each point of the chords is held against the nearest place of the polygon not before the
// last, each vertex of the polygon passed over against the nearest place of the chord. Between two such pairs both ways
// are straight, and the distance of two points that move evenly along straight lines is greatest at an end: so the
// greatest distance of a pair bounds the Fréchet distance of the two ways, and thereby the Hausdorff distance in both
// directions.
func deviation(chord, poly []orb.Point, limit float64) float64 {
	worst := distance(chord[0], poly[0])
	e, u := 0, 0.0 // the place on the polygon: edge and part of it
	last := len(chord) - 1
	for k := 1; k <= last; k++ {
		from, to := chord[k-1], chord[k]
		ne, nu := len(poly)-2, 1.0
		if k < last {
			ne, nu = ahead(poly, e, u, to, 2*distance(from, to)+4*limit)
		}
		t := 0.0
		for v := e + 1; v <= ne; v++ {
			t = max(t, nearest(from, to, poly[v]))
			worst = max(worst, distance(poly[v], geometry.Lerp(from, to, t)))
		}
		worst = max(worst, distance(to, geometry.Lerp(poly[ne], poly[ne+1], nu)))
		if !(worst <= limit) {
			return math.Inf(1)
		}
		e, u = ne, nu
	}
	return worst
}

// ahead returns the place of the polygon nearest to p among those from edge e, part u on, no further than reach mm
// along it.
func ahead(poly []orb.Point, e int, u float64, p orb.Point, reach float64) (int, float64) {
	best, be, bu := math.Inf(1), e, u
	gone := 0.0
	for k := e; k+1 < len(poly) && gone <= reach; k++ {
		t := nearest(poly[k], poly[k+1], p)
		from := 0.0
		if k == e {
			t, from = max(t, u), u
		}
		d := geometry.Sub(p, geometry.Lerp(poly[k], poly[k+1], t))
		if l := geometry.Dot(d, d); l < best {
			best, be, bu = l, k, t
		}
		gone += distance(poly[k], poly[k+1]) * (1 - from)
	}
	return be, bu
}

// nearest returns the part of the segment a–b at which it is nearest to p.
func nearest(a, b, p orb.Point) float64 {
	d := geometry.Sub(b, a)
	l := geometry.Dot(d, d)
	if l == 0 {
		return 0
	}
	return max(0, min(1, geometry.Dot(geometry.Sub(p, a), d)/l))
}

// offSegment returns how far p is from the segment from a to b.
func offSegment(a, b, p orb.Point) float64 { return distance(p, geometry.Lerp(a, b, nearest(a, b, p))) }
