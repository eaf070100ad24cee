package geometry

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
)

// Neck is a narrow place of a region: a segment from P to Q that meets the region's boundary squarely at both ends (or
// within the normal cone at a corner), lies in the region, and is a local minimum of the distance across. Hangs tells
// that on one side of it nothing of the region is wide enough to hold a disc of the asked width: what it cuts off is
// held at this end only.
type Neck struct {
	P, Q  orb.Point
	Width float64
	Hangs bool
}

// Necks returns the necks narrower than limit mm, the narrowest first: of the shape itself when inside is true, else of
// the plane around it. Of necks closer together than limit only the narrowest is kept. The shape's outer rings must run
// counter-clockwise and its holes clockwise (a shape placed by a mirroring map must be asked before it is placed).
//
// The time grows with the number of pairs of edges nearer than limit.
func (s *Shape) Necks(limit float64, inside bool) []Neck {
	if s.Empty() || !(limit > 0) {
		return nil
	}
	n := necks{s: s, limit: limit, inside: inside}
	n.visit(0, 0)
	sort.SliceStable(n.found, func(i, j int) bool { return n.found[i].Width < n.found[j].Width })
	var kept []candidate
	for _, c := range n.found {
		if !n.near(c, kept) && n.clear(c.Neck) {
			kept = append(kept, c)
		}
	}
	out := make([]Neck, 0, len(kept))
	for _, c := range kept {
		c.Hangs = n.hangs(c)
		out = append(out, c.Neck)
	}
	return out
}

// candidate is a neck with the edges its ends lie on.
type candidate struct {
	Neck
	e, f int // indexes into frame.edges
}

type necks struct {
	s       *Shape
	limit   float64
	inside  bool
	closing bool // keep only the narrowest clear neck, and lower limit to it
	found   []candidate
}

// NarrowestNeck returns the narrowest neck under limit mm (math.Inf(1) for no limit) of the shape itself or of the plane
// around it; ok is false when there is none. Hangs is not looked at.
func (s *Shape) NarrowestNeck(limit float64, inside bool) (neck Neck, ok bool) {
	if s.Empty() || !(limit > 0) {
		return Neck{}, false
	}
	n := necks{s: s, limit: limit, inside: inside, closing: true}
	n.visit(0, 0)
	if len(n.found) == 0 {
		return Neck{}, false
	}
	return n.found[0].Neck, true
}

// visit goes through all pairs of nodes nearer than limit, each pair once.
func (n *necks) visit(i, j int32) {
	s := n.s
	if s.boxes[i].gap2(s.boxes[j]) >= n.limit*n.limit {
		return
	}
	a, b := s.fr.nodes[i], s.fr.nodes[j]
	switch {
	case i == j && a.left != 0:
		n.visit(a.left, a.left)
		n.visit(a.left, a.right)
		n.visit(a.right, a.right)
	case a.left == 0 && b.left == 0:
		for e := a.lo; e < a.hi; e++ {
			for f := max(b.lo, e+1); f < b.hi; f++ {
				n.pair(int(e), int(f))
			}
		}
	case b.left == 0 || (a.left != 0 && a.hi-a.lo >= b.hi-b.lo):
		n.visit(a.left, j)
		n.visit(a.right, j)
	default:
		n.visit(i, b.left)
		n.visit(i, b.right)
	}
}

// pair notes the neck between edges e < f, if their nearest points make one.
func (n *necks) pair(e, f int) {
	s := n.s
	if n.step(e, 1) == f || n.step(f, 1) == e {
		return
	}
	p0, p1 := s.pts[s.fr.edges[e]], s.pts[s.fr.edges[e]+1]
	q0, q1 := s.pts[s.fr.edges[f]], s.pts[s.fr.edges[f]+1]
	p, q, d2 := segmentsNear(p0, p1, q0, q1)
	if d2 >= n.limit*n.limit || d2 == 0 {
		return
	}
	p, q = middleOfFacing(p0, p1, q0, q1, p, q)
	d := math.Sqrt(d2)
	u := orb.Point{(q[0] - p[0]) / d, (q[1] - p[1]) / d}
	if !n.square(e, p, u) || !n.square(f, q, orb.Point{-u[0], -u[1]}) {
		return
	}
	c := candidate{Neck{P: p, Q: q, Width: d}, e, f}
	switch {
	case !n.closing:
		n.found = append(n.found, c)
	case n.clear(c.Neck):
		n.found, n.limit = []candidate{c}, d
	}
}

