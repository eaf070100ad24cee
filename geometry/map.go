package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// Map is an affine map of the plane: x' = A·x + B·y + X, y' = C·x + D·y + Y, lengths in mm.
type Map struct{ A, B, C, D, X, Y float64 }

// Identity maps every point to itself.
var Identity = Map{A: 1, D: 1}

// Translate returns the map that moves every point by (x, y) mm.
func Translate(x, y float64) Map { return Map{A: 1, D: 1, X: x, Y: y} }

// Turn returns the rotation about the origin by angle radians, counter-clockwise. Multiples of a quarter turn are
// exact.
func Turn(angle float64) Map {
	s, c := math.Sincos(angle)
	if q := math.Round(angle / (math.Pi / 2)); math.Abs(angle-q*math.Pi/2) < 1e-15*math.Max(1, math.Abs(q)) {
		switch int64(q) & 3 {
		case 0:
			s, c = 0, 1
		case 1:
			s, c = 1, 0
		case 2:
			s, c = 0, -1
		default:
			s, c = -1, 0
		}
	}
	return Map{A: c, B: -s, C: s, D: c}
}

// TurnDegrees is Turn for an angle in degrees.
func TurnDegrees(degrees float64) Map { return Turn(degrees / 180 * math.Pi) }

// Scale returns the map that multiplies both coordinates by f.
func Scale(f float64) Map { return Map{A: f, D: f} }

// MirrorX is the map (x, y) → (−x, y).
var MirrorX = Map{A: -1, D: 1}

// Apply returns the image of p.
func (m Map) Apply(p orb.Point) orb.Point {
	return orb.Point{m.A*p[0] + m.B*p[1] + m.X, m.C*p[0] + m.D*p[1] + m.Y}
}

// Vector returns the image of the direction v: the linear part alone.
func (m Map) Vector(v orb.Point) orb.Point {
	return orb.Point{m.A*v[0] + m.B*v[1], m.C*v[0] + m.D*v[1]}
}

// After returns the map that applies n first and then m.
func (m Map) After(n Map) Map {
	return Map{
		A: m.A*n.A + m.B*n.C, B: m.A*n.B + m.B*n.D,
		C: m.C*n.A + m.D*n.C, D: m.C*n.B + m.D*n.D,
		X: m.A*n.X + m.B*n.Y + m.X, Y: m.C*n.X + m.D*n.Y + m.Y,
	}
}

// Moved returns m followed by a move of (x, y) mm.
func (m Map) Moved(x, y float64) Map {
	m.X += x
	m.Y += y
	return m
}

// Det returns the determinant of the linear part: the factor of areas, negative when m mirrors.
func (m Map) Det() float64 { return m.A*m.D - m.B*m.C }

// Inverse returns the map that undoes m. ok is false when m flattens the plane.
func (m Map) Inverse() (inv Map, ok bool) {
	d := m.Det()
	if d == 0 || math.IsNaN(d) || math.IsInf(d, 0) {
		return Identity, false
	}
	inv = Map{A: m.D / d, B: -m.B / d, C: -m.C / d, D: m.A / d}
	inv.X = -(inv.A*m.X + inv.B*m.Y)
	inv.Y = -(inv.C*m.X + inv.D*m.Y)
	return inv, true
}

// Rigid returns the inverse of an isometry without dividing: its linear part is orthogonal, so the transpose serves.
func (m Map) Rigid() Map {
	inv := Map{A: m.A, B: m.C, C: m.B, D: m.D}
	inv.X = -(inv.A*m.X + inv.B*m.Y)
	inv.Y = -(inv.C*m.X + inv.D*m.Y)
	return inv
}
