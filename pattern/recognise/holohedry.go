package recognise

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// matrix is an integer matrix acting on cell coordinates: rows (m[0], m[1]) and (m[2], m[3]).
type matrix [4]int

var unit = matrix{1, 0, 0, 1}

func (m matrix) det() int   { return m[0]*m[3] - m[1]*m[2] }
func (m matrix) trace() int { return m[0] + m[3] }

func (m matrix) times(n matrix) matrix {
	return matrix{m[0]*n[0] + m[1]*n[2], m[0]*n[1] + m[1]*n[3], m[2]*n[0] + m[3]*n[2], m[2]*n[1] + m[3]*n[3]}
}

func (m matrix) plus(n matrix) matrix {
	return matrix{m[0] + n[0], m[1] + n[1], m[2] + n[2], m[3] + n[3]}
}

func (m matrix) minus(n matrix) matrix {
	return matrix{m[0] - n[0], m[1] - n[1], m[2] - n[2], m[3] - n[3]}
}

func (m matrix) apply(v [2]int) [2]int { return [2]int{m[0]*v[0] + m[1]*v[1], m[2]*v[0] + m[3]*v[1]} }

func (m matrix) applyTo(v orb.Point) orb.Point {
	return orb.Point{float64(m[0])*v[0] + float64(m[1])*v[1], float64(m[2])*v[0] + float64(m[3])*v[1]}
}

// motion is a turn or a mirroring that keeps a lattice: as a matrix on cell coordinates, and as the orthogonal map of
// the plane nearest to it.
type motion struct {
	w matrix
	r geometry.Map
}

// holohedry returns all motions that keep the lattice to latticeSlack. Those of a reduced basis have entries −1, 0 and
// 1: they carry its vectors to vectors no longer, which are ±a, ±b and ±(a ± b) at most.
func (l basis) holohedry() []motion {
	var out []motion
	for n := range 81 {
		w := matrix{n%3 - 1, n/3%3 - 1, n/9%3 - 1, n/27 - 1}
		if d := w.det(); d != 1 && d != -1 {
			continue
		}
		a := l.at(orb.Point{float64(w[0]), float64(w[2])})
		b := l.at(orb.Point{float64(w[1]), float64(w[3])})
		r := l.orthogonal(a, b)
		if geometry.PointDistance(r.Apply(l.a), a) <= latticeSlack &&
			geometry.PointDistance(r.Apply(l.b), b) <= latticeSlack {
			out = append(out, motion{w, r})
		}
	}
	return out
}

// orthogonal returns the orthogonal map nearest to the linear one that carries the basis to (a, b): the orthogonal
// factor of its polar decomposition.
func (l basis) orthogonal(a, b orb.Point) geometry.Map {
	d := geometry.Cross(l.a, l.b)
	m := geometry.Map{
		A: (a[0]*l.b[1] - b[0]*l.a[1]) / d, B: (b[0]*l.a[0] - a[0]*l.b[0]) / d,
		C: (a[1]*l.b[1] - b[1]*l.a[1]) / d, D: (b[1]*l.a[0] - a[1]*l.b[0]) / d,
	}
	if m.Det() > 0 {
		return geometry.Turn(math.Atan2(m.C-m.B, m.A+m.D))
	}
	t := geometry.Turn(math.Atan2(m.B+m.C, m.A-m.D))
	return geometry.Map{A: t.A, B: t.C, C: t.C, D: -t.A}
}

// translation returns the map that moves by v mm.
func translation(v orb.Point) geometry.Map { return geometry.Translate(v[0], v[1]) }
