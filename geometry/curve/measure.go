package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Area returns the area in mm² that the path, closed by a straight line if need be, encloses: positive when it runs
// counter-clockwise. It is exact up to rounding.
func (p Path) Area() float64 {
	sum, from := 0.0, p.Start
	for _, q := range p.Pieces {
		a, b := geometry.Sub(from, p.Start), geometry.Sub(q.To, p.Start)
		switch q.Kind {
		case Cubic:
			c, d := geometry.Sub(q.C1, p.Start), geometry.Sub(q.C2, p.Start)
			sum += (6*geometry.Cross(a, c) + 3*geometry.Cross(a, d) + geometry.Cross(a, b) + 3*geometry.Cross(c, d) +
				3*geometry.Cross(c, b) + 6*geometry.Cross(d, b)) / 20
		case Arc:
			sum += geometry.Cross(a, b)/2 + segmentArea(distance(a, b), q.Bulge)
		default:
			sum += geometry.Cross(a, b) / 2
		}
		from = q.To
	}
	return sum
}

// segmentArea returns the area between an arc and its chord, positive for a positive bulge (to the right of the chord).
func segmentArea(chord, bulge float64) float64 {
	if math.Abs(bulge) < 1e-4 { // the closed form loses its digits; the next term is 1e-8 of this one
		return chord * chord * bulge / 3
	}
	angle := 4 * math.Atan(bulge)
	r := chord * (1 + bulge*bulge) / (4 * bulge)
	return r * r * (angle - math.Sin(angle)) / 2
}

// Length returns the path's length in mm; of Béziers to about 1e-6 of itself.
func (p Path) Length() float64 {
	sum, from := 0.0, p.Start
	for _, q := range p.Pieces {
		sum += q.length(from)
		from = q.To
	}
	return sum
}

func (q Piece) length(from orb.Point) float64 {
	c := distance(from, q.To)
	switch q.Kind {
	case Cubic:
		return cubicLength(from, q)
	case Arc:
		if b := math.Abs(q.Bulge); b > 1e-6 {
			return c * (1 + b*b) / b * math.Atan(b)
		}
	}
	return c
}

// gauss are the places in (0, 1) and weights of Gauss's rule of five points, exact to degree nine.
var gauss = [5][2]float64{
	{0.046910077030668, 0.118463442528095}, {0.230765344947158, 0.239314335249683}, {0.5, 0.284444444444444},
	{0.769234655052842, 0.239314335249683}, {0.953089922969332, 0.118463442528095}}

// cubicLength sums Gauss's rule over as many parts as the piece's bends ask for.
func cubicLength(from orb.Point, q Piece) float64 {
	a, b, c := geometry.Sub(q.C1, from), geometry.Sub(q.C2, q.C1), geometry.Sub(q.To, q.C2)
	net := math.Hypot(a[0], a[1]) + math.Hypot(b[0], b[1]) + math.Hypot(c[0], c[1])
	parts := 1
	if chord := distance(from, q.To); net > 1.02*chord {
		parts = 4
	}
	sum := 0.0
	for k := range parts {
		for _, g := range gauss {
			t := (float64(k) + g[0]) / float64(parts)
			s := 1 - t
			d := geometry.Add(geometry.Add(geometry.Times(a, s*s), geometry.Times(b, 2*s*t)), geometry.Times(c, t*t))
			sum += 3 * math.Hypot(d[0], d[1]) * g[1] / float64(parts)
		}
	}
	return sum
}

// Bound returns the path's box, extremes of curves found exactly.
func (p Path) Bound() orb.Bound {
	b := orb.Bound{Min: p.Start, Max: p.Start}
	from := p.Start
	for _, q := range p.Pieces {
		b = b.Extend(q.To)
		switch q.Kind {
		case Cubic:
			for axis := range 2 {
				for _, t := range extremes(from[axis], q.C1[axis], q.C2[axis], q.To[axis]) {
					b = b.Extend(cubicAt(from, q, t))
				}
			}
		case Arc:
			b = arcBound(b, from, q)
		}
		from = q.To
	}
	return b
}

