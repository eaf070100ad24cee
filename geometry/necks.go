package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// Neck is a narrow place of a region: a segment from P to Q that meets the region's boundary squarely at both ends (or
// within the normal cone at a corner), lies in the region, and is a local minimum of the distance across. Whether it
// joins two wider parts of the region or crosses something that is held at one end is not a matter of the segment
// alone: see NarrowestJoin, and package residue for all such places of a width.
type Neck struct {
	P, Q  orb.Point
	Width float64
}

// Necks returns necks narrower than limit mm, the narrowest first and no more than most: of the shape itself when
// inside is true, else of the plane around it. Two parallel edges that face each other give one, in the middle of the
// stretch where they do; a place may come more than once where corners take part. The shape's outer rings must run
// counter-clockwise and its holes clockwise (a shape placed by a mirroring map must be asked before it is placed).
func (s *Shape) Necks(limit float64, inside bool, count int) []Neck {
	f := s.NeckFinder(inside)
	out := []Neck{}
	q := &neckQueue{f: f, limit2: limit * limit}
	q.run(func(c candidate) bool {
		if len(out) < count && f.n.clear(c.Neck) {
			out = append(out, c.Neck)
		}
		return len(out) >= count
	})
	return out
}

// NarrowestJoin returns the narrowest neck from over mm up to limit mm (math.Inf(1) for no limit) on both sides of
// which there is room for a disc a hundredth wider than the neck itself; ok is false when there is none. Where the two
// ends lie on different rings of the shape both sides are one, and the neck counts.
func (s *Shape) NarrowestJoin(over, limit float64, inside bool) (neck Neck, ok bool) {
	limit = min(limit, s.widestJoin(inside))
	if s.Empty() || !(limit > over) {
		return Neck{}, false
	}
	f := s.NeckFinder(inside)
	j := newJoins(&f.n)
	q := &neckQueue{f: f, limit2: limit * limit, skip: j.hopeless, wanted: j.possible}
	q.run(func(c candidate) bool {
		if ok = c.Width >= over && j.joins(c); ok {
			neck = c.Neck
		}
		return ok
	})
	return neck, ok
}

// candidate is a neck with the edges its ends lie on.
type candidate struct {
	Neck
	e, f int // indexes into frame.edges
}

type necks struct {
	s      *Shape
	limit  float64
	inside bool
	found  []candidate
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
	n.found = append(n.found, candidate{Neck{P: p, Q: q, Width: d}, e, f})
}

// middleOfFacing moves the nearest points of two parallel edges to the middle of the stretch where they face each
// other.
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
	in := Sub(s.pts[s.fr.edges[before]+1], s.pts[s.fr.edges[before]])
	out := in
	if after != before {
		out = Sub(s.pts[s.fr.edges[after]+1], s.pts[s.fr.edges[after]])
	}

	// The distance across must not shrink on the way back along `in` nor on the way on along `out`. Most pairs of edges
	// end here, before a root is taken.
	back, on := -(u[0]*in[0] + u[1]*in[1]), u[0]*out[0]+u[1]*out[1]
	if (back > 0 && back > squareSlack*norm(in)) || (on > 0 && on > squareSlack*norm(out)) {
		return false
	}

	// Rings keep the shape on their left: u points into it when it lies to the left of the edges.
	left := (in[0]*u[1]-in[1]*u[0])*norm(out)+(out[0]*u[1]-out[1]*u[0])*norm(in) > 0
	return left == n.inside
}

func norm(v orb.Point) float64 { return math.Sqrt(v[0]*v[0] + v[1]*v[1]) }

// clear reports whether the neck lies in the region: no edge crosses it, and its middle is on the right side.
func (n *necks) clear(c Neck) bool {
	return !n.s.Crosses(c.P, c.Q) && n.s.Contains(orb.Point{(c.P[0] + c.Q[0]) / 2, (c.P[1] + c.Q[1]) / 2}) == n.inside
}

// Crosses reports whether the boundary meets the open segment p–q away from its ends (by a millionth of its length).
func (s *Shape) Crosses(p, q orb.Point) bool {
	if s.Empty() {
		return false
	}
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
			if _, meets := SegmentsMeet(a, b, s.pts[e], s.pts[e+1]); meets {
				return true
			}
		}
	}
	return false
}
