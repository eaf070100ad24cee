package symmetry

import "strings"

// units lists the corners of each group's asymmetric unit, by symbol.
//
// Source: the asymmetric units in International Tables for Crystallography, volume A, "The 17 plane groups", typed from
// memory of their inequalities as corners. What is asked of them is proven by the tests and not taken on trust: that
// their images cover the plane once. No mirror and no rotation point then lies inside one, and a mirror can only run
// along an edge.
var units = map[string]string{
	"p1":   "0,0; 1,0; 1,1; 0,1",
	"p2":   "0,0; 1/2,0; 1/2,1; 0,1",
	"pm":   "0,0; 1/2,0; 1/2,1; 0,1",
	"pg":   "0,0; 1/2,0; 1/2,1; 0,1",
	"cm":   "0,0; 1/2,0; 1/2,1/2; 0,1/2",
	"p2mm": "0,0; 1/2,0; 1/2,1/2; 0,1/2",
	"p2mg": "0,0; 1/4,0; 1/4,1; 0,1",
	"p2gg": "0,0; 1/2,0; 1/2,1/2; 0,1/2",
	"c2mm": "0,0; 1/4,0; 1/4,1/2; 0,1/2",
	"p4":   "0,0; 1/2,0; 1/2,1/2; 0,1/2",
	"p4mm": "0,0; 1/2,1/2; 0,1/2",
	"p4gm": "0,0; 1/2,0; 0,1/2",
	"p3":   "0,0; 1/2,0; 2/3,1/3; 1/3,2/3; 0,1/2",
	"p3m1": "0,0; 2/3,1/3; 1/3,2/3",
	"p31m": "0,0; 1/2,0; 2/3,1/3; 1/2,1/2",
	"p6":   "0,0; 1/2,0; 2/3,1/3; 1/2,1/2",
	"p6mm": "0,0; 1/2,0; 2/3,1/3",
}

// AsymmetricUnit returns a convex polygon whose images under the group cover the plane once: the smallest part of the
// field from which the whole follows. Corners are in cell coordinates, counter-clockwise, the first not repeated;
// mirrors, where the group has them, run only along its edges. The zero Group has none.
func (g Group) AsymmetricUnit() [][2]Fraction {
	var out [][2]Fraction
	for corner := range strings.SplitSeq(units[g.Symbol], "; ") {
		x, y, _ := strings.Cut(corner, ",")
		px, errX := parseFraction(x)
		py, errY := parseFraction(y)
		if errX != nil || errY != nil {
			return nil // not one of the seventeen
		}
		out = append(out, [2]Fraction{px, py})
	}
	return out
}
