package pen

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// bezier returns the point of a cubic at t.
func bezier(b [4]orb.Point, t float64) orb.Point {
	s := 1 - t
	w0, w1, w2, w3 := s*s*s, 3*s*s*t, 3*s*t*t, t*t*t
	return orb.Point{w0*b[0][0] + w1*b[1][0] + w2*b[2][0] + w3*b[3][0], w0*b[0][1] + w1*b[1][1] + w2*b[2][1] +
		w3*b[3][1]}
}

// fit appends to nodes the curves that answer a dense line within a tolerance, from its first point, which is the last
// node there is, to its last. t0 and t1 are the directions, of length one, into the line at both ends. From each place
// one curve goes as far as it can: the one of least squares with its directions given, its parameters bettered by
// Newton's steps (P. J. Schneider, "An Algorithm for Automatically Fitting Digitized Curves", Graphics Gems, 1990), the
// furthest end found by doubling and halving. within is false where the line turns so sharply that a curve of the
// fewest samples leaves it further.
func fit(nodes []Node, pts []orb.Point, t0, t1 orb.Point, tolerance float64) (out []Node, within bool) {
	end := len(pts) - 1
	within = true
	for from := 0; from < end; {
		try := func(to int) ([4]orb.Point, orb.Point, bool) {
			dir := t1
			if to < end {
				dir = geometry.Times(direction(pts, to), -1)
			}
			b, ok := reached(pts[from:to+1], t0, dir, tolerance)
			return b, dir, ok
		}
		to := min(end, from+minRun)
		best, dir, near := try(to)
		hi := end + 1 // the nearest end known not to be reached
		for step := 2 * minRun; to < end && hi > end; step *= 2 {
			next := min(end, from+step)
			if end-next < minRun { // so short a rest has no curve of its own
				next = end
			}
			b, d, ok := try(next)
			if !ok {
				hi = next
				break
			}
			to, best, dir, near = next, b, d, true
		}
		for lo := to; hi <= end && hi-lo > 1; {
			mid := (lo + hi) / 2
			if b, d, ok := try(mid); ok && end-mid >= minRun {
				lo, to, best, dir, near = mid, mid, b, d, true
			} else {
				hi = mid
			}
		}
		within = within && near
		last := &nodes[len(nodes)-1]
		node := Node{At: best[3], In: best[2], Out: best[3], Round: to < end}
		last.Out = best[1]
		nodes = append(nodes, node)
		from, t0 = to, geometry.Times(dir, -1)
	}
	return nodes, within
}

// reached returns the curve of least squares through a dense line's ends with the directions given, and whether it
// stays within the tolerance.
func reached(pts []orb.Point, t0, t1 orb.Point, tolerance float64) ([4]orb.Point, bool) {
	u := lengths(pts)
	b := cubic(pts, u, t0, t1)
	off := worst(b, pts, u)
	for round := 0; round < betterRounds && off > tolerance && off < worthBetter*tolerance; round++ {
		better(b, pts, u)
		b = cubic(pts, u, t0, t1)
		off = worst(b, pts, u)
	}
	return b, off <= tolerance && followed(b, pts, u, tolerance)
}

// followed reports whether a curve stays by the line between its points too: it may loop where two parameters lie far
// apart.
func followed(b [4]orb.Point, pts []orb.Point, u []float64, tolerance float64) bool {
	for i := 0; i+1 < len(pts); i++ {
		gap := u[i+1] - u[i]
		if gap < 0 {
			return false // it runs back
		}
		parts := 1 + int(math.Ceil(2*gap*float64(len(pts)-1)))
		for k := 1; k < parts; k++ {
			p, l := bezier(b, u[i]+gap*float64(k)/float64(parts)), geometry.Sub(pts[i+1], pts[i])
			f := 0.0
			if n := geometry.Dot(l, l); n > 0 {
				f = math.Max(0, math.Min(1, geometry.Dot(geometry.Sub(p, pts[i]), l)/n))
			}
			if geometry.PointDistance(p, geometry.Add(pts[i], geometry.Times(l, f))) > tolerance {
				return false
			}
		}
	}
	return true
}

// near reports whether two directions differ by less than sameTurn.
func near(a, b orb.Point) bool { return geometry.Dot(a, b) > math.Cos(sameTurn) }

// flat reports whether all points lie within a distance of the line from the first to the last.
func flat(pts []orb.Point, within float64) bool {
	d := geometry.Unit(geometry.Sub(pts[len(pts)-1], pts[0]))
	return !slices.ContainsFunc(pts, func(p orb.Point) bool {
		return math.Abs(geometry.Cross(d, geometry.Sub(p, pts[0]))) > within
	})
}

