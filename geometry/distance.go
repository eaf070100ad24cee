package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// Near is the shortest way between two boundaries: D mm from P on the first to Q on the second. Where the boundaries
// cross or touch, D is 0 and P = Q is such a point. Found is false when nothing lies within the asked limit.
type Near struct {
	D     float64
	P, Q  orb.Point
	Found bool
}

// Distance returns the shortest way between the boundaries of a and of b moved by shift, if it is below limit mm
// (math.Inf(1) for no limit). It is exact to the rounding of one projection. Two shapes one of which lies inside the
// other have a distance between their boundaries too: ask Inside as well where that matters.
func Distance(a, b *Shape, shift orb.Point, limit float64) Near {
	if a.Empty() || b.Empty() || !(limit > 0) {
		return Near{}
	}
	w := walk{a: a, b: b, shift: shift, best2: math.Inf(1)}
	if !math.IsInf(limit, 1) {
		w.best2 = limit * limit
	}
	w.visit(0, 0)
	if !w.found {
		return Near{}
	}
	return Near{D: math.Sqrt(w.best2), P: w.p, Q: w.q, Found: true}
}

// walk is one search through two trees; visit recurses no deeper than the sum of their depths.
type walk struct {
	a, b  *Shape
	shift orb.Point
	best2 float64
	p, q  orb.Point
	found bool
}

func (w *walk) gap2(i, j int32) float64 {
	return w.a.boxes[i].gap2(w.b.boxes[j].moved(w.shift[0], w.shift[1]))
}

// visit goes through the pair of nodes (i, j), the nearer halves first. A pair that cannot beat the best is left.
func (w *walk) visit(i, j int32) {
	ni, nj := w.a.fr.nodes[i], w.b.fr.nodes[j]
	if ni.left == 0 && nj.left == 0 {
		w.leaves(ni, nj)
		return
	}
	var pairs [2][2]int32
	if dividesFirst(ni, nj) {
		pairs = [2][2]int32{{ni.left, j}, {ni.right, j}}
	} else {
		pairs = [2][2]int32{{i, nj.left}, {i, nj.right}}
	}
	g0, g1 := w.gap2(pairs[0][0], pairs[0][1]), w.gap2(pairs[1][0], pairs[1][1])
	if g1 < g0 {
		pairs[0], pairs[1], g0, g1 = pairs[1], pairs[0], g1, g0
	}
	if g0 < w.best2 {
		w.visit(pairs[0][0], pairs[0][1])
	}
	if g1 < w.best2 {
		w.visit(pairs[1][0], pairs[1][1])
	}
}

func (w *walk) leaves(ni, nj node) {
	for _, e := range w.a.fr.edges[ni.lo:ni.hi] {
		p0, p1 := w.a.pts[e], w.a.pts[e+1]
		for _, f := range w.b.fr.edges[nj.lo:nj.hi] {
			q0, q1 := w.b.pts[f], w.b.pts[f+1]
			q0[0] += w.shift[0]
			q0[1] += w.shift[1]
			q1[0] += w.shift[0]
			q1[1] += w.shift[1]
			if p, q, d2 := segmentsNear(p0, p1, q0, q1); d2 < w.best2 {
				w.best2, w.p, w.q, w.found = d2, p, q, true
			}
			if w.best2 == 0 {
				return
			}
		}
	}
}

// segmentsNear returns the nearest points of two segments and the square of their distance.
func segmentsNear(p0, p1, q0, q1 orb.Point) (p, q orb.Point, d2 float64) {
	if x, ok := SegmentsMeet(p0, p1, q0, q1); ok {
		return x, x, 0
	}
	p, q = p0, nearestOn(q0, q1, p0)
	d2 = dist2(p, q)
	if c := nearestOn(q0, q1, p1); dist2(p1, c) < d2 {
		p, q, d2 = p1, c, dist2(p1, c)
	}
	if c := nearestOn(p0, p1, q0); dist2(c, q0) < d2 {
		p, q, d2 = c, q0, dist2(c, q0)
	}
	if c := nearestOn(p0, p1, q1); dist2(c, q1) < d2 {
		p, q, d2 = c, q1, dist2(c, q1)
	}
	return p, q, d2
}

// SegmentsMeet reports whether two segments that are not parallel have a point in common, and which. Parallel ones that
// overlap are left to the distances of their ends, which are then zero.
func SegmentsMeet(p0, p1, q0, q1 orb.Point) (orb.Point, bool) {
	if max(p0[0], p1[0]) < min(q0[0], q1[0]) || max(q0[0], q1[0]) < min(p0[0], p1[0]) ||
		max(p0[1], p1[1]) < min(q0[1], q1[1]) || max(q0[1], q1[1]) < min(p0[1], p1[1]) {
		return orb.Point{}, false
	}
	dx, dy := p1[0]-p0[0], p1[1]-p0[1]
	ex, ey := q1[0]-q0[0], q1[1]-q0[1]
	den := dx*ey - dy*ex
	if den == 0 {
		return orb.Point{}, false
	}
	fx, fy := q0[0]-p0[0], q0[1]-p0[1]
	t := (fx*ey - fy*ex) / den
	u := (fx*dy - fy*dx) / den
	if t < 0 || t > 1 || u < 0 || u > 1 {
		return orb.Point{}, false
	}
	return orb.Point{p0[0] + t*dx, p0[1] + t*dy}, true
}

