package main

import "math"

// point is a place or a vector in mm, y up.
type point struct{ x, y float64 }

func (p point) plus(q point) point    { return point{p.x + q.x, p.y + q.y} }
func (p point) minus(q point) point   { return point{p.x - q.x, p.y - q.y} }
func (p point) times(k float64) point { return point{p.x * k, p.y * k} }
func (p point) length() float64       { return math.Hypot(p.x, p.y) }
func (p point) angle() float64        { return math.Atan2(p.y, p.x) }
func (p point) to(q point) float64    { return q.minus(p).length() }
func heading(a float64) point         { return point{math.Cos(a), math.Sin(a)} }
func mix(p, q point, t float64) point { return p.times(1 - t).plus(q.times(t)) }
func cross(p, q point) float64        { return p.x*q.y - p.y*q.x }
func wrap(a float64) float64          { return math.Remainder(a, 2*math.Pi) }
func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

// knot is a place the outline passes through. A smooth knot carries one direction through; a corner breaks it, and
// round, in mm, is the radius of the fillet that softens the corner. Directions are in radians, NaN where the curve
// may choose its own.
type knot struct {
	at      point
	corner  bool
	in, out float64
	round   float64
}

// through is a smooth knot.
func through(x, y float64) knot {
	return knot{at: point{x, y}, in: math.NaN(), out: math.NaN()}
}

// along is a smooth knot with its direction in degrees.
func along(x, y, degrees float64) knot {
	return knot{at: point{x, y}, in: radians(degrees), out: radians(degrees)}
}

// turned is a corner, its directions in and out in degrees, softened by a fillet of the given radius in mm.
func turned(x, y, in, out, round float64) knot {
	return knot{at: point{x, y}, corner: true, in: radians(in), out: radians(out), round: round}
}

// cubic is one Bézier piece.
type cubic [4]point

func (c cubic) at(t float64) point {
	u := 1 - t
	return c[0].times(u * u * u).plus(c[1].times(3 * u * u * t)).plus(c[2].times(3 * u * t * t)).plus(
		c[3].times(t * t * t))
}

// split cuts the piece at t, by de Casteljau's construction.
func (c cubic) split(t float64) (cubic, cubic) {
	a, b, d := mix(c[0], c[1], t), mix(c[1], c[2], t), mix(c[2], c[3], t)
	e, f := mix(a, b, t), mix(b, d, t)
	g := mix(e, f, t)
	return cubic{c[0], a, e, g}, cubic{g, f, d, c[3]}
}

// steps is into how many chords a piece is cut to measure its length.
const steps = 64

func (c cubic) length() float64 {
	sum, last := 0.0, c[0]
	for i := 1; i <= steps; i++ {
		p := c.at(float64(i) / steps)
		sum, last = sum+last.to(p), p
	}
	return sum
}

// reach gives the t at which the piece has run s mm from its start.
func (c cubic) reach(s float64) float64 {
	sum, last := 0.0, c[0]
	for i := 1; i <= steps; i++ {
		p := c.at(float64(i) / steps)
		d := last.to(p)
		if sum+d >= s {
			return (float64(i-1) + (s-sum)/d) / steps
		}
		sum, last = sum+d, p
	}
	return 1
}

func (c cubic) startAngle() float64 {
	if c[0].to(c[1]) > 1e-9 {
		return c[1].minus(c[0]).angle()
	}
	return c[2].minus(c[0]).angle()
}

func (c cubic) endAngle() float64 {
	if c[2].to(c[3]) > 1e-9 {
		return c[3].minus(c[2]).angle()
	}
	return c[3].minus(c[1]).angle()
}

// trace draws a closed curve through the knots. Between places where the direction is broken or given, directions
// follow J. D. Hobby, "Smooth, easy to compute interpolating splines", Discrete and Computational Geometry 1 (1986):
// mock curvature is continuous, and corners have curl 1. At least one knot must be a corner or have a direction.
func trace(knots []knot) []cubic {
	n := len(knots)
	first := 0
	for first < n && !knots[first].broken() {
		first++
	}
	if first == n {
		panic("a closed curve needs one corner or one given direction")
	}
	var out []cubic
	for i := first; i < first+n; {
		run := []knot{knots[i%n]}
		for i++; ; i++ {
			run = append(run, knots[i%n])
			if knots[i%n].broken() {
				break
			}
		}
		out = append(out, section(run)...)
	}
	return soften(out, knots, first)
}

func (k knot) broken() bool { return k.corner || !math.IsNaN(k.in) }

