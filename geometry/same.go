package geometry

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// SameWithin reports whether two shapes cover the same part of the plane to within slack mm: every point of either
// boundary lies within slack of the other boundary, and their areas agree to what such a difference allows.
func SameWithin(a, b *Shape, slack float64) bool {
	if a.Empty() || b.Empty() {
		return a.Empty() == b.Empty()
	}
	if math.Abs(a.area-b.area) > slack*(a.length()+b.length()) {
		return false
	}
	// Corners first: they tell most shapes apart at once.
	for _, pair := range [2][2]*Shape{{a, b}, {b, a}} {
		for _, p := range pair[0].pts {
			if !pair[1].DistanceTo(p, slack).Found {
				return false
			}
		}
	}
	return a.liesAlong(b, slack) && b.liesAlong(a, slack)
}

// gapSlack in mm: stretches of a boundary shown to be near another must meet to within this to cover it; far above
// rounding, and far below any slack.
const gapSlack = 1e-9

// liesAlong reports whether every point of a's boundary is within slack of b's. The points of an edge that are near one
// edge of b form an interval; together the intervals must cover it.
func (a *Shape) liesAlong(b *Shape, slack float64) bool {
	var spans []Span
	for _, i := range a.fr.edges {
		e := Edge{a.pts[i], a.pts[i+1]}
		spans = b.spans(e, slack, spans[:0], 0)
		if !e.Covered(spans) {
			return false
		}
	}
	return true
}

// spans adds the stretches of an edge that are near the edges under node i of the shape. One that covers the edge
// stands alone, and ends the search.
func (s *Shape) spans(e Edge, slack float64, out []Span, i int32) []Span {
	if len(out) == 1 && out[0] == (Span{0, 1}) {
		return out
	}
	n := s.fr.nodes[i]
	reach := box{min(e.P[0], e.Q[0]), min(e.P[1], e.Q[1]), max(e.P[0], e.Q[0]), max(e.P[1], e.Q[1])}
	if s.boxes[i].gap2(reach) > slack*slack {
		return out
	}
	if n.left != 0 {
		return s.spans(e, slack, s.spans(e, slack, out, n.left), n.right)
	}
	for _, k := range s.fr.edges[n.lo:n.hi] {
		span, ok := e.Near(Edge{s.pts[k], s.pts[k+1]}, slack)
		if span == (Span{0, 1}) {
			return append(out[:0], span)
		}
		if ok {
			out = append(out, span)
		}
	}
	return out
}

// Edge is a straight piece of a boundary, from P to Q, mm.
type Edge struct{ P, Q orb.Point }

// Span is a stretch of an edge as parts of its length, 0 to 1.
type Span struct{ Lo, Hi float64 }

// Covered reports whether the spans together cover the edge, but for gaps of gapSlack. It puts them in order.
func (e Edge) Covered(spans []Span) bool {
	slices.SortFunc(spans, func(a, b Span) int { return cmp.Compare(a.Lo, b.Lo) })
	gap := gapSlack / math.Hypot(e.Q[0]-e.P[0], e.Q[1]-e.P[1])
	reached := 0.0
	for _, s := range spans {
		if s.Lo > reached+gap {
			break
		}
		reached = max(reached, s.Hi)
	}
	return reached >= 1-gap
}

// Beside reports whether p lies within slack of the edge.
func (e Edge) Beside(p orb.Point, slack float64) bool {
	d, r := Sub(e.Q, e.P), Sub(p, e.P)
	along, dd := Dot(r, d), Dot(d, d)
	switch {
	case along <= 0:
		return Dot(r, r) <= slack*slack
	case along >= dd:
		r = Sub(p, e.Q)
		return Dot(r, r) <= slack*slack
	}
	off := Cross(d, r)
	return off*off <= slack*slack*dd
}

// Near returns the part of e within slack of g: where the line of e crosses g widened to a rectangle with round ends.
// That shape is convex, so the part is one interval, reaching as far as those in the rectangle and the two discs do.
func (e Edge) Near(g Edge, slack float64) (Span, bool) {
	d := Sub(e.Q, e.P)
	out := Span{math.Inf(1), math.Inf(-1)}
	add := func(lo, hi float64) {
		if lo, hi = max(lo, 0), min(hi, 1); lo <= hi {
			out.Lo, out.Hi = min(out.Lo, lo), max(out.Hi, hi)
		}
	}
	dd := Dot(d, d)
	for _, c := range [2]orb.Point{g.P, g.Q} {
		r := Sub(e.P, c)
		rd := Dot(r, d)
		// The line's distance from the centre by its own formula: the usual discriminant loses digits on long edges.
		off := Cross(d, r)
		if rest := slack*slack - off*off/dd; rest >= 0 {
			w := math.Sqrt(rest / dd)
			add(-rd/dd-w, -rd/dd+w)
		}
	}

	along := Sub(g.Q, g.P)
	l := math.Hypot(along[0], along[1])
	r := Sub(e.P, g.P)
	lo, hi := 0.0, 1.0
	for _, s := range [2]struct{ at, step, min, max float64 }{
		{Dot(r, along) / l, Dot(d, along) / l, 0, l},
		{Cross(along, r) / l, Cross(along, d) / l, -slack, slack},
	} {
		if s.step == 0 {
			if s.at < s.min || s.at > s.max {
				hi = -1
			}
			continue
		}
		u, v := (s.min-s.at)/s.step, (s.max-s.at)/s.step
		lo, hi = max(lo, min(u, v)), min(hi, max(u, v))
	}

	add(lo, hi)
	return out, out.Lo <= out.Hi
}
