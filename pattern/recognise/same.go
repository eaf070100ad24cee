package recognise

import (
	"math"

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

// near reports whether every point of f's boundary, placed by m, lies within slack of g's boundary.
func (f *form) near(g *form, m geometry.Map) bool {
	var spans []geometry.Span
	for _, e := range f.edges {
		e = geometry.Edge{P: m.Apply(e.P), Q: m.Apply(e.Q)}
		spans = g.spans(e, spans[:0])
		if !e.Covered(spans) {
			return false
		}
	}
	return true
}

// spans appends the stretches of e within slack of each edge of the form; the whole of e when one edge covers it.
func (f *form) spans(e geometry.Edge, out []geometry.Span) []geometry.Span {
	lowX, highX := min(e.P[0], e.Q[0])-slack, max(e.P[0], e.Q[0])+slack
	lowY, highY := min(e.P[1], e.Q[1])-slack, max(e.P[1], e.Q[1])+slack
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
			if min(g.P[0], g.Q[0]) > highX || max(g.P[0], g.Q[0]) < lowX || min(g.P[1], g.Q[1]) > highY ||
				max(g.P[1], g.Q[1]) < lowY {
				continue
			}
			if g.Beside(e.P, slack) && g.Beside(e.Q, slack) { // and then all between them
				return append(out[:0], geometry.Span{Lo: 0, Hi: 1})
			}
			if s, ok := e.Near(g, slack); ok {
				out = append(out, s)
			}
		}
	}
	return out
}