// extremes returns the parameters in (0, 1) at which one coordinate of a Bézier stands still.
func extremes(a, b, c, d float64) []float64 {
	// Derivative over 3: u + 2(v−u)t + (u−2v+w)t².
	u, v, w := b-a, c-b, d-c
	q := u - 2*v + w
	var out []float64
	keep := func(t float64) {
		if t > 0 && t < 1 {
			out = append(out, t)
		}
	}
	if math.Abs(q) < 1e-12*(math.Abs(u)+math.Abs(v)+math.Abs(w)) {
		if u != v {
			keep(u / (2 * (u - v)))
		}
		return out
	}
	disc := (u-v)*(u-v) - q*u
	if disc < 0 {
		return nil
	}
	r := math.Sqrt(disc)
	keep((u - v + r) / q)
	keep((u - v - r) / q)
	return out
}

func cubicAt(from orb.Point, q Piece, t float64) orb.Point {
	s := 1 - t
	w0, w1, w2, w3 := s*s*s, 3*s*s*t, 3*s*t*t, t*t*t
	return orb.Point{w0*from[0] + w1*q.C1[0] + w2*q.C2[0] + w3*q.To[0],
		w0*from[1] + w1*q.C1[1] + w2*q.C2[1] + w3*q.To[1]}
}

// centre returns the centre of an arc.
func (q Piece) centre(from orb.Point) orb.Point {
	f := (1 - q.Bulge*q.Bulge) / (4 * q.Bulge)
	d := geometry.Sub(q.To, from)
	return orb.Point{(from[0]+q.To[0])/2 - f*d[1], (from[1]+q.To[1])/2 + f*d[0]}
}

// arcBound extends a box by the points of an arc straight above, below and beside its centre.
func arcBound(b orb.Bound, from orb.Point, q Piece) orb.Bound {
	if q.Bulge == 0 {
		return b
	}
	c := q.centre(from)
	r := distance(c, from)
	start := math.Atan2(from[1]-c[1], from[0]-c[0])
	turn := 4 * math.Atan(q.Bulge)
	for k := range 4 {
		angle := float64(k) * math.Pi / 2
		d := math.Mod(angle-start, 2*math.Pi)
		if turn > 0 && d < 0 {
			d += 2 * math.Pi
		} else if turn < 0 && d > 0 {
			d -= 2 * math.Pi
		}
		if math.Abs(d) <= math.Abs(turn) {
			s, x := math.Sincos(angle)
			b = b.Extend(orb.Point{c[0] + r*x, c[1] + r*s})
		}
	}
	return b
}

// Flatten returns the points of chords that leave the path by no more than tolerance mm, the first point first; for a
// closed path the last repeats it.
func (p Path) Flatten(tolerance float64) orb.Ring {
	out := orb.Ring{p.Start}
	from := p.Start
	for _, q := range p.Pieces {
		out = q.flatten(out, from, tolerance)
		from = q.To
	}
	return out
}

// flatten appends the ends of the chords of one piece.
func (q Piece) flatten(dst []orb.Point, from orb.Point, tolerance float64) []orb.Point {
	switch q.Kind {
	case Cubic:
		// A parabola leaves its chord by an eighth of its second derivative; 6·(second difference of the control
		// points) bounds that of a cubic.
		d1 := geometry.Add(geometry.Sub(from, geometry.Times(q.C1, 2)), q.C2)
		d2 := geometry.Add(geometry.Sub(q.C1, geometry.Times(q.C2, 2)), q.To)
		bend := 6 * math.Sqrt(max(geometry.Dot(d1, d1), geometry.Dot(d2, d2)))
		n := chords(math.Sqrt(bend / (8 * tolerance)))
		for k := 1; k < n; k++ {
			dst = append(dst, cubicAt(from, q, float64(k)/float64(n)))
		}
	case Arc:
		if math.Abs(q.Bulge) > 1e-9 {
			c := q.centre(from)
			r, turn := distance(c, from), 4*math.Atan(q.Bulge)
			step := math.Pi / 2
			if tolerance < r {
				step = min(step, 2*math.Acos(1-tolerance/r))
			}
			n := chords(math.Abs(turn) / max(step, 1e-6))
			v := geometry.Sub(from, c)
			for k := 1; k < n; k++ {
				dst = append(dst, geometry.Add(c, turned(v, turn*float64(k)/float64(n))))
			}
		}
	}
	return append(dst, q.To)
}

func chords(n float64) int {
	if !(n > 1) {
		return 1
	}
	return int(math.Ceil(min(n, maxChords)))
}