// nearestOn returns the point of the segment a–b nearest to p.
func nearestOn(a, b, p orb.Point) orb.Point {
	dx, dy := b[0]-a[0], b[1]-a[1]
	l2 := dx*dx + dy*dy
	if l2 == 0 {
		return a
	}
	t := ((p[0]-a[0])*dx + (p[1]-a[1])*dy) / l2
	if t <= 0 {
		return a
	}
	if t >= 1 {
		return b
	}
	return orb.Point{a[0] + t*dx, a[1] + t*dy}
}

func dist2(p, q orb.Point) float64 {
	dx, dy := p[0]-q[0], p[1]-q[1]
	return dx*dx + dy*dy
}

// Inside reports whether a part of one shape lies inside the other, for shapes whose boundaries do not cross: then a
// polygon is inside as a whole or not at all, and its first corner decides.
func Inside(a, b *Shape, shift orb.Point) bool {
	for _, k := range a.fr.polys {
		p := a.pts[k]
		if b.Contains(orb.Point{p[0] - shift[0], p[1] - shift[1]}) {
			return true
		}
	}
	for _, k := range b.fr.polys {
		p := b.pts[k]
		if a.Contains(orb.Point{p[0] + shift[0], p[1] + shift[1]}) {
			return true
		}
	}
	return false
}

// DistanceTo returns the distance from p to the shape's boundary and the nearest boundary point, if below limit.
func (s *Shape) DistanceTo(p orb.Point, limit float64) Near {
	near, _ := s.nearestEdge(p, limit)
	return near
}

// nearestEdge is DistanceTo, and returns the first point of the edge that is nearest, -1 for none.
func (s *Shape) nearestEdge(p orb.Point, limit float64) (out Near, edge int32) {
	if s.Empty() {
		return Near{}, -1
	}
	best := limit * limit
	if math.IsInf(limit, 1) {
		best = limit
	}
	out, edge = Near{P: p}, -1
	at := box{p[0], p[1], p[0], p[1]}
	var visit func(k int32)
	visit = func(k int32) {
		n := s.fr.nodes[k]
		if n.left != 0 {
			l, r := n.left, n.right
			gl, gr := s.boxes[l].gap2(at), s.boxes[r].gap2(at)
			if gr < gl {
				l, r, gl, gr = r, l, gr, gl
			}
			if gl < best {
				visit(l)
			}
			if gr < best {
				visit(r)
			}
			return
		}
		for _, e := range s.fr.edges[n.lo:n.hi] {
			if c := nearestOn(s.pts[e], s.pts[e+1], p); dist2(c, p) < best {
				best, out.Q, out.Found, edge = dist2(c, p), c, true, e
			}
		}
	}

	visit(0)
	out.D = math.Sqrt(best)
	return out, edge
}

func (s *Shape) length() float64 {
	sum := 0.0
	for _, e := range s.fr.edges {
		sum += math.Sqrt(dist2(s.pts[e], s.pts[e+1]))
	}
	return sum
}

// Nearer reports whether some point of the shape's boundary lies nearer to p than limit mm.
func (s *Shape) Nearer(p orb.Point, limit float64) bool {
	if s.Empty() || !(limit > 0) {
		return false
	}
	return s.nearer(p, limit*limit, 0, int32(len(s.fr.edges)))
}

// nearer reports whether some point of the edges lo…hi−1 lies nearer to p than the root of limit2.
func (s *Shape) nearer(p orb.Point, limit2 float64, lo, hi int32) bool {
	at := box{p[0], p[1], p[0], p[1]}
	if s.boxes[0].gap2(at) >= limit2 {
		return false
	}
	stack := [64]int32{}
	top := 1
	for top > 0 {
		top--
		n := s.fr.nodes[stack[top]]
		if n.left == 0 {
			for _, e := range s.fr.edges[max(lo, n.lo):max(lo, min(hi, n.hi))] {
				if dist2(nearestOn(s.pts[e], s.pts[e+1], p), p) < limit2 {
					return true
				}
			}
			continue
		}
		l, r := n.left, n.right // the nearer one last, so that it is looked into first
		gl, gr := math.Inf(1), math.Inf(1)
		if m := s.fr.nodes[l]; m.lo < hi && m.hi > lo {
			gl = s.boxes[l].gap2(at)
		}
		if m := s.fr.nodes[r]; m.lo < hi && m.hi > lo {
			gr = s.boxes[r].gap2(at)
		}
		if gl < gr {
			l, r, gl, gr = r, l, gr, gl
		}
		if gl < limit2 {
			stack[top] = l
			top++
		}
		if gr < limit2 {
			stack[top] = r
			top++
		}
	}
	return false
}
