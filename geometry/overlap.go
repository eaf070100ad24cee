package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// OverlapArea returns the area in mm² common to a and to b moved by shift, without constructing it.
//
// A region is the sum of the strips below its edges, each counted with a sign: plus under an edge that runs to the
// left, minus under one that runs to the right (outer rings counter-clockwise). The product of two such sums is again a
// sum over pairs of edges, each the area under the lower of the two edges over their common stretch of x. No crossing
// is computed and no case is decided, so nothing can go wrong at touching corners or shared edges; the error is the
// rounding of the sum, near 1e-12 of the areas. Where a run of edges lies wholly above others, it counts as one edge.
// Mirrored images are handled by the sign of each shape's own sum.
func OverlapArea(a, b *Shape, shift orb.Point) float64 {
	if a.Empty() || b.Empty() {
		return 0
	}
	ab, bb := a.boxes[0], b.boxes[0].moved(shift[0], shift[1])
	lo, hi := max(ab.minX, bb.minX), min(ab.maxX, bb.maxX)
	base := max(ab.minY, bb.minY)
	if lo >= hi || base >= min(ab.maxY, bb.maxY) {
		return 0
	}
	s := strips{a: a, b: b, shift: shift, lo: lo, hi: hi, base: base}
	s.visit(0, 0)
	return math.Abs(s.sum)
}

type strips struct {
	a, b         *Shape
	shift        orb.Point
	lo, hi, base float64
	sum          float64
}

// visit goes through all pairs of nodes whose boxes share a stretch of x within (lo, hi) and reach above the base.
func (s *strips) visit(i, j int32) {
	bi, bj := s.a.boxes[i], s.b.boxes[j].moved(s.shift[0], s.shift[1])
	if max(max(bi.minX, bj.minX), s.lo) >= min(min(bi.maxX, bj.maxX), s.hi) ||
		bi.maxY <= s.base || bj.maxY <= s.base {
		return
	}
	ni, nj := s.a.fr.nodes[i], s.b.fr.nodes[j]
	if bi.minY >= bj.maxY {
		if from, to, ok := s.a.run(ni); ok {
			s.beneath(s.b, j, s.shift, from, to)
			return
		}
	}
	if bj.minY >= bi.maxY {
		if from, to, ok := s.b.run(nj); ok {
			s.beneath(s.a, i, orb.Point{}, from+s.shift[0], to+s.shift[0])
			return
		}
	}
	switch {
	case ni.left == 0 && nj.left == 0:
		s.leaves(ni, nj)
	case dividesFirst(ni, nj):
		s.visit(ni.left, j)
		s.visit(ni.right, j)
	default:
		s.visit(i, nj.left)
		s.visit(i, nj.right)
	}
}

// run returns where the edges of a node begin and end along x, if they follow each other without a gap. Over any x the
// signs of such edges add up to that of a single edge from the one end to the other: what goes there and back again
// cancels.
func (s *Shape) run(n node) (from, to float64, ok bool) {
	first, last := s.fr.edges[n.lo], s.fr.edges[n.hi-1]
	return s.pts[first][0], s.pts[last+1][0], s.fr.rings[n.lo] == s.fr.rings[n.hi-1]
}

// beneath adds the pairs of all edges of a node with edges that run from one x to another wholly above them: the lower
// edge of each pair is the node's.
func (s *strips) beneath(low *Shape, i int32, shift orb.Point, from, to float64) {
	sign := 1.0
	if from < to {
		sign = -1
	} else {
		from, to = to, from
	}
	s.underNode(low, i, shift, max(from, s.lo), min(to, s.hi), sign)
}

func (s *strips) underNode(low *Shape, i int32, shift orb.Point, from, to, sign float64) {
	b := &low.boxes[i]
	if max(from, b.minX+shift[0]) >= min(to, b.maxX+shift[0]) || b.maxY+shift[1] <= s.base {
		return
	}
	n := low.fr.nodes[i]
	if n.left != 0 {
		s.underNode(low, n.left, shift, from, to, sign)
		s.underNode(low, n.right, shift, from, to, sign)
		return
	}

	for _, e := range low.fr.edges[n.lo:n.hi] {
		p, q, sg := low.pts[e], low.pts[e+1], sign
		if p[0] < q[0] {
			sg = -sg
		} else {
			p, q = q, p
		}
		x0, x1 := max(p[0]+shift[0], from), min(q[0]+shift[0], to)
		if x0 >= x1 {
			continue
		}
		k := (q[1] - p[1]) / (q[0] - p[0])
		px, py := p[0]+shift[0], p[1]+shift[1]-s.base
		s.sum += sg * under(py+k*(x0-px), py+k*(x1-px), x1-x0)
	}
}

func (s *strips) leaves(ni, nj node) {
	for _, e := range s.a.fr.edges[ni.lo:ni.hi] {
		p0, p1 := s.a.pts[e], s.a.pts[e+1]
		if p0[0] == p1[0] {
			continue
		}
		for _, f := range s.b.fr.edges[nj.lo:nj.hi] {
			q0, q1 := s.b.pts[f], s.b.pts[f+1]
			if q0[0] == q1[0] {
				continue
			}
			q0[0] += s.shift[0]
			q0[1] += s.shift[1]
			q1[0] += s.shift[0]
			q1[1] += s.shift[1]
			s.sum += s.pair(p0, p1, q0, q1)
		}
	}
}

// pair returns the signed area above the base and under the lower of two edges.
func (s *strips) pair(p0, p1, q0, q1 orb.Point) float64 {
	sign := 1.0
	if p0[0] < p1[0] {
		sign = -sign
	} else {
		p0, p1 = p1, p0
	}
	if q0[0] < q1[0] {
		sign = -sign
	} else {
		q0, q1 = q1, q0
	}
	x0 := max(max(p0[0], q0[0]), s.lo)
	x1 := min(min(p1[0], q1[0]), s.hi)
	if x0 >= x1 {
		return 0
	}
	kp := (p1[1] - p0[1]) / (p1[0] - p0[0])
	kq := (q1[1] - q0[1]) / (q1[0] - q0[0])

	// Heights of the two edges above the base at both ends of the common stretch.
	a0, a1 := p0[1]+kp*(x0-p0[0])-s.base, p0[1]+kp*(x1-p0[0])-s.base
	b0, b1 := q0[1]+kq*(x0-q0[0])-s.base, q0[1]+kq*(x1-q0[0])-s.base
	if (a0 < b0) != (a1 < b1) && a0 != b0 && a1 != b1 {
		t := (b0 - a0) / ((b0 - a0) - (b1 - a1))
		x := t * (x1 - x0)
		h := a0 + t*(a1-a0)
		return sign * (under(min(a0, b0), h, x) + under(h, min(a1, b1), x1-x0-x))
	}
	if a0+a1 < b0+b1 {
		return sign * under(a0, a1, x1-x0)
	}
	return sign * under(b0, b1, x1-x0)
}

// under returns the area between the base and a line of heights h0 to h1 over w, counting only what lies above it.
func under(h0, h1, w float64) float64 {
	switch {
	case h0 <= 0 && h1 <= 0:
		return 0
	case h0 < 0:
		return h1 * w * h1 / (h1 - h0) / 2
	case h1 < 0:
		return h0 * w * h0 / (h0 - h1) / 2
	}
	return (h0 + h1) / 2 * w
}
