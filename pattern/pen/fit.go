package pen

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// bezier returns the point of a cubic at t.
func bezier(b [4]orb.Point, t float64) orb.Point {
	s := 1 - t
	w := [4]float64{s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t}
	var p orb.Point
	for i := range b {
		p = add(p, times(b[i], w[i]))
	}
	return p
}

// fit appends to nodes the curves that answer a dense line within a tolerance, from its first point, which is the last node
// there is, to its last. t0 and t1 are the directions, of length one, into the line at both ends. Each curve is the one of
// least squares with its directions given; where it is off too far the line is halved at the place (P. J. Schneider, "An
// Algorithm for Automatically Fitting Digitized Curves", Graphics Gems, 1990).
func fit(nodes []Node, pts []orb.Point, t0, t1 orb.Point, tolerance float64, depth int) []Node {
	last := &nodes[len(nodes)-1]
	end := pts[len(pts)-1]
	if flat(pts, tolerance/4) && near(t0, unit(sub(end, pts[0]))) && near(t1, unit(sub(pts[0], end))) {
		return append(nodes, Corner(end))
	}
	u := lengths(pts)
	b := cubic(pts, u, t0, t1)
	off, at := worst(b, pts, u)
	for round := 0; round < betterRounds && off > tolerance && off < worthBetter*tolerance; round++ {
		better(b, pts, u)
		b = cubic(pts, u, t0, t1)
		off, at = worst(b, pts, u)
	}
	if off <= tolerance || len(pts) < 5 || depth >= mostDepth {
		last.Out = b[1]
		return append(nodes, Node{At: end, In: b[2], Out: end})
	}
	at = max(2, min(len(pts)-3, at))
	dir := direction(pts, at)
	nodes = fit(nodes, pts[:at+1], t0, times(dir, -1), tolerance, depth+1)
	nodes[len(nodes)-1].Round = true
	return fit(nodes, pts[at:], dir, t1, tolerance, depth+1)
}

// near reports whether two directions differ by less than 0.06 radians.
func near(a, b orb.Point) bool { return dot(a, b) > 0 && math.Abs(cross(a, b)) < 0.06 }

// flat reports whether all points lie within a distance of the line from the first to the last.
func flat(pts []orb.Point, within float64) bool {
	d := unit(sub(pts[len(pts)-1], pts[0]))
	return !slices.ContainsFunc(pts, func(p orb.Point) bool { return math.Abs(cross(d, sub(p, pts[0]))) > within })
}

// direction returns that of a dense line at point i, from a few points to either side.
func direction(pts []orb.Point, i int) orb.Point {
	k := min(3, i, len(pts)-1-i)
	return unit(sub(pts[i+k], pts[i-k]))
}

// lengths returns how far along the line each point lies, as a share of the whole.
func lengths(pts []orb.Point) []float64 {
	u := make([]float64, len(pts))
	for i := 1; i < len(pts); i++ {
		u[i] = u[i-1] + far(pts[i-1], pts[i])
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

// cubic returns the curve of least squares through the first and the last point with the directions given, each point at
// its parameter.
func cubic(pts []orb.Point, u []float64, t0, t1 orb.Point) [4]orb.Point {
	p, q := pts[0], pts[len(pts)-1]
	var c00, c01, c11, x0, x1 float64
	for i, t := range u {
		s := 1 - t
		a0, a1 := times(t0, 3*s*s*t), times(t1, 3*s*t*t)
		rest := sub(pts[i], add(times(p, s*s*(s+3*t)), times(q, t*t*(t+3*s))))
		c00, c01, c11 = c00+dot(a0, a0), c01+dot(a0, a1), c11+dot(a1, a1)
		x0, x1 = x0+dot(a0, rest), x1+dot(a1, rest)
	}
	chord := far(p, q)
	l0, l1 := 0.0, 0.0
	if det := c00*c11 - c01*c01; det > 1e-12*c00*c11 {
		l0, l1 = (x0*c11-x1*c01)/det, (x1*c00-x0*c01)/det
	}
	if least := 1e-3 * chord; !(l0 > least) || !(l1 > least) || l0 > 4*chord || l1 > 4*chord {
		l0, l1 = chord/3, chord/3
	}
	return [4]orb.Point{p, add(p, times(t0, l0)), add(q, times(t1, l1)), q}
}

// worst returns how far a curve is off a point at most, and at which.
func worst(b [4]orb.Point, pts []orb.Point, u []float64) (off float64, at int) {
	for i, t := range u {
		if d := far(bezier(b, t), pts[i]); d > off {
			off, at = d, i
		}
	}
	return off, at
}

// better moves each parameter by one step of Newton's to where the curve is nearest to its point.
func better(b [4]orb.Point, pts []orb.Point, u []float64) {
	for i, t := range u {
		s := 1 - t
		d1 := add(add(times(sub(b[1], b[0]), 3*s*s), times(sub(b[2], b[1]), 6*s*t)), times(sub(b[3], b[2]), 3*t*t))
		d2 := add(times(add(sub(b[2], times(b[1], 2)), b[0]), 6*s), times(add(sub(b[3], times(b[2], 2)), b[1]), 6*t))
		e := sub(bezier(b, t), pts[i])
		if den := dot(d1, d1) + dot(e, d2); den > 0 {
			u[i] = math.Max(0, math.Min(1, t-dot(e, d1)/den))
		}
	}
}
