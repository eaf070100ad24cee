// Package symmetry holds the seventeen plane groups as exact operations, and the cells they act in.
//
// Source: International Tables for Crystallography, volume A, "The 17 plane groups (two-dimensional space groups)":
// standard settings, general positions in the Tables' order. Checked against Debian's GAP (gap-cryst) in gap_test.go.
package symmetry

import (
	"fmt"
	"strings"
	"sync"
)

// System is the crystal system of a plane group: what its cell must look like.
type System string

// The four systems of the plane, by the Tables' names.
const (
	Oblique     System = "oblique"
	Rectangular System = "rectangular"
	Square      System = "square"
	Hexagonal   System = "hexagonal"
)

// Group is one of the seventeen plane groups.
type Group struct {
	Number   int    // in the Tables
	Symbol   string // short international symbol
	Older    string // older abbreviation where it differs, else the symbol
	Orbifold string // Conway's signature, computed from the operations
	System   System
	Order    int  // of the point group: images of a general point in a primitive cell
	Centred  bool // the conventional cell holds a second lattice point at (1/2, 1/2)
	Ops      []Op // over the whole conventional cell, identity first, translations in [0, 1)
}

// table lists general positions; for a centred cell the second half follows by adding (1/2, 1/2).
var table = []struct {
	symbol, older string
	system        System
	centred       bool
	ops           string
}{
	{"p1", "p1", Oblique, false, "x,y"},
	{"p2", "p2", Oblique, false, "x,y; -x,-y"},
	{"pm", "pm", Rectangular, false, "x,y; -x,y"},
	{"pg", "pg", Rectangular, false, "x,y; -x,y+1/2"},
	{"cm", "cm", Rectangular, true, "x,y; -x,y"},
	{"p2mm", "pmm", Rectangular, false, "x,y; -x,-y; -x,y; x,-y"},
	{"p2mg", "pmg", Rectangular, false, "x,y; -x,-y; -x+1/2,y; x+1/2,-y"},
	{"p2gg", "pgg", Rectangular, false, "x,y; -x,-y; -x+1/2,y+1/2; x+1/2,-y+1/2"},
	{"c2mm", "cmm", Rectangular, true, "x,y; -x,-y; -x,y; x,-y"},
	{"p4", "p4", Square, false, "x,y; -x,-y; -y,x; y,-x"},
	{"p4mm", "p4m", Square, false, "x,y; -x,-y; -y,x; y,-x; -x,y; x,-y; y,x; -y,-x"},
	{"p4gm", "p4g", Square, false,
		"x,y; -x,-y; -y,x; y,-x; -x+1/2,y+1/2; x+1/2,-y+1/2; y+1/2,x+1/2; -y+1/2,-x+1/2"},
	{"p3", "p3", Hexagonal, false, "x,y; -y,x-y; -x+y,-x"},
	{"p3m1", "p3m1", Hexagonal, false, "x,y; -y,x-y; -x+y,-x; -y,-x; -x+y,y; x,x-y"},
	{"p31m", "p31m", Hexagonal, false, "x,y; -y,x-y; -x+y,-x; y,x; x-y,-y; -x,-x+y"},
	{"p6", "p6", Hexagonal, false, "x,y; -y,x-y; -x+y,-x; -x,-y; y,-x+y; x-y,x"},
	{"p6mm", "p6m", Hexagonal, false,
		"x,y; -y,x-y; -x+y,-x; -x,-y; y,-x+y; x-y,x; -y,-x; -x+y,y; x,x-y; y,x; x-y,-y; -x,-x+y"},
}

// groups holds the seventeen, worked out when they are first asked for: about 0.15 ms natively.
var groups = sync.OnceValue(build)

func build() []Group {
	out := make([]Group, 0, len(table))
	for i, row := range table {
		g := Group{Number: i + 1, Symbol: row.symbol, Older: row.older, System: row.system, Centred: row.centred}
		for _, s := range strings.Split(row.ops, ";") {
			op, err := parseOp(s)
			if err != nil {
				panic(err) // a slip in the table above, met by the first test that runs
			}
			g.Ops = append(g.Ops, op)
		}
		g.Order = len(g.Ops)
		if g.Centred {
			half := Op{W: [2][2]int{{1, 0}, {0, 1}}, T: [2]Fraction{Frac(1, 2), Frac(1, 2)}}
			for _, op := range g.Ops[:g.Order] {
				g.Ops = append(g.Ops, half.After(op).Reduced())
			}
		}
		g.Orbifold = g.signature()
		out = append(out, g)
	}
	return out
}

// Groups returns the seventeen in the Tables' order. The slice is the caller's; the operations are shared and must not
// be changed.
func Groups() []Group { return append([]Group(nil), groups()...) }

// Find returns the group with the given symbol, short or older. The error lists what can be written.
func Find(symbol string) (Group, error) {
	for _, g := range groups() {
		if g.Symbol == symbol || g.Older == symbol {
			return g, nil
		}
	}
	var names []string
	for _, g := range groups() {
		names = append(names, g.Symbol)
	}
	return Group{}, fmt.Errorf("%.40q is not a plane group; the seventeen are %s", symbol, strings.Join(names, ", "))
}

// Index returns the place of an operation among the group's, modulo the lattice; −1 when it is not one of them.
func (g Group) Index(op Op) int {
	op = op.Reduced()
	for i, o := range g.Ops {
		if o == op {
			return i
		}
	}
	return -1
}
