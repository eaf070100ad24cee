package symmetry

import (
	"fmt"
	"math"
	"testing"
)

// cellFor returns a cell the group allows, as general as its system permits.
func cellFor(g Group) Cell {
	switch g.System {
	case Rectangular:
		return Cell{37, 53, 90}
	case Square:
		return Cell{41, 41, 90}
	case Hexagonal:
		return Cell{43, 43, 120}
	}
	return Cell{37, 53, 77}
}

func TestGroupAxioms(t *testing.T) {
	if n := len(Groups()); n != 17 {
		t.Fatalf("%d groups, want 17", n)
	}
	for i, g := range Groups() {
		if g.Number != i+1 {
			t.Errorf("%s: number %d, want %d", g.Symbol, g.Number, i+1)
		}
		if g.Ops[0] != (Op{W: [2][2]int{{1, 0}, {0, 1}}, T: [2]Fraction{Frac(0, 1), Frac(0, 1)}}) {
			t.Errorf("%s: the first operation is not the identity", g.Symbol)
		}
		for a, p := range g.Ops {
			if g.Index(p.Inverse()) < 0 {
				t.Errorf("%s: the inverse of operation %d is missing", g.Symbol, a)
			}
			if p.After(p.Inverse()).Reduced() != g.Ops[0] {
				t.Errorf("%s: operation %d times its inverse is not the identity", g.Symbol, a)
			}
			for b, q := range g.Ops {
				if a != b && p == q {
					t.Errorf("%s: operations %d and %d are the same", g.Symbol, a, b)
				}
				if g.Index(p.After(q)) < 0 {
					t.Errorf("%s: the product of operations %d and %d is missing", g.Symbol, a, b)
				}
			}
		}
	}
}

// The metric is kept when Wᵀ G W = G. For each system G = [[a², ab cos γ], [ab cos γ, b²]] is checked over the integers
// in units that make it so: square [[1,0],[0,1]], hexagonal [[2,−1],[−1,2]]; a rectangular or oblique cell has free
// sides, and W must keep every such G: the unit ones and their free parts one by one.
func TestOperationsKeepTheMetricExactly(t *testing.T) {
	basis := map[System][][2][2]int{
		Oblique:     {{{1, 0}, {0, 0}}, {{0, 0}, {0, 1}}, {{0, 1}, {1, 0}}},
		Rectangular: {{{1, 0}, {0, 0}}, {{0, 0}, {0, 1}}},
		Square:      {{{1, 0}, {0, 1}}},
		Hexagonal:   {{{2, -1}, {-1, 2}}},
	}
	for _, g := range Groups() {
		for k, op := range g.Ops {
			for _, m := range basis[g.System] {
				var got [2][2]int
				for i := range 2 {
					for j := range 2 {
						for a := range 2 {
							for b := range 2 {
								got[i][j] += op.W[a][i] * m[a][b] * op.W[b][j]
							}
						}
					}
				}
				if got != m {
					t.Errorf("%s: operation %d changes the metric %v to %v", g.Symbol, k, m, got)
				}
			}
		}
	}
}

func TestOperationsInMillimetresAreIsometries(t *testing.T) {
	for _, g := range Groups() {
		c := cellFor(g)
		if err := g.CheckCell(c); err != nil {
			t.Fatal(err)
		}
		for k, op := range g.Ops {
			m := op.Map(c, 1, -2)
			if e := math.Abs(m.A*m.A+m.C*m.C-1) + math.Abs(m.B*m.B+m.D*m.D-1) + math.Abs(m.A*m.B+m.C*m.D); e > 1e-14 {
				t.Errorf("%s: operation %d is off an isometry by %g", g.Symbol, k, e)
			}
		}
	}
}

func TestCellsThatDoNotFit(t *testing.T) {
	for _, c := range []struct {
		group string
		cell  Cell
	}{
		{"p4", Cell{40, 41, 90}}, {"p4", Cell{40, 40, 91}}, {"p3", Cell{40, 40, 60}}, {"p6mm", Cell{40, 50, 120}},
		{"pm", Cell{40, 50, 80}}, {"p1", Cell{0, 50, 80}}, {"p1", Cell{40, 50, 0}}, {"p1", Cell{40, 50, 180}},
		{"p2", Cell{math.NaN(), 50, 90}}, {"p2", Cell{40, 50, math.NaN()}}, {"p2", Cell{40, math.Inf(1), 90}},
	} {
		t.Run(fmt.Sprintf("%s in %v", c.group, c.cell), func(t *testing.T) {
			g, err := Find(c.group)
			if err != nil {
				t.Fatal(err)
			}
			if err := g.CheckCell(c.cell); err == nil {
				t.Errorf("%s accepts %v", c.group, c.cell)
			} else {
				t.Log(err)
			}
		})
	}
}

func TestFitCellKeepsTheArea(t *testing.T) {
	for _, g := range Groups() {
		for _, c := range []Cell{{37, 53, 77}, {100, 20, 90}, {60, 60, 120}, {55, 55, 90}, {30, 80, 150}} {
			f := g.FitCell(c)
			if err := g.CheckCell(f); err != nil {
				t.Errorf("%s: %v becomes %v: %v", g.Symbol, c, f, err)
			}
			if math.Abs(f.Area()-c.Area()) > 1e-4*c.Area() {
				t.Errorf("%s: %v of area %g becomes %v of area %g", g.Symbol, c, c.Area(), f, f.Area())
			}
		}
	}
}
