package symmetry

import (
	"fmt"
	"math"

	"openwork/geometry"
)

const (
	// sideSlack is the relative difference that sides meant to be equal may have: what rounding to 1e-4 mm leaves.
	sideSlack = 1e-6
	// angleSlack in degrees: what writing an angle with nine digits leaves.
	angleSlack = 1e-6
	// MinSide and MaxSide bound a cell's sides in mm: under a beam's width, and over any panel.
	MinSide, MaxSide = 0.5, 1e5
	// MinAngle and MaxAngle bound an oblique cell's angle in degrees: flatter cells repeat nothing a person could use.
	MinAngle, MaxAngle = 5.0, 175.0
)

// Cell is a translation cell: sides A along +x and B at Gamma degrees from it, lengths in mm.
type Cell struct{ A, B, Gamma float64 }

// Basis returns the linear map from cell coordinates to mm. Right angles are exact.
func (c Cell) Basis() geometry.Map {
	t := geometry.TurnDegrees(c.Gamma)
	if c.Gamma == 120 {
		t.A, t.C = -0.5, math.Sqrt(3)/2
	}
	return geometry.Map{A: c.A, B: c.B * t.A, D: c.B * t.C}
}

// Area returns the cell's area in mm².
func (c Cell) Area() float64 { return c.Basis().Det() }

// EqualSides reports whether the group's system binds the cell's sides to one length.
func (g Group) EqualSides() bool { return g.System == Square || g.System == Hexagonal }

// CheckCell says why a cell does not fit the group, with what is allowed; nil when it fits.
func (g Group) CheckCell(c Cell) error {
	for _, side := range []struct {
		name string
		v    float64
	}{{"a", c.A}, {"b", c.B}} {
		if !(side.v >= MinSide && side.v <= MaxSide) {
			return fmt.Errorf("%s: a cell's side must be from %g to %g mm, not %g", side.name, MinSide, MaxSide, side.v)
		}
	}
	if !(c.Gamma >= MinAngle && c.Gamma <= MaxAngle) {
		return fmt.Errorf("gamma: a cell's angle must be from %g to %g degrees, not %g", MinAngle, MaxAngle, c.Gamma)
	}
	want := map[System]float64{Rectangular: 90, Square: 90, Hexagonal: 120}[g.System]
	if want != 0 && math.Abs(c.Gamma-want) > angleSlack {
		return fmt.Errorf("gamma: %s has a %s cell, whose angle is %g degrees, not %g", g.Symbol, g.System, want,
			c.Gamma)
	}
	if g.EqualSides() && math.Abs(c.A-c.B) > sideSlack*c.A {
		return fmt.Errorf("b: %s has a %s cell, whose sides are equal; a is %g and b is %g", g.Symbol, g.System, c.A,
			c.B)
	}
	return nil
}

// FitCell returns the cell of the same area nearest in shape that the group allows: sides keep their proportion where
// the system leaves it free, and become equal where it does not.
func (g Group) FitCell(c Cell) Cell {
	area := c.Area()
	switch g.System {
	case Rectangular:
		h := c.B * math.Sin(c.Gamma/180*math.Pi)
		if c.Gamma == 90 {
			h = c.B
		}
		return Cell{geometry.Snap(c.A), geometry.Snap(h), 90}
	case Square:
		s := geometry.Snap(math.Sqrt(area))
		return Cell{s, s, 90}
	case Hexagonal:
		s := geometry.Snap(math.Sqrt(area / (math.Sqrt(3) / 2)))
		return Cell{s, s, 120}
	}
	return c
}