// section solves one run of knots, smooth inside.
func section(run []knot) []cubic {
	n := len(run) - 1
	d, chord, psi := make([]float64, n), make([]float64, n), make([]float64, n+1)
	for k := 0; k < n; k++ {
		v := run[k+1].at.minus(run[k].at)
		d[k], chord[k] = v.length(), v.angle()
		if k > 0 {
			psi[k] = wrap(chord[k] - chord[k-1])
		}
	}
	// Rows of the three-banded system: low, mid, high, right.
	low, mid, high, right := make([]float64, n+1), make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)
	if a := run[0].out; math.IsNaN(a) {
		mid[0], high[0], right[0] = 1, 1, -psi[1]
	} else {
		mid[0], right[0] = 1, wrap(a-chord[0])
	}
	for k := 1; k < n; k++ {
		low[k], mid[k], high[k] = 1/d[k-1], 2/d[k-1]+2/d[k], 1/d[k]
		right[k] = -2*psi[k]/d[k-1] - psi[k+1]/d[k]
	}
	if a := run[n].in; math.IsNaN(a) {
		low[n], mid[n] = 1, 1
		if n == 1 && math.IsNaN(run[0].out) {
			low[n], mid[n] = 0, 1 // a straight stroke between two free corners
			high[0] = 0
		}
	} else {
		mid[n], right[n] = 1, wrap(a-chord[n-1])
	}
	for k := 1; k <= n; k++ {
		m := low[k] / mid[k-1]
		mid[k] -= m * high[k-1]
		right[k] -= m * right[k-1]
	}
	theta := make([]float64, n+1)
	theta[n] = right[n] / mid[n]
	for k := n - 1; k >= 0; k-- {
		theta[k] = (right[k] - high[k]*theta[k+1]) / mid[k]
	}
	out := make([]cubic, n)
	for k := range out {
		t, f := theta[k], -psi[k+1]-theta[k+1]
		p, q := run[k].at, run[k+1].at
		out[k] = cubic{p,
			p.plus(heading(chord[k] + t).times(d[k] * velocity(t, f) / 3)),
			q.minus(heading(chord[k] - f).times(d[k] * velocity(f, t) / 3)), q}
	}
	return out
}

// velocity is Hobby's length of a handle, in thirds of the chord.
func velocity(t, f float64) float64 {
	st, ct, sf, cf := math.Sin(t), math.Cos(t), math.Sin(f), math.Cos(f)
	num := 2 + math.Sqrt2*(st-sf/16)*(sf-st/16)*(ct-cf)
	den := 1 + (math.Sqrt(5)-1)/2*ct + (3-math.Sqrt(5))/2*cf
	return math.Min(num/den, 4)
}

// soften puts a fillet at every corner that asks for one. A fillet takes at most 0.45 of either piece.
func soften(pieces []cubic, knots []knot, first int) []cubic {
	n := len(pieces)
	cutStart, cutEnd := make([]float64, n), make([]float64, n)
	for i := range pieces {
		k := knots[(first+i)%len(knots)]
		if !k.corner || k.round == 0 {
			continue
		}
		before := (i + n - 1) % n
		turn := math.Abs(wrap(pieces[i].startAngle() - pieces[before].endAngle()))
		if turn < 0.05 {
			continue
		}
		l := k.round * math.Tan(math.Min(turn, 2.9)/2)
		l = math.Min(l, 0.45*math.Min(pieces[i].length(), pieces[before].length()))
		cutStart[i], cutEnd[before] = l, l
	}
	var out []cubic
	cut := make([]cubic, n)
	for i, c := range pieces {
		if cutEnd[i] > 0 {
			c, _ = c.split(c.reach(c.length() - cutEnd[i]))
		}
		if cutStart[i] > 0 {
			_, c = c.split(c.reach(cutStart[i]))
		}
		cut[i] = c
	}
	for i, c := range cut {
		out = append(out, c)
		if cutEnd[i] == 0 {
			continue
		}
		next := cut[(i+1)%n]
		a, b := c.endAngle(), next.startAngle()
		turn := math.Abs(wrap(b - a))
		h := c[3].to(next[0]) / 2
		if s := math.Sin(turn / 2); s > 1e-6 {
			h = 4.0 / 3 * math.Tan(turn/4) * c[3].to(next[0]) / (2 * s)
		}
		out = append(out, cubic{c[3], c[3].plus(heading(a).times(h)), next[0].minus(heading(b).times(h)), next[0]})
	}
	return out
}
