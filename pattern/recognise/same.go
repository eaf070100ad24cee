package recognise

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// question is what was asked of two forms before, with the placing of one on the other in steps.
type question struct {
	f, g *form
	m    [6]int64
}

// same reports whether f placed by m, an isometry, agrees with g: every point of either boundary within slack of the
// other. Answers are kept, for the same question comes back for every image of a motif.
func (fd *field) same(f, g *form, m geometry.Map) bool {
	if f == g && math.Hypot(math.Hypot(m.A-1, m.B), math.Hypot(m.C, m.D-1))*f.reach+math.Hypot(m.X, m.Y) <= slack {
		return true // no point of the form is moved further
	}
	if !f.alike(g) {
		return false
	}
	q := question{f, g, [6]int64{}}
	for i, v := range [...]float64{m.A, m.B, m.C, m.D} {
		q.m[i] = int64(math.Round(v / turnStep))
	}
	q.m[4], q.m[5] = int64(math.Round(m.X/shiftStep)), int64(math.Round(m.Y/shiftStep))
	answer, ok := fd.known[q]
	if !ok {
		answer = f.near(g, m) && g.near(f, m.Rigid())
		fd.known[q] = answer
	}
	return answer
}

// near reports whether every point of f's boundary, placed by m, lies within slack of g's boundary. The points of an
// edge that are near one edge of g form an interval; it is exact but for gapSlack.
func (f *form) near(g *form, m geometry.Map) bool {
	var spans []span
	for _, e := range f.edges {
		e = edge{m.Apply(e.p), m.Apply(e.q)}
		spans = g.spans(e, spans[:0])
		slices.SortFunc(spans, func(a, b span) int { return sign(a.lo - b.lo) })
		gap := gapSlack / distance(e.p, e.q)
		reached := 0.0
		for _, s := range spans {
			if s.lo > reached+gap {
				break
			}
			reached = max(reached, s.hi)
		}
		if reached < 1-gap {
			return false
		}
	}
	return true
}

// span is a stretch of an edge as parts of its length, 0 to 1.
type span struct{ lo, hi float64 }

// spans appends the stretches of e within slack of each edge of the form.
func (f *form) spans(e edge, out []span) []span {
	lowX, highX := min(e.p[0], e.q[0])-slack, max(e.p[0], e.q[0])+slack
	lowY, highY := min(e.p[1], e.q[1])-slack, max(e.p[1], e.q[1])+slack
	var stack [64]int // the tree is no deeper than the logarithm of the edges
	stack[0] = 1
	for top := 1; top > 0; {
		top--
		k := stack[top]
		b := &f.boxes[k]
		if b.Min[0] > highX || b.Max[0] < lowX || b.Min[1] > highY || b.Max[1] < lowY {
			continue
		}
		if k < f.leaves {
			stack[top], stack[top+1] = 2*k, 2*k+1
			top += 2
			continue
		}
		from := (k - f.leaves) * leafEdges
		for _, g := range f.edges[from:min(from+leafEdges, len(f.edges))] {
			if s, ok := stretch(e, g); ok {
				out = append(out, s)
			}
		}
	}
	return out
}

// stretch returns the part of e within slack of g: where the line of e crosses g widened to a rectangle with round ends.
// That shape is convex, so the part is one interval, reaching as far as those in the rectangle and the two discs do.
func stretch(e, g edge) (span, bool) {
	d := minus(e.q, e.p)
	out := span{math.Inf(1), math.Inf(-1)}
	add := func(lo, hi float64) {
		if lo, hi = max(lo, 0), min(hi, 1); lo <= hi {
			out.lo, out.hi = min(out.lo, lo), max(out.hi, hi)
		}
	}
	dd := dot(d, d)
	for _, c := range [2]orb.Point{g.p, g.q} {
		r := minus(e.p, c)
		rd := dot(r, d)
		// The line's distance from the centre by its own formula: the usual discriminant loses digits on long edges.
		off := cross(d, r)
		if rest := slack*slack - off*off/dd; rest >= 0 {
			w := math.Sqrt(rest / dd)
			add(-rd/dd-w, -rd/dd+w)
		}
	}
	along := minus(g.q, g.p)
	l := math.Hypot(along[0], along[1])
	r := minus(e.p, g.p)
	lo, hi := 0.0, 1.0
	for _, s := range [2]struct{ at, step, min, max float64 }{
		{dot(r, along) / l, dot(d, along) / l, 0, l},
		{cross(along, r) / l, cross(along, d) / l, -slack, slack},
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
	return out, out.lo <= out.hi
}
