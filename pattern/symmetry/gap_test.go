package symmetry

import (
	"fmt"
	"slices"
	"testing"
)

// maxLattice bounds the lattice points looked for in one conventional cell; the plane groups have one or two.
const maxLattice = 4

// latticePoints returns the points of the lattice spanned by basis in the conventional cell, modulo the cell's own
// translations, found by adding until nothing new comes. It is an error when they go on and on, or when a step along
// one of the cell's sides is no lattice vector, for then the cell is not one of the lattice.
func latticePoints(basis [][2]Fraction) ([][2]Fraction, error) {
	if len(basis) != 2 {
		return nil, fmt.Errorf("%d translations span the lattice, want 2", len(basis))
	}
	det := product(basis[0][0], basis[1][1]).Plus(product(basis[0][1], basis[1][0]).Times(-1))
	points := [][2]Fraction{{Frac(0, 1), Frac(0, 1)}}
	for i := 0; i < len(points); i++ {
		for _, v := range basis {
			p := [2]Fraction{points[i][0].Plus(v[0]).Mod1(), points[i][1].Plus(v[1]).Mod1()}
			if !slices.Contains(points, p) {
				points = append(points, p)
			}
		}
		if len(points) > maxLattice {
			return nil, fmt.Errorf("more than %d lattice points in a cell", maxLattice)
		}
	}
	// The cell holds 1/|det| lattice points exactly when its sides are lattice vectors.
	if det.Num < 0 {
		det = det.Times(-1)
	}
	if det != Frac(1, len(points)) {
		return nil, fmt.Errorf("a primitive cell has the area %v of the conventional one, but that holds %d points",
			det, len(points))
	}
	return points, nil
}

// product returns f·g.
func product(f, g Fraction) Fraction { return Frac(f.Num*g.Num, f.Den*g.Den) }

// opsOverCell spells out the operations GAP's group has modulo the conventional cell's translations, as text, sorted.
func opsOverCell(g published) ([]string, error) {
	points, err := latticePoints(g.basis)
	if err != nil {
		return nil, err
	}
	var out []string
	for _, op := range g.ops {
		for _, p := range points {
			out = append(out, spell(Op{W: op.W, T: [2]Fraction{op.T[0].Plus(p[0]), op.T[1].Plus(p[1])}}))
		}
	}
	slices.Sort(out)
	return out, nil
}

// spell writes an operation modulo the cell's translations, so that two are the same exactly when their texts are.
func spell(op Op) string {
	return fmt.Sprintf("%v + %v,%v", op.W, op.T[0].Mod1(), op.T[1].Mod1())
}

// differences says in what our group and GAP's differ as sets of operations over the conventional cell; nil when they
// are the same. An operation listed twice is a difference.
func differences(ours Group, theirs published) []string {
	want, err := opsOverCell(theirs)
	if err != nil {
		return []string{err.Error()}
	}
	var got, out []string
	for _, op := range ours.Ops {
		got = append(got, spell(op))
	}
	slices.Sort(got)
	for i, op := range got {
		if i > 0 && got[i-1] == op {
			out = append(out, "twice: "+op)
		}
		if !slices.Contains(want, op) {
			out = append(out, "ours only: "+op)
		}
	}
	for _, op := range want {
		if !slices.Contains(got, op) {
			out = append(out, "GAP only: "+op)
		}
	}
	return out
}

// TestOperationsAgreeWithGAP holds all seventeen to the published record: the same matrices and translations, over the
// whole conventional cell, exactly; then it holds the comparison itself to groups spoilt on purpose.
func TestOperationsAgreeWithGAP(t *testing.T) {
	t.Parallel() // GAP takes its time
	theirs := askGAP(t)
	ours := Groups()
	if len(ours) != 17 {
		t.Fatalf("we have %d groups, want 17", len(ours))
	}
	for i, g := range ours {
		if g.Number != i+1 {
			t.Errorf("row %d has number %d", i, g.Number)
		}
		points, err := latticePoints(theirs[g.Number].basis)
		if err != nil {
			t.Errorf("%s: %v", g.Symbol, err)
			continue
		}
		if g.Centred != (len(points) == 2) {
			t.Errorf("%s: centred %v, but GAP's lattice has %d points in the cell", g.Symbol, g.Centred, len(points))
		}
		if g.Order != len(theirs[g.Number].ops) {
			t.Errorf("%s: order %d, GAP's point group has %d", g.Symbol, g.Order, len(theirs[g.Number].ops))
		}
		for _, d := range differences(g, theirs[g.Number]) {
			t.Errorf("%s: %s", g.Symbol, d)
		}
	}
	// Any two of the seventeen differ, so a row in another's place is seen.
	for i, a := range ours {
		for j, b := range ours {
			if i != j && differences(a, theirs[b.Number]) == nil {
				t.Errorf("the comparison takes %s for %s", a.Symbol, b.Symbol)
			}
		}
	}
	for _, c := range spoilt {
		g := ours[c.number-1]
		g.Ops = c.spoil(slices.Clone(g.Ops))
		if differences(g, theirs[c.number]) == nil {
			t.Errorf("%s, %s: the comparison sees nothing", g.Symbol, c.name)
		}
	}
}

// spoilt lists ways in which a table of operations can be wrong.
var spoilt = []struct {
	name   string
	number int
	spoil  func([]Op) []Op
}{
	{"an operation left out", 8, func(ops []Op) []Op { return ops[:len(ops)-1] }},
	{"an operation twice", 8, func(ops []Op) []Op { return append(ops, ops[1]) }},
	{"a glide of a third", 4, func(ops []Op) []Op { ops[1].T[1] = Frac(1, 3); return ops }},
	{"a glide along the other side", 4, func(ops []Op) []Op {
		ops[1].T[0], ops[1].T[1] = ops[1].T[1],
			ops[1].T[0]
		return ops
	}},
	{"matrices acting from the right", 13, func(ops []Op) []Op {
		for i := range ops {
			ops[i].W[0][1], ops[i].W[1][0] = ops[i].W[1][0], ops[i].W[0][1]
		}
		return ops
	}},
	{"centring left out", 5, func(ops []Op) []Op { return ops[:len(ops)/2] }},
	{"centring of one side", 5, func(ops []Op) []Op {
		for i := len(ops) / 2; i < len(ops); i++ {
			ops[i].T[1] = ops[i].T[1].Plus(Frac(1, 2))
		}
		return ops
	}},
	{"the origin elsewhere", 7, func(ops []Op) []Op {
		for i := range ops {
			if ops[i].W[0][0] == -1 {
				ops[i].T[0] = ops[i].T[0].Plus(Frac(1, 2))
			}
		}
		return ops
	}},
}
