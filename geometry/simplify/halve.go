package simplify

import (
	"math"
	"slices"
)

// halve cuts runs in two whose arc rises further from its chord than Options.Rise. The height is that of the parabola
// that fits the run best, which what the contour shakes hardly changes, so a straight side is not cut.
func (f *fit) halve() {
	if f.o.Rise <= 0 || len(f.spans) < 3 {
		return
	}
	for k := 0; k < len(f.spans); k++ {
		s := f.spans[k]
		if f.steps(s.a, s.b) <= 2*shortSpan || f.height(s) <= f.o.Rise {
			continue
		}
		half, at := f.length(s.a, s.b)/2, s.a
		for f.length(s.a, f.step(at, 1)) < half { // ends: half is less than the length to s.b
			at = f.step(at, 1)
		}
		if at == s.a {
			continue
		}
		a, b := s, s
		a.j, a.b, b.i, b.a, b.sharp = at, at, at, at, false
		a.line, b.line = f.lineThrough(a.a, a.b), f.lineThrough(b.a, b.b)
		f.spans[k] = a
		f.spans = slices.Insert(f.spans, k+1, b)
		k++
	}
}

// height returns how far the parabola that fits a run best rises from its chord, by the second Legendre polynomial of
// the way along it.
func (f *fit) height(s span) float64 {
	from, to := s.line.way(f.p[s.a]), s.line.way(f.p[s.b])
	middle, half := (from+to)/2, (to-from)/2
	if half <= 0 {
		return 0
	}
	sum, weight := 0.0, 0.0
	for k := s.a; k != s.b; k = f.step(k, 1) {
		p, q := f.p[k], f.p[f.step(k, 1)]
		l := f.length(k, f.step(k, 1))
		u := ((s.line.way(p)+s.line.way(q))/2 - middle) / half
		legendre := (3*u*u - 1) / 2
		sum += l * legendre * (s.line.off(p) + s.line.off(q)) / 2
		weight += l * legendre * legendre
	}
	if weight <= 0 {
		return 0
	}
	return 1.5 * math.Abs(sum/weight)
}

// way returns how far along the line v lies.
func (l line) way(v [2]float64) float64 {
	return l.dir[0]*(v[0]-l.on[0]) + l.dir[1]*(v[1]-l.on[1])
}
