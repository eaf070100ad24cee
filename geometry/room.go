package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// hangs reports whether the neck's smaller side holds no disc of the asked width.
func (n *necks) hangs(c candidate) bool {
	s := n.s
	if s.fr.rings[c.e] != s.fr.rings[c.f] {
		return false
	}
	one := n.arc(c.P, c.Q, c.e, c.f)
	two := n.arc(c.Q, c.P, c.f, c.e)
	for _, side := range []orb.Ring{one, two} {
		// A side of the region itself runs counter-clockwise when the region is the shape; the plane around the shape
		// has its bays clockwise, and its unbounded side counter-clockwise, which always has room.
		if (RingArea(side) > 0) == n.inside && !s.room(side, n.limit/2) {
			return true
		}
	}
	return false
}

// arc returns the closed ring from p on edge e along the boundary to q on edge f and straight back.
func (n *necks) arc(p, q orb.Point, e, f int) orb.Ring { return append(n.line(p, q, e, f), p) }

// line returns the boundary from p on edge e onwards to q on edge f.
func (n *necks) line(p, q orb.Point, e, f int) []orb.Point {
	line := []orb.Point{p}
	for k := e; k != f; {
		k = n.step(k, 1)
		line = append(line, n.s.pts[n.s.fr.edges[k]])
	}
	return append(line, q)
}

// room reports whether some point of the ring's inside lies at least radius from the shape's boundary. Points nearer than
// that to a line of length L cover no more than about radius·L on one side of it, so that a ring of twice that area has
// room without a search.
func (s *Shape) room(ring orb.Ring, radius float64) bool {
	if math.Abs(RingArea(ring)) > 2*radius*Length(orb.MultiPolygon{{ring}}) {
		return true
	}
	inner := orb.MultiPolygon{{ring}}
	return s.search(ring.Bound(), radius, func(p orb.Point) bool { return Contains(inner, p) },
		func(p orb.Point) float64 { return ringGap(ring, p) })
}

// HasRoom reports whether the shape holds a disc of the given radius in mm, to a hundredth of it.
func (s *Shape) HasRoom(radius float64) bool {
	if s.Empty() {
		return false
	}
	return s.search(s.Bound(), radius, s.Contains, func(p orb.Point) float64 { return s.DistanceTo(p, math.Inf(1)).D })
}

// search looks in the box for a point that is in and lies at least radius from the shape's boundary. It divides squares,
// as in the search for a pole of inaccessibility, until none can hold such a point, or until a square is so small that
// the answer differs by less than a hundredth of the radius. gap gives a point's distance from the border of what is in.
func (s *Shape) search(b orb.Bound, radius float64, in func(orb.Point) bool, gap func(orb.Point) float64) bool {
	type square struct {
		c    orb.Point
		half float64
	}
	size := max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) / 2
	todo := []square{{b.Center(), size}}
	for len(todo) > 0 {
		q := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		reach := q.half * math.Sqrt2
		d := s.DistanceTo(q.c, radius+reach)
		isIn := in(q.c)
		switch {
		case isIn && (!d.Found || d.D >= radius):
			return true
		case d.Found && d.D+reach < radius, q.half < radius/100, !isIn && reach < gap(q.c):
			continue
		}
		h := q.half / 2
		for _, o := range [4]orb.Point{{-h, -h}, {h, -h}, {-h, h}, {h, h}} {
			todo = append(todo, square{orb.Point{q.c[0] + o[0], q.c[1] + o[1]}, h})
		}
	}
	return false
}

// ringGap returns the distance from p to the ring's line.
func ringGap(r orb.Ring, p orb.Point) float64 {
	best := math.Inf(1)
	for i := 0; i+1 < len(r); i++ {
		best = min(best, dist2(p, nearestOn(r[i], r[i+1], p)))
	}
	return math.Sqrt(best)
}
