package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// side is what lies between the boundary from p on edge e onwards to q on edge f and the straight line back.
type side struct {
	n            *necks
	p, q         orb.Point
	e, f         int
	runs         [2][2]int32 // the whole edges between, in one run or, over the ring's beginning, two
	area, length float64     // positive counter-clockwise; with the line back
}

func (j *joins) side(p, q orb.Point, e, f int) side {
	n, s := j.n, j.n.s
	first, count := n.ringOf(e)
	out := side{n: n, p: p, q: q, e: e, f: f}
	if e < f {
		out.runs[0] = [2]int32{int32(e + 1), int32(f)}
	} else {
		out.runs = [2][2]int32{{int32(e + 1), int32(first + count)}, {int32(first), int32(f)}}
	}
	after, before := s.pts[s.fr.edges[e]+1], s.pts[s.fr.edges[f]]
	o := s.pts[s.fr.edges[first]]
	about := func(a, b orb.Point) float64 { return Cross(Sub(a, o), Sub(b, o)) }
	sum, edges := about(p, after)+about(before, q)+about(q, p), int32(0)
	out.length = math.Sqrt(dist2(p, after)) + math.Sqrt(dist2(before, q)) + math.Sqrt(dist2(q, p))
	for _, r := range out.runs {
		sum += j.area[r[1]] - j.area[r[0]]
		out.length += j.length[r[1]] - j.length[r[0]]
		edges += r[1] - r[0]
	}
	out.area = sum / 2
	if whole := j.area[first+count] - j.area[first]; edges < exactSide || math.Abs(sum) < smallSide*math.Abs(whole) {
		out.area = RingArea(out.ring())
	}
	return out
}

// ring returns the side's outline, closed.
func (d *side) ring() orb.Ring {
	out := orb.Ring{d.p}
	for k := d.e; k != d.f; {
		k = d.n.step(k, 1)
		out = append(out, d.n.s.pts[d.n.s.fr.edges[k]])
	}
	return append(out, d.q, d.p)
}

// straight returns the parts of the side's outline that are not whole edges.
func (d *side) straight() [3][2]orb.Point {
	s := d.n.s
	return [3][2]orb.Point{{d.p, s.pts[s.fr.edges[d.e]+1]}, {s.pts[s.fr.edges[d.f]], d.q}, {d.q, d.p}}
}

func (d *side) contains(x orb.Point) bool {
	in := false
	for _, g := range d.straight() {
		in = in != rayCrosses(g[0], g[1], x)
	}
	for _, r := range d.runs {
		in = in != d.n.s.crossedOften(x, r[0], r[1])
	}
	return in
}

// border reports whether the side's outline comes nearer to x than reach mm.
func (d *side) border(x orb.Point, reach float64) bool {
	for _, g := range d.straight() {
		if dist2(x, nearestOn(g[0], g[1], x)) < reach*reach {
			return true
		}
	}
	return d.n.s.nearer(x, reach*reach, d.runs[0][0], d.runs[0][1]) ||
		d.n.s.nearer(x, reach*reach, d.runs[1][0], d.runs[1][1])
}

func (d *side) bound() orb.Bound {
	b := orb.Bound{Min: d.p, Max: d.p}.Extend(d.q)
	for _, r := range d.runs {
		b = d.n.s.extend(b, r[0], r[1], 0)
	}
	return b
}

// room reports whether some point of the side lies at least radius from the shape's boundary. Points nearer than that
// to a line of length L cover no more than about radius·L on one side of it, so that a side of twice that area has room
// without a search.
func (d *side) room(radius float64) bool {
	if math.Abs(d.area) > 2*radius*d.length {
		return true
	}
	return !d.between(radius) && d.n.s.search(d.bound(), radius, d.contains, d.border)
}

// between reports whether the edges at the side's ends are walls that leave no room for a disc anywhere between them:
// no point is farther from the nearer of the two than half the sum of both distances, and that is greatest at a corner
// of the side, because a distance from a segment is convex.
func (d *side) between(radius float64) bool {
	s := d.n.s
	a, b := s.fr.edges[d.e], s.fr.edges[d.f]
	last := s.pts[b]
	if d.p == s.pts[a+1] { // at a corner the wall is the edge that goes on
		a = s.fr.edges[d.n.step(d.e, 1)]
	}
	if d.q == last {
		b = s.fr.edges[d.n.step(d.f, -1)]
	}
	apart := func(p orb.Point) bool {
		one := math.Sqrt(dist2(p, nearestOn(s.pts[a], s.pts[a+1], p)))
		return one+math.Sqrt(dist2(p, nearestOn(s.pts[b], s.pts[b+1], p))) >= 2*radius
	}
	if apart(d.p) || apart(d.q) {
		return false
	}
	for _, r := range d.runs {
		for _, e := range s.fr.edges[r[0]:max(r[0], r[1])] {
			if apart(s.pts[e]) {
				return false
			}
		}
	}
	return !apart(last)
}

// crossedOften reports whether a ray from p crosses the edges lo…hi−1 an odd number of times.
func (s *Shape) crossedOften(p orb.Point, lo, hi int32) bool {
	in := false
	stack := [64]int32{}
	top := 1
	for top > 0 {
		top--
		k := stack[top]
		b, n := s.boxes[k], s.fr.nodes[k]
		if p[1] < b.minY || p[1] > b.maxY || p[0] > b.maxX || n.hi <= lo || n.lo >= hi {
			continue
		}
		if n.left != 0 {
			stack[top], stack[top+1] = n.left, n.right
			top += 2
			continue
		}
		for _, e := range s.fr.edges[max(lo, n.lo):min(hi, n.hi)] {
			if rayCrosses(s.pts[e], s.pts[e+1], p) {
				in = !in
			}
		}
	}
	return in
}

// extend returns b with the edges lo…hi−1 that lie in node k.
func (s *Shape) extend(b orb.Bound, lo, hi, k int32) orb.Bound {
	n := s.fr.nodes[k]
	switch {
	case n.hi <= lo || n.lo >= hi:
	case n.lo >= lo && n.hi <= hi:
		x := s.boxes[k]
		b = b.Extend(orb.Point{x.minX, x.minY}).Extend(orb.Point{x.maxX, x.maxY})
	case n.left != 0:
		b = s.extend(s.extend(b, lo, hi, n.left), lo, hi, n.right)
	default:
		for _, e := range s.fr.edges[max(lo, n.lo):min(hi, n.hi)] {
			b = b.Extend(s.pts[e]).Extend(s.pts[e+1])
		}
	}
	return b
}