// middleOfFacing moves the nearest points of two parallel edges to the middle of the stretch where they face each other.
func middleOfFacing(p0, p1, q0, q1, p, q orb.Point) (orb.Point, orb.Point) {
	dx, dy := p1[0]-p0[0], p1[1]-p0[1]
	ex, ey := q1[0]-q0[0], q1[1]-q0[1]
	l2, m2 := dx*dx+dy*dy, ex*ex+ey*ey
	if l2 == 0 || m2 == 0 || math.Abs(dx*ey-dy*ex) > squareSlack*math.Sqrt(l2*m2) {
		return p, q
	}
	along := func(v orb.Point) float64 { return ((v[0]-p0[0])*dx + (v[1]-p0[1])*dy) / l2 }
	a, b := along(q0), along(q1)
	lo, hi := max(0, min(a, b)), min(1, max(a, b))
	if lo >= hi {
		return p, q
	}
	t := (lo + hi) / 2
	p = orb.Point{p0[0] + t*dx, p0[1] + t*dy}
	return p, nearestOn(q0, q1, p)
}

// step returns the edge k steps on along the same ring.
func (n *necks) step(e, k int) int {
	r := n.s.fr.ends[n.s.fr.rings[e]]
	first := e - (int(n.s.fr.edges[e]) - r[0])
	count := r[1] - r[0]
	return first + ((e-first+k)%count+count)%count
}

// square reports whether the direction u leaves the boundary point p of edge e into the region, squarely: at right
// angles to an edge, or so that at a corner neither neighbouring edge leads nearer.
func (n *necks) square(e int, p orb.Point, u orb.Point) bool {
	s := n.s
	a, b := s.pts[s.fr.edges[e]], s.pts[s.fr.edges[e]+1]
	before, after := e, e
	switch p {
	case a:
		before = n.step(e, -1)
	case b:
		after = n.step(e, 1)
	}
	in := unit(s.pts[s.fr.edges[before]], s.pts[s.fr.edges[before]+1])
	out := unit(s.pts[s.fr.edges[after]], s.pts[s.fr.edges[after]+1])
	// The distance across must not shrink on the way back along `in` nor on the way on along `out`.
	if -(u[0]*in[0]+u[1]*in[1]) > squareSlack || u[0]*out[0]+u[1]*out[1] > squareSlack {
		return false
	}
	// Rings keep the shape on their left: u points into it when it lies to the left of the edges.
	left := in[0]*u[1]-in[1]*u[0]+out[0]*u[1]-out[1]*u[0] > 0
	return left == n.inside
}

func unit(a, b orb.Point) orb.Point {
	dx, dy := b[0]-a[0], b[1]-a[1]
	l := math.Hypot(dx, dy)
	if l == 0 {
		return orb.Point{}
	}
	return orb.Point{dx / l, dy / l}
}

// near reports whether a neck belongs to a place already kept: both its ends are near that neck's, or the two sides of
// the boundary between the two necks stay nearer to each other than the limit all the way.
func (n *necks) near(c candidate, kept []candidate) bool {
	l2 := n.limit * n.limit
	for _, k := range kept {
		if (dist2(c.P, k.P) < l2 && dist2(c.Q, k.Q) < l2) || (dist2(c.P, k.Q) < l2 && dist2(c.Q, k.P) < l2) {
			return true
		}
		if one, two := n.between(k, c); alongside(one, two, l2) && alongside(two, one, l2) {
			return true
		}
	}
	return false
}

