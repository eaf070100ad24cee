package geometry

import (
	"github.com/paulmach/orb"
)

// Crossing is a place where the boundaries of two shapes cross: at a fraction T of edge EdgeA of ring RingA of the one,
// and U of edge EdgeB of ring RingB of the other. Rings and edges are counted as in Rings of the shapes' own order.
type Crossing struct {
	RingA, EdgeA int
	T            float64
	RingB, EdgeB int
	U            float64
	At           orb.Point
	// Side is positive where the one boundary passes over the other from its right to its left, negative where back.
	Side float64
}

// Crossings returns where the boundaries of a and of b moved by shift cross, in no order. ok is false where an edge
// ends within slack mm of the other boundary, or runs along it, so that it is not sure whether they cross.
func Crossings(a, b *Shape, shift orb.Point, slack float64) (out []Crossing, ok bool) {
	if a.Empty() || b.Empty() {
		return nil, true
	}
	c := crossing{a: a, b: b, shift: shift, slack: slack}
	ok = c.visit(0, 0)
	return c.out, ok
}

// crossing is one search through two trees; visit recurses no deeper than the sum of their depths.
type crossing struct {
	a, b  *Shape
	shift orb.Point
	slack float64
	out   []Crossing
}

func (c *crossing) visit(i, j int32) bool {
	if c.a.boxes[i].gap2(c.b.boxes[j].moved(c.shift[0], c.shift[1])) > c.slack*c.slack {
		return true
	}
	ni, nj := c.a.fr.nodes[i], c.b.fr.nodes[j]
	switch {
	case ni.left == 0 && nj.left == 0:
		return c.leaves(ni, nj)
	case dividesFirst(ni, nj):
		return c.visit(ni.left, j) && c.visit(ni.right, j)
	}
	return c.visit(i, nj.left) && c.visit(i, nj.right)
}

func (c *crossing) leaves(ni, nj node) bool {
	for i := ni.lo; i < ni.hi; i++ {
		e := c.a.fr.edges[i]
		p0, p1 := c.a.pts[e], c.a.pts[e+1]
		for j := nj.lo; j < nj.hi; j++ {
			f := c.b.fr.edges[j]
			q0, q1 := Add(c.b.pts[f], c.shift), Add(c.b.pts[f+1], c.shift)
			if max(p0[0], p1[0])+c.slack < min(q0[0], q1[0]) || max(q0[0], q1[0])+c.slack < min(p0[0], p1[0]) ||
				max(p0[1], p1[1])+c.slack < min(q0[1], q1[1]) || max(q0[1], q1[1])+c.slack < min(p0[1], p1[1]) {
				continue
			}
			if c.unsure(p0, p1, q0, q1) {
				return false
			}
			d, g := Sub(p1, p0), Sub(q1, q0)
			den := Cross(d, g)
			if den == 0 {
				continue
			}
			w := Sub(q0, p0)
			t, u := Cross(w, g)/den, Cross(w, d)/den
			if t < 0 || t > 1 || u < 0 || u > 1 {
				continue
			}
			ra, rb := int(c.a.fr.rings[i]), int(c.b.fr.rings[j])
			c.out = append(c.out, Crossing{RingA: ra, EdgeA: int(e) - c.a.fr.ends[ra][0], T: t,
				RingB: rb, EdgeB: int(f) - c.b.fr.ends[rb][0], U: u, At: Lerp(p0, p1, t), Side: -den})
		}
	}
	return true
}

// unsure reports whether an end of one edge lies within the slack of the other edge.
func (c *crossing) unsure(p0, p1, q0, q1 orb.Point) bool {
	limit := c.slack * c.slack
	return dist2(p0, nearestOn(q0, q1, p0)) <= limit || dist2(p1, nearestOn(q0, q1, p1)) <= limit ||
		dist2(q0, nearestOn(p0, p1, q0)) <= limit || dist2(q1, nearestOn(p0, p1, q1)) <= limit
}

// OwnRings returns the shape's rings as they are kept, closed, those of each polygon after one another, and for each
// the polygon that it belongs to. The points are the shape's own.
func (s *Shape) OwnRings() (rings []orb.Ring, polygon []int) {
	next := 0
	for _, e := range s.fr.ends {
		if next < len(s.fr.polys) && int(s.fr.polys[next]) == e[0] {
			next++
		}
		rings = append(rings, s.pts[e[0]:e[1]+1])
		polygon = append(polygon, next-1)
	}
	return rings, polygon
}

// InShape says where the shape, moved by shift, lies with respect to another: Within when no part leaves it, Outside
// when their interiors do not meet, else Across. Boundaries that touch count as crossing.
func (s *Shape) InShape(other *Shape, shift orb.Point) Place {
	if s.Empty() || other.Empty() {
		return Outside
	}
	const touch = 1e-9 // mm; crossing boundaries lie on each other
	if s.boxes[0].moved(shift[0], shift[1]).gap2(other.boxes[0]) > 0 {
		return Outside
	}
	if Distance(other, s, shift, touch).Found {
		return Across
	}
	in := 0
	for _, k := range s.fr.polys {
		if other.Contains(Add(s.pts[k], shift)) {
			in++
		}
	}
	switch {
	case in == len(s.fr.polys) && !holds(s, other, shift):
		return Within
	case in == 0 && !holds(s, other, shift):
		return Outside
	}
	return Across
}

// holds reports whether a ring of the other shape lies inside the shape moved by shift; their boundaries do not cross.
func holds(s, other *Shape, shift orb.Point) bool {
	for _, e := range other.fr.ends {
		if s.Contains(Sub(other.pts[e[0]], shift)) {
			return true
		}
	}
	return false
}
