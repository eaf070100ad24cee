package recognise

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

func times(s float64, p orb.Point) orb.Point         { return orb.Point{s * p[0], s * p[1]} }
func linear(m geometry.Map) geometry.Map             { return geometry.Map{A: m.A, B: m.B, C: m.C, D: m.D} }
func moved(m geometry.Map, v orb.Point) geometry.Map { return m.Moved(v[0], v[1]) }

func sign(v float64) int {
	switch {
	case v < 0:
		return -1
	case v > 0:
		return 1
	}
	return 0
}

// basis is a basis of a lattice, in field mm, right-handed.
type basis struct {
	a, b orb.Point
}

// newBasis returns the reduced basis of the lattice that a and b span.
func newBasis(a, b orb.Point) basis { return basis{a, b}.reduced() }

// reduced returns the basis after Lagrange and Gauss: a as short as any lattice vector, b as short as any off its line.
// It is right-handed, a points right or straight up, and where 60 and 120 degrees are both right it has 120.
func (l basis) reduced() basis {
	a, b := l.a, l.b
	for range maxReduce {
		if geometry.Dot(b, b) < geometry.Dot(a, a)*(1-1e-12) {
			a, b = b, a
		}
		c := geometry.Sub(b, times(math.Round(geometry.Dot(a, b)/geometry.Dot(a, a)), a))
		// also where two vectors are equally short, so that this ends
		if geometry.Dot(c, c) >= geometry.Dot(b, b)*(1-1e-12) {
			break
		}
		b = c
	}
	if a[0] < 0 || (a[0] == 0 && a[1] < 0) {
		a = times(-1, a)
	}
	if geometry.Cross(a, b) < 0 {
		b = times(-1, b)
	}
	if c := geometry.Sub(b, a); geometry.Dot(c, c) <= geometry.Dot(b, b)*(1+1e-12) {
		b = c
	}
	return basis{geometry.Add(a, orb.Point{}), geometry.Add(b, orb.Point{})} // no −0
}

// at returns the place of cell coordinates, mm.
func (l basis) at(x orb.Point) orb.Point { return geometry.Add(times(x[0], l.a), times(x[1], l.b)) }

// fraction returns the cell coordinates of p.
func (l basis) fraction(p orb.Point) orb.Point {
	d := geometry.Cross(l.a, l.b)
	return orb.Point{geometry.Cross(p, l.b) / d, geometry.Cross(l.a, p) / d}
}

// nearest returns the lattice vector nearest to p, when there is one much nearer than half the shortest.
func (l basis) nearest(p orb.Point) orb.Point {
	x := l.fraction(p)
	return l.at(orb.Point{math.Round(x[0]), math.Round(x[1])})
}

// divided returns the lattice that the basis spans together with (s0·a + s1·b)/p, for a prime p and s not a multiple of
// p in both.
func (l basis) divided(p int, s [2]int) basis {
	part := 1 / float64(p)
	if s[0]%p == 0 {
		return newBasis(l.a, times(part, l.b))
	}
	k := 1 // the multiple that makes s0 one
	for k < p && ((k*s[0])%p+p)%p != 1 {
		k++
	}
	v := ((k*s[1])%p + p) % p
	return newBasis(times(part, geometry.Add(l.a, times(float64(v), l.b))), l.b)
}
