package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Section returns the part of a run of pieces, which begin at start, between two lengths along it, in mm. Lengths
// beyond its ends are those of the ends; where the part is shorter than a hair it has no pieces. Arcs and lines are
// divided exactly, Béziers to about 1e-6 of their length.
func Section(start orb.Point, pieces []Piece, from, to float64) Path {
	const hair = 1e-9 // mm; shorter pieces are rounding
	var out Path
	at, point, begun := 0.0, start, false
	for _, q := range pieces {
		long := q.length(point)
		lo, hi := max(0, from-at), min(long, to-at)
		if hi-lo > hair {
			first, part := q.part(point, lo/long, hi/long)
			if !begun {
				out.Start, begun = first, true
			}
			if hi < long {
				part.Corner = false
			}
			out.Pieces = append(out.Pieces, part)
		}
		at += long
		point = q.To
	}
	return out
}

// part returns the piece between two fractions of its length, and where it begins.
func (q Piece) part(from orb.Point, lo, hi float64) (orb.Point, Piece) {
	if lo <= 0 && hi >= 1 {
		return from, q
	}
	switch {
	case q.Kind == Cubic:
		return q.cubicPart(from, q.parameter(from, lo), q.parameter(from, hi))
	case q.Kind == Arc && q.Bulge != 0:
		angle := 4 * math.Atan(q.Bulge)
		c := q.centre(from)
		at := func(f float64) orb.Point {
			return geometry.Add(c, turned(geometry.Sub(from, c), f*angle))
		}
		a, b := from, q.To
		if lo > 0 {
			a = at(lo)
		}
		if hi < 1 {
			b = at(hi)
		}
		q.Bulge, q.To = math.Tan((min(hi, 1)-max(lo, 0))*angle/4), b
		return a, q
	}
	v := geometry.Sub(q.To, from)
	a := geometry.Add(from, geometry.Times(v, max(lo, 0)))
	if hi < 1 {
		q.To = geometry.Add(from, geometry.Times(v, hi))
	}
	return a, q
}

// parameter returns where on a Bézier a fraction of its length is reached, by halving.
func (q Piece) parameter(from orb.Point, fraction float64) float64 {
	const halvings = 30
	if fraction <= 0 || fraction >= 1 {
		return max(0, min(1, fraction))
	}
	want := fraction * q.length(from)
	lo, hi := 0.0, 1.0
	for range halvings {
		t := (lo + hi) / 2
		if a, part := q.cubicPart(from, 0, t); part.length(a) < want {
			lo = t
		} else {
			hi = t
		}
	}
	return (lo + hi) / 2
}

// cubicPart returns a Bézier between two of its parameters, by de Casteljau's halving done twice.
func (q Piece) cubicPart(from orb.Point, lo, hi float64) (orb.Point, Piece) {
	mix := func(a, b orb.Point, t float64) orb.Point {
		return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
	}
	before := func(p [4]orb.Point, t float64) [4]orb.Point {
		ab, bc, cd := mix(p[0], p[1], t), mix(p[1], p[2], t), mix(p[2], p[3], t)
		l, r := mix(ab, bc, t), mix(bc, cd, t)
		return [4]orb.Point{p[0], ab, l, mix(l, r, t)}
	}
	back := func(p [4]orb.Point) [4]orb.Point { return [4]orb.Point{p[3], p[2], p[1], p[0]} }

	p := [4]orb.Point{from, q.C1, q.C2, q.To}
	if hi < 1 {
		p = before(p, hi)
	}
	if lo > 0 {
		p = back(before(back(p), 1-lo/hi))
	}
	q.C1, q.C2, q.To = p[1], p[2], p[3]
	return p[0], q
}
