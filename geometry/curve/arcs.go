package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// arcSteps is how many pairs of arcs are looked at for the one that encloses what the polygon does.
const arcSteps = 9

// shares are the lengths of the first tangent that are tried, in units of half the chord: from an eighth to eight
// times.
var shares = func() (s [arcSteps]float64) {
	for i := range s {
		s[i] = math.Pow(8, 2*float64(i)/(arcSteps-1)-1)
	}
	return s
}()

// arcsBetween returns the one or two arcs, with a common tangent where they meet, that run from one joint to another
// with the joints' directions; of all such pairs those that enclose nearest to the frame's area first.
//
// With d0 and d1 the tangents' lengths at the two ends, the points where the tangents of each arc meet are d0 + d1
// apart, which gives d1 for a d0, and the arcs join on the line between them (K. M. Bolton, Biarc curves, 1975).
func (f *frame) arcsBetween(from, to *joint) [][]Piece {
	v := geometry.Sub(to.at, from.at)
	k := 1 - geometry.Dot(from.out, to.in)
	pair := func(d0 float64) ([]Piece, float64) {
		d1 := (geometry.Dot(v, v)/2 - d0*geometry.Dot(v, from.out)) / (geometry.Dot(v, to.in) + d0*k)
		if !(d0 > 0 && d1 > 0 && d0 < 10*f.l && d1 < 10*f.l) {
			return nil, math.NaN()
		}
		a, b := geometry.Add(from.at, geometry.Times(from.out, d0)), geometry.Sub(to.at, geometry.Times(to.in, d1))
		m := geometry.Lerp(a, b, d0/(d0+d1))
		one := []Piece{arcTo(from.at, from.out, m), arcBack(m, to.at, to.in)}
		return one, (Path{Start: from.at, Pieces: one}).Area()/(f.l*f.l) - f.area
	}

	var out [][]Piece
	d, r := 0.0, math.NaN()
	var best []Piece
	closest := math.Inf(1)
	for i := range arcSteps {
		d0 := f.l / 2 * shares[i]
		p, s := pair(d0)
		if p == nil {
			d, r = d0, math.NaN()
			continue
		}
		if math.Abs(s) < closest {
			best, closest = p, math.Abs(s)
		}
		if r*s < 0 {
			x := solve(func(d0 float64) (float64, float64) { _, s := pair(d0); return s, 0 }, d, r, d0, s)
			if p, _ := pair(x); p != nil {
				out = append(out, p)
			}
		}
		d, r = d0, s
	}

	if best != nil {
		out = append(out, best)
	}
	for i, p := range out {
		out[i] = merged(from.at, p)
	}
	return out
}

// arcTo returns the arc from p in direction dir to q: its bulge is the tangent of half the angle between dir and the
// chord.
func arcTo(p, dir, q orb.Point) Piece {
	c := geometry.Unit(geometry.Sub(q, p))
	return Piece{Kind: Arc, Bulge: halfTangent(dir, c), To: q}
}

// arcBack returns the arc from p that ends at q in direction dir.
func arcBack(p, q, dir orb.Point) Piece {
	c := geometry.Unit(geometry.Sub(q, p))
	return Piece{Kind: Arc, Bulge: halfTangent(c, dir), To: q}
}

// halfTangent returns the tangent of half the angle from u to v, unit vectors.
func halfTangent(u, v orb.Point) float64 {
	return geometry.Cross(u, v) / max(1+geometry.Dot(u, v), 1e-9)
}

// merged makes one arc of two that have one circle, and lines of what is straight.
func merged(from orb.Point, p []Piece) []Piece {
	if len(p) == 2 {
		r0, r1 := curvature(from, p[0]), curvature(p[0].To, p[1])
		if turn := math.Atan(p[0].Bulge) + math.Atan(p[1].Bulge); math.Abs(r0-r1) <= sameRadius*math.Abs(r0) &&
			math.Abs(turn) < 1.2 {
			p = []Piece{{Kind: Arc, Bulge: math.Tan(turn), To: p[1].To}}
		}
	}
	for i := range p {
		if sagitta := math.Abs(p[i].Bulge) * distance(from, p[i].To) / 2; sagitta < 1e-6 {
			p[i].Kind, p[i].Bulge = Line, 0
		}
		from = p[i].To
	}
	return p
}

// curvature returns one over the radius of an arc, signed as its bulge.
func curvature(from orb.Point, q Piece) float64 {
	return 4 * q.Bulge / (max(distance(from, q.To), minLength) * (1 + q.Bulge*q.Bulge))
}
