package geometry

import (
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"
)

// wider is how much wider than a neck a disc must be on either side of it.
const wider = 1.01

// hangs reports whether one side of the neck holds no disc wider than the neck.
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
		if (RingArea(side) > 0) == n.inside && !s.room(side, c.Width/2*wider) {
			return true
		}
	}
	return false
}

// widestJoin bounds the width in mm of a neck with room on both sides for a disc as wide as itself: by the area of the
// shape, which must hold both discs, or of the roomiest bay or hole of the plane around it.
func (s *Shape) widestJoin(inside bool) float64 {
	room := 0.0
	switch outline := s.Outline(); {
	case inside:
		room = s.area / 2
	case len(outline) == 1:
		room = widestBay(outline[0][0])
		for _, h := range outline[0][1:] {
			room = max(room, -RingArea(h)/2)
		}
	default: // what lies between polygons too
		b := s.Bound()
		room = (b.Max[0] - b.Min[0]) * (b.Max[1] - b.Min[1])
	}
	return math.Sqrt(4 / math.Pi * max(0, room))
}

// widestBay returns the area of the largest part of a ring's convex hull that the ring, run counter-clockwise, leaves out.
func widestBay(ring orb.Ring) float64 {
	pts := ring[:len(ring)-1]
	order := make([]int, len(pts))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(i, j int) bool {
		p, q := pts[order[i]], pts[order[j]]
		return p[0] < q[0] || (p[0] == q[0] && p[1] < q[1])
	})
	onHull := make([]bool, len(pts))
	for range 2 { // below from left to right, then above from right to left
		var chain []int
		for _, k := range order {
			for n := len(chain); n >= 2; n = len(chain) {
				a, b := sub(pts[chain[n-1]], pts[chain[n-2]]), sub(pts[k], pts[chain[n-2]])
				if a[0]*b[1]-a[1]*b[0] > 0 {
					break
				}
				chain = chain[:n-1]
			}
			chain = append(chain, k)
		}
		for _, k := range chain {
			onHull[k] = true
		}
		slices.Reverse(order)
	}
	first := slices.Index(onHull, true)
	best, bay := 0.0, orb.Ring{pts[first]}
	for i := 1; i <= len(pts); i++ {
		k := (first + i) % len(pts)
		bay = append(bay, pts[k])
		if onHull[k] {
			best = max(best, -RingArea(append(bay, bay[0])))
			bay = append(bay[:0], pts[k])
		}
	}
	return best
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
