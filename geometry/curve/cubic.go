package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// frame is the chord from one joint to another as the unit of length and the axis of x, and what a piece between them
// is to have in it.
type frame struct {
	from, dir    orb.Point
	l            float64
	s0, c0       float64 // direction at the start
	s1, c1       float64 // direction at the end
	area, moment float64 // of the polygon's way, closed by the chord: area and first moment along x
}

// newFrame measures the polygon's way from a to b, the steps between the joints and their anchors with it. ok is false
// when the joints fall together.
func newFrame(a, b *joint, poly []orb.Point) (f frame, ok bool) {
	d := geometry.Sub(b.at, a.at)
	f.from, f.l = a.at, math.Hypot(d[0], d[1])
	if f.l <= minLength {
		return f, false
	}
	f.dir = geometry.Times(d, 1/f.l)
	f.c0, f.s0 = geometry.Dot(f.dir, a.out), geometry.Cross(f.dir, a.out)
	f.c1, f.s1 = geometry.Dot(f.dir, b.in), geometry.Cross(f.dir, b.in)
	last := orb.Point{}
	step := func(p orb.Point) {
		q := geometry.Sub(p, a.at)
		// The triangle from the start to this step: its area, and that times its centre.
		t := geometry.Cross(last, q) / 2
		f.area += t
		f.moment += t * geometry.Dot(f.dir, geometry.Add(last, q)) / 3
		last = q
	}

	for _, p := range poly {
		step(p)
	}
	step(b.at)
	f.area /= f.l * f.l
	f.moment /= f.l * f.l * f.l
	return f, true
}

// piece returns the Bézier with handles of length a and b in units of the chord.
func (f *frame) piece(a, b float64, from, to *joint) Piece {
	return Piece{Kind: Cubic, To: to.at,
		C1: geometry.Add(from.at, geometry.Times(from.out, a*f.l)),
		C2: geometry.Sub(to.at, geometry.Times(to.in, b*f.l))}
}

// other returns the length of the second handle that gives a Bézier with a first handle a the frame's area. With the
// chord from (0, 0) to (1, 0) the area is (6·b·sin θ1 − 6·a·sin θ0 − 3·a·b·sin(θ1−θ0))/20.
func (f *frame) other(a float64) float64 {
	return (20*f.area + 6*a*f.s0) / (6*f.s1 - 3*a*(f.s1*f.c0-f.c1*f.s0))
}

// momentOf returns the first moment along x of the area of the Bézier with these handles: half the integral of x² dy.
func (f *frame) momentOf(a, b float64) float64 {
	x1, y1, x2, y2 := a*f.c0, a*f.s0, 1-b*f.c1, -b*f.s1
	sum := 0.0
	for _, g := range gauss {
		t := g[0]
		s := 1 - t
		x := 3*s*s*t*x1 + 3*s*t*t*x2 + t*t*t
		dy := 3 * (s*s*y1 + 2*s*t*(y2-y1) - t*t*y2)
		sum += g[1] * x * x * dy
	}
	return sum / 2
}

// handles are the lengths tried, in units of the chord, evenly in proportion.
var handles = func() (h [handleSteps]float64) {
	for k := range h {
		h[k] = shortHandle * math.Pow(longHandle/shortHandle, float64(k)/(handleSteps-1))
	}
	return h
}()

// fits returns Béziers with the frame's directions, area and first moment, as far as there are any: up to four. That a
// fit to area and moment needs no search for parameters is R. Levien's observation (Parallel curves of cubic Béziers,
// 2022); here the equation that is left is solved by trying.
func (f *frame) fits(from, to *joint) []Piece {
	if math.Abs(f.s0) < 1e-3 && math.Abs(f.s1) < 1e-3 && f.c0 > 0 && f.c1 > 0 && math.Abs(f.area) < 1e-3 {
		return []Piece{f.piece(1.0/3, 1.0/3, from, to)}
	}
	var out []Piece
	rest := func(a float64) (r, b float64) {
		b = f.other(a)
		if !(b > shortHandle/2 && b < 2*longHandle) {
			return math.NaN(), b
		}
		return f.momentOf(a, b) - f.moment, b
	}
	smallest, la, lb := math.Inf(1), 0.0, 0.0
	a0, r0 := math.NaN(), math.NaN()
	for k := range handleSteps {
		a1 := handles[k]
		r1, b1 := rest(a1)
		if math.Abs(r1) < smallest {
			smallest, la, lb = math.Abs(r1), a1, b1
		}
		if r0*r1 < 0 {
			a := solve(rest, a0, r0, a1, r1)
			if r, b := rest(a); !math.IsNaN(r) {
				out = append(out, f.piece(a, b, from, to))
			}
		}
		a0, r0 = a1, r1
	}

	if len(out) == 0 && !math.IsInf(smallest, 0) {
		out = append(out, f.piece(la, lb, from, to))
	}
	return out
}

// solve narrows an interval down to where f changes its sign, by regula falsi with the Illinois rule.
func solve(f func(float64) (float64, float64), a, fa, b, fb float64) float64 {
	side := 0
	x := a
	for range solveSteps {
		x = (fa*b - fb*a) / (fa - fb)
		fx, _ := f(x)
		switch {
		case math.IsNaN(fx) || fx == 0:
			return x
		case fx*fb > 0:
			b, fb = x, fx
			if side == 1 {
				fa /= 2
			}
			side = 1
		default:
			a, fa = x, fx
			if side == -1 {
				fb /= 2
			}
			side = -1
		}
	}
	return x
}

// flat reports whether a Bézier is a straight line for all that anyone can see: its control points lie within slack mm
// of the chord, in order, and its ends point along it.
func (q Piece) flat(from orb.Point, slack float64) bool {
	d := geometry.Sub(q.To, from)
	l := math.Hypot(d[0], d[1])
	a, b := geometry.Sub(q.C1, from), geometry.Sub(q.To, q.C2)
	level := func(h orb.Point) bool {
		return geometry.Dot(d, h) >= 0 && geometry.Dot(d, h) <= l*l &&
			math.Abs(geometry.Cross(d, h)) <= min(slack*l, straightTurn*geometry.Dot(d, h))
	}
	return level(a) && level(b)
}
