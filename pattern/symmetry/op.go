package symmetry

import (
	"fmt"
	"strings"

	"openwork/geometry"
)

// Op is one operation of a plane group in cell coordinates: x' = W·x + T, W integer, T rational.
type Op struct {
	W [2][2]int
	T [2]Fraction
}

// parseOp reads an operation written as in the International Tables, "-y, x-y" or "-x+1/2, y+1/2".
func parseOp(s string) (Op, error) {
	rows := strings.Split(strings.ReplaceAll(s, " ", ""), ",")
	if len(rows) != 2 {
		return Op{}, fmt.Errorf("operation %q: want two coordinates", s)
	}
	var op Op
	for i, row := range rows {
		op.T[i] = Frac(0, 1)
		for row != "" {
			sign := 1
			switch row[0] {
			case '-':
				sign, row = -1, row[1:]
			case '+':
				row = row[1:]
			}
			end := strings.IndexAny(row, "+-")
			if end < 0 {
				end = len(row)
			}
			term := row[:end]
			row = row[end:]
			switch term {
			case "x":
				op.W[i][0] += sign
			case "y":
				op.W[i][1] += sign
			default:
				f, err := parseFraction(term)
				if err != nil {
					return Op{}, fmt.Errorf("operation %q: %w", s, err)
				}
				op.T[i] = op.T[i].Plus(f.Times(sign))
			}
		}
	}
	return op.Reduced(), nil
}

// Reduced returns the operation with its translation brought into [0, 1).
func (o Op) Reduced() Op {
	o.T = [2]Fraction{o.T[0].Mod1(), o.T[1].Mod1()}
	return o
}

// After returns the operation that applies p first and then o, exactly and without reducing the translation.
func (o Op) After(p Op) Op {
	var r Op
	for i := range 2 {
		for j := range 2 {
			r.W[i][j] = o.W[i][0]*p.W[0][j] + o.W[i][1]*p.W[1][j]
		}
		r.T[i] = p.T[0].Times(o.W[i][0]).Plus(p.T[1].Times(o.W[i][1])).Plus(o.T[i])
	}
	return r
}

// Det returns the determinant of W: 1 for a proper motion, −1 for one that mirrors.
func (o Op) Det() int { return o.W[0][0]*o.W[1][1] - o.W[0][1]*o.W[1][0] }

// Inverse returns the operation that undoes o. W has determinant ±1, so the inverse is integer too.
func (o Op) Inverse() Op {
	d := o.Det()
	w := [2][2]int{{o.W[1][1] * d, -o.W[0][1] * d}, {-o.W[1][0] * d, o.W[0][0] * d}}
	r := Op{W: w}
	for i := range 2 {
		r.T[i] = o.T[0].Times(-w[i][0]).Plus(o.T[1].Times(-w[i][1]))
	}
	return r
}

// Map returns the operation as a map of the plane in mm for the given cell, moved on by m cells along a and n along b.
func (o Op) Map(c Cell, m, n int) geometry.Map {
	b := c.Basis()
	inv, ok := b.Inverse()
	if !ok {
		return geometry.Identity
	}
	w := geometry.Map{
		A: float64(o.W[0][0]), B: float64(o.W[0][1]), C: float64(o.W[1][0]), D: float64(o.W[1][1]),
		X: o.T[0].Float() + float64(m), Y: o.T[1].Float() + float64(n),
	}
	return b.After(w).After(inv)
}

// Of returns the image of a point, all in cell coordinates, exactly.
func (o Op) Of(p [2]Fraction) [2]Fraction {
	var r [2]Fraction
	for i := range 2 {
		r[i] = p[0].Times(o.W[i][0]).Plus(p[1].Times(o.W[i][1])).Plus(o.T[i])
	}
	return r
}