// direction returns that of a dense line at point i, from a few points to either side.
func direction(pts []orb.Point, i int) orb.Point {
	k := min(3, i, len(pts)-1-i)
	return geometry.Unit(geometry.Sub(pts[i+k], pts[i-k]))
}

// outset returns the direction in which a dense line begins: that of the parabola through its first point, its k-th and
// the one half way.
func outset(pts []orb.Point, k int) orb.Point {
	k = min(k, len(pts)-1) / 2 * 2
	if k < 2 {
		return geometry.Unit(geometry.Sub(pts[len(pts)-1], pts[0]))
	}
	return geometry.Unit(geometry.Sub(geometry.Sub(geometry.Times(pts[k/2], 4), geometry.Times(pts[0], 3)), pts[k]))
}

// lengths returns how far along the line each point lies, as a share of the whole.
func lengths(pts []orb.Point) []float64 {
	u := make([]float64, len(pts))
	for i := 1; i < len(pts); i++ {
		u[i] = u[i-1] + geometry.PointDistance(pts[i-1], pts[i])
	}
	if all := u[len(u)-1]; all > 0 {
		for i := range u {
			u[i] /= all
		}
	}
	return u
}

// single returns the one cubic that follows a dense line best.
func single(pts []orb.Point, t0, t1 orb.Point) [4]orb.Point {
	pts = resampled(pts, 64)
	u := lengths(pts)
	b := cubic(pts, u, t0, t1)
	for range betterRounds {
		better(b, pts, u)
		b = cubic(pts, u, t0, t1)
	}
	return b
}

// cubic returns the curve of least squares through the first and the last point with the directions given, each point
// at its parameter.
func cubic(pts []orb.Point, u []float64, t0, t1 orb.Point) [4]orb.Point {
	p, q := pts[0], pts[len(pts)-1]
	var c00, c01, c11, x0, x1 float64
	for i, t := range u {
		s := 1 - t
		a0, a1 := geometry.Times(t0, 3*s*s*t), geometry.Times(t1, 3*s*t*t)
		rest := geometry.Sub(pts[i], geometry.Add(geometry.Times(p, s*s*(s+3*t)), geometry.Times(q, t*t*(t+3*s))))
		c00, c01, c11 = c00+geometry.Dot(a0, a0), c01+geometry.Dot(a0, a1), c11+geometry.Dot(a1, a1)
		x0, x1 = x0+geometry.Dot(a0, rest), x1+geometry.Dot(a1, rest)
	}
	chord := geometry.PointDistance(p, q)
	l0, l1 := 0.0, 0.0
	if det := c00*c11 - c01*c01; det > 1e-12*c00*c11 {
		l0, l1 = (x0*c11-x1*c01)/det, (x1*c00-x0*c01)/det
	}
	if shortest := 1e-3 * chord; !(l0 > shortest) || !(l1 > shortest) || l0 > 4*chord || l1 > 4*chord {
		l0, l1 = chord/3, chord/3
	}
	return [4]orb.Point{p, geometry.Add(p, geometry.Times(t0, l0)), geometry.Add(q, geometry.Times(t1, l1)), q}
}

// worst returns how far a curve is off a point at most.
func worst(b [4]orb.Point, pts []orb.Point, u []float64) float64 {
	off := 0.0
	for i, t := range u {
		off = math.Max(off, geometry.PointDistance(bezier(b, t), pts[i]))
	}
	return off
}

// better moves each parameter by one step of Newton's to where the curve is nearest to its point.
func better(b [4]orb.Point, pts []orb.Point, u []float64) {
	for i, t := range u {
		s := 1 - t
		d1 := geometry.Add(geometry.Add(geometry.Times(geometry.Sub(b[1], b[0]), 3*s*s),
			geometry.Times(geometry.Sub(b[2], b[1]), 6*s*t)), geometry.Times(geometry.Sub(b[3], b[2]), 3*t*t))
		d2 := geometry.Add(geometry.Times(geometry.Add(geometry.Sub(b[2], geometry.Times(b[1], 2)), b[0]), 6*s),
			geometry.Times(geometry.Add(geometry.Sub(b[3], geometry.Times(b[2], 2)), b[1]), 6*t))
		e := geometry.Sub(bezier(b, t), pts[i])
		if den := geometry.Dot(d1, d1) + geometry.Dot(e, d2); den > 0 {
			u[i] = math.Max(0, math.Min(1, t-geometry.Dot(e, d1)/den))
		}
	}
}