// longestSide bounds the corners of one side that are compared: a corridor longer than that is told as several places.
const longestSide = 100

// alongside reports whether every corner of one line lies within the limit, given squared, of the other line.
func alongside(one, two []orb.Point, limit2 float64) bool {
	if len(one) < 2 || len(two) < 2 {
		return false
	}
	for _, p := range one {
		near := false
		for i := 0; i+1 < len(two) && !near; i++ {
			near = dist2(p, nearestOn(two[i], two[i+1], p)) < limit2
		}
		if !near {
			return false
		}
	}
	return true
}

// between returns the two lines of boundary that lead from one neck of a ring to another, nil where they are not of one
// ring.
func (n *necks) between(k, c candidate) (one, two []orb.Point) {
	rings := n.s.fr.rings
	if r := rings[k.e]; rings[k.f] != r || rings[c.e] != r || rings[c.f] != r {
		return nil, nil
	}
	p, q, x, y := n.place(k.e, k.P), n.place(k.f, k.Q), n.place(c.e, c.P), n.place(c.f, c.Q)
	count := float64(n.s.fr.ends[rings[k.e]][1] - n.s.fr.ends[rings[k.e]][0])
	ahead := func(from, to float64) float64 { return math.Mod(to-from+count, count) }
	for range 2 { // once from P onwards, once from Q
		a, b, end := ahead(p, x), ahead(p, y), ahead(p, q)
		if a < end && b < end {
			if a > b {
				a, b = b, a
				c.P, c.Q, c.e, c.f = c.Q, c.P, c.f, c.e
			}
			if a > longestSide || end-b > longestSide {
				return nil, nil
			}
			return n.line(k.P, c.P, k.e, c.e), n.line(c.Q, k.Q, c.f, k.f)
		}
		k.P, k.Q, k.e, k.f = k.Q, k.P, k.f, k.e
		p, q = q, p
	}
	return nil, nil
}

// place returns how far along its ring a boundary point lies: edges from the ring's start, and the fraction of its own.
func (n *necks) place(e int, p orb.Point) float64 {
	s := n.s
	a, b := s.pts[s.fr.edges[e]], s.pts[s.fr.edges[e]+1]
	t := 0.0
	if l := dist2(a, b); l > 0 {
		t = math.Sqrt(dist2(a, p) / l)
	}
	return float64(int(s.fr.edges[e])-s.fr.ends[s.fr.rings[e]][0]) + t
}

// clear reports whether the neck lies in the region: on the right side at its middle, and no edge crosses it.
func (n *necks) clear(c Neck) bool {
	mid := orb.Point{(c.P[0] + c.Q[0]) / 2, (c.P[1] + c.Q[1]) / 2}
	if n.s.Contains(mid) != n.inside {
		return false
	}
	return !n.s.Crosses(c.P, c.Q)
}

// Crosses reports whether the boundary meets the open segment p–q away from its ends (by a millionth of its length).
func (s *Shape) Crosses(p, q orb.Point) bool {
	const trim = 1e-6 // the ends lie on the boundary themselves
	a := orb.Point{p[0] + trim*(q[0]-p[0]), p[1] + trim*(q[1]-p[1])}
	b := orb.Point{q[0] + trim*(p[0]-q[0]), q[1] + trim*(p[1]-q[1])}
	seg := box{min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])}
	stack := [64]int32{}
	top := 1
	for top > 0 {
		top--
		k := stack[top]
		if s.boxes[k].gap2(seg) > 0 {
			continue
		}
		nd := s.fr.nodes[k]
		if nd.left != 0 {
			stack[top], stack[top+1] = nd.left, nd.right
			top += 2
			continue
		}
		for _, e := range s.fr.edges[nd.lo:nd.hi] {
			if _, meets := segmentsMeet(a, b, s.pts[e], s.pts[e+1]); meets {
				return true
			}
		}
	}
	return false
}
