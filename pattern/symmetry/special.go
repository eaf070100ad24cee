package symmetry

import (
	"cmp"
	"slices"
)

// Site is a kind of place in the field that the group tells apart: rotation points of one class, mirror lines of one
// class, or the general position. A point has its images at Multiplicity places in the conventional cell.
type Site struct {
	Multiplicity int         // places in the conventional cell
	Order        int         // operations that leave such a place alone, the identity among them
	Turn         int         // order of the rotation there, 1 if none
	Mirrors      int         // mirror lines through it
	At           [2]Fraction // the point, or a point of the line, in cell coordinates in [0, 1)
	Along        [2]int      // of a line: the primitive lattice direction in which it is free; 0, 0 otherwise
	Class        int         // Class of the elements there: turns of order Turn, or mirrors; 0 for the general position
}

// Sites returns the group's special positions and, last, the general one, fewest places first. Those on a mirror line
// are meant away from the rotation points on it; At may be one of these all the same.
func (g Group) Sites() []Site {
	elements := g.Elements()
	var out []Site
	for _, e := range elements {
		if !first(elements, e) {
			continue
		}
		s := Site{Turn: 1, At: e.At, Along: e.Along, Class: e.Class}
		switch e.Kind {
		case Turn:
			s.Order = len(g.Fixing(e.At[0], e.At[1]))
			s.Turn = e.Order
			// Each operation there either turns or mirrors, and each mirroring one has a mirror of its own.
			s.Mirrors = s.Order - e.Order
		case Mirror:
			s.Order, s.Mirrors = 2, 1
		default:
			continue
		}
		s.Multiplicity = len(g.Ops) / s.Order
		out = append(out, s)
	}

	slices.SortStableFunc(out, func(s, t Site) int { return cmp.Compare(s.Multiplicity, t.Multiplicity) })
	return append(out, Site{Multiplicity: len(g.Ops), Order: 1, Turn: 1, At: [2]Fraction{Frac(0, 1), Frac(0, 1)}})
}

// Fixing names an operation that leaves a point alone: the group's operation Op (index in Ops) moved on by Cell cells
// along a and b.
type Fixing struct {
	Op   int
	Cell [2]int
}

// Fixing returns every operation of the group that leaves the point (x, y) of the cell coordinates alone, the identity
// first: the point's site symmetry. Their number is its order.
func (g Group) Fixing(x, y Fraction) []Fixing {
	var out []Fixing
	for i, op := range g.Ops {
		image := op.Of([2]Fraction{x, y})
		m, n := x.Plus(image[0].Times(-1)), y.Plus(image[1].Times(-1))
		if m.Den == 1 && n.Den == 1 {
			out = append(out, Fixing{i, [2]int{m.Num, n.Num}})
		}
	}
	return out
}
