package simplify

import (
	"math"

	"openwork/geometry"
)

// refineFar refines the spans whose edge strays too far from the ring, and, where the ring's area cannot be kept, the
// roughest span. It says whether there were any: such a span is cut in two where it strays most, or, when it is short
// or time is up, drawn as chords. Afterwards joins lie elsewhere, so it must be asked again.
func (f *fit) refineFar(last bool) bool {
	if len(f.spans) == 0 {
		return false
	}
	if f.draw(); len(f.spans) < 3 || f.turned() {
		return f.refineAll()
	}
	again := false
	spans := f.spans
	roughest := -1
	if !last && math.Abs(f.missing) > areaSlack*math.Abs(f.area) {
		roughest = f.roughest()
	}
	var out []span
	for k, s := range spans {
		at, far := f.strays(k)
		far = far || k == roughest
		switch {
		case !far:
			out = append(out, s)
			continue
		case last || f.steps(s.i, s.j) <= shortSpan:
			s.level = 1
			out = append(out, s)
		default:
			a, b := s, s
			a.j, a.b = at, at
			b.i, b.a, b.sharp = at, at, false
			if f.steps(s.i, s.a) >= f.steps(s.i, at) && s.a != s.i {
				a.a = s.i
			}
			if f.steps(s.b, s.j) >= f.steps(at, s.j) && s.b != s.j {
				b.b = s.j
			}
			out = append(out, a, b)
		}
		again = true
	}

	f.spans = out
	return again
}

// roughest returns the span whose run lies least well along a line, among those that can be cut in two; −1 if none can.
func (f *fit) roughest() int {
	best, worst := -1, 0.0
	for k, s := range f.spans {
		if s.level > 0 || f.steps(s.i, s.j) <= shortSpan {
			continue
		}
		if r := f.between(s.i, s.j).residual(); r > worst {
			best, worst = k, r
		}
	}
	return best
}

// strays says whether span k, drawn as one edge, lies too far from its run, and where best to cut it then.
func (f *fit) strays(k int) (at int, far bool) {
	s := f.spans[k]
	if s.level > 0 {
		return 0, false
	}
	next := f.spans[(k+1)%len(f.spans)]
	v, w := f.joins[k], f.joins[(k+1)%len(f.spans)]
	n := f.steps(s.i, s.j)
	worst := 1.0
	at, far = f.step(s.i, n/2), false
	for m, p := 0, s.i; m <= n; m, p = m+1, f.step(p, 1) {
		allowed := f.o.Tolerance
		if s.sharp && s.a != s.i && m < f.steps(s.i, s.a) {
			allowed += s.reach
		}
		if next.sharp && s.b != s.j && n-m < f.steps(s.b, s.j) {
			allowed += next.reach
		}
		if d := toSegment(f.p[p], v, w) / allowed; d > worst {
			worst, far = d, true
			if m > n/8 && m < n-n/8 && m > 1 && m < n-1 {
				at = p
			} else {
				at = f.step(s.i, n/2)
			}
		}
	}
	return at, far
}

// turned says whether the answer's area has another sign than the ring's, or no more than half of it: a small ring
// drawn with too few points.
func (f *fit) turned() bool {
	if len(f.p) < 3 || f.spans[0].level >= finest {
		return false
	}
	var sum int64
	for k, c := range f.drawn {
		d, o := f.drawn[(k+1)%len(f.drawn)], f.drawn[0]
		sum += (c.x-o.x)*(d.y-o.y) - (c.y-o.y)*(d.x-o.x)
	}
	return float64(sum)/2*geometry.Grid*geometry.Grid/f.area < 0.5
}

// refineAll refines every span by one level, and says whether there was anything to refine.
func (f *fit) refineAll() bool {
	refined := false
	for k := range f.spans {
		refined = f.refineAt(k) || refined
	}
	return refined
}

// refineAt refines one span by one level, and says whether it could be.
func (f *fit) refineAt(k int) bool {
	if f.spans[k].level >= finest {
		return false
	}
	f.spans[k].level++
	return true
}
