package symmetry

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"openwork/geometry/geometrytest"
)

// gapProgram makes GAP print the seventeen: for each, the basis of its translations (lines "T number x y") and one
// operation for each element of its point group ("E number w11 w12 w21 w22 t1 t2"). SpaceGroupOnLeftIT gives the
// matrices of the Tables' setting for column vectors, the translation in the last column; the default action of GAP is
// from the right, with everything transposed. The last line says that the program came to its end.
const gapProgram = `
if LoadPackage("cryst") <> true then
  Print("NO CRYST\n");
else
  for n in [1..17] do
    g := SpaceGroupOnLeftIT(2, n);
    for v in TranslationBasis(g) do
      Print("T ", n, " ", v[1], " ", v[2], "\n");
    od;
    hom := PointHomomorphism(g);
    for p in PointGroup(g) do
      m := PreImagesRepresentative(hom, p);
      Print("E ", n, " ", m[1][1], " ", m[1][2], " ", m[2][1], " ", m[2][2], " ", m[1][3], " ", m[2][3], "\n");
    od;
  od;
  Print("END\n");
fi;
`

// published is one group as GAP tells it: the translations that span its lattice, and one operation for each element of
// the point group.
type published struct {
	basis [][2]Fraction
	ops   []Op
}

// askGAP reads the seventeen groups by number.
func askGAP(t *testing.T) map[int]published {
	t.Helper()
	out, _ := gapSays(t)
	groups, err := readGAP(out)
	if err != nil {
		t.Fatalf("GAP's answer cannot be read: %v\n%s", err, out)
	}
	return groups
}

// gapSays returns what gapProgram prints, and sitesProgram for gapAnswer.asked. Without GAP and its package cryst the
// test fails.
func gapSays(t *testing.T) (groups, sites string) {
	t.Helper()
	gapAnswer.once.Do(func() {
		gapAnswer.asked = geometrytest.Share(t, Groups(), 6)
		gapAnswer.text, gapAnswer.err = runGAP(gapAnswer.asked)
	})
	if gapAnswer.err != nil {
		t.Fatal(gapAnswer.err)
	}
	groups, sites, ok := strings.Cut(gapAnswer.text, gapBreak)
	if !ok {
		t.Fatalf("GAP did not come to its second program:\n%s", gapAnswer.text)
	}
	return groups, sites
}

// gapAnswer is what GAP says to both programs, asked once for all tests: starting it takes longer than most answers.
var gapAnswer struct {
	once  sync.Once
	asked []Group // whose special positions were asked for
	text  string
	err   error
}

// gapBreak stands between the answers to the two programs.
const gapBreak = "NEXT\n"

// runGAP gives GAP both programs, the second for some of the groups.
func runGAP(some []Group) (string, error) {
	gap, err := exec.LookPath("gap")
	if err != nil {
		return "", errors.New("GAP is not installed: the Debian packages gap-core and gap-cryst bring it")
	}
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, gap, "-q")
	cmd.Stdin = strings.NewReader(gapProgram + `Print("NEXT\n");` + sitesProgram(some))
	out, err := cmd.CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("GAP failed: %w\n%s", err, out)
	}
	if bytes.Contains(out, []byte("NO CRYST")) {
		return "", errors.New("GAP has no package cryst: the Debian package gap-cryst brings it")
	}
	return string(out), nil
}

// readGAP reads what gapProgram prints.
func readGAP(text string) (map[int]published, error) {
	groups := map[int]published{}
	ended := false
	lines := bufio.NewScanner(strings.NewReader(text))
	for lines.Scan() {
		words := strings.Fields(lines.Text())
		if len(words) == 0 {
			continue
		}
		if words[0] == "END" {
			ended = true
			continue
		}
		var numbers []Fraction
		for _, word := range words[1:] {
			f, err := parseFraction(word)
			if err != nil {
				return nil, fmt.Errorf("line %q: %w", lines.Text(), err)
			}
			numbers = append(numbers, f)
		}
		switch {
		case words[0] == "T" && len(numbers) == 3:
			g := groups[numbers[0].Num]
			g.basis = append(g.basis, [2]Fraction{numbers[1], numbers[2]})
			groups[numbers[0].Num] = g
		case words[0] == "E" && len(numbers) == 7:
			var op Op
			for i, f := range numbers[1:5] {
				if f.Den != 1 {
					return nil, fmt.Errorf("line %q: a matrix that is not whole", lines.Text())
				}
				op.W[i/2][i%2] = f.Num
			}
			op.T = [2]Fraction{numbers[5], numbers[6]}
			g := groups[numbers[0].Num]
			g.ops = append(g.ops, op)
			groups[numbers[0].Num] = g
		default:
			return nil, fmt.Errorf("line %q: not what was asked for", lines.Text())
		}
	}
	if !ended || len(groups) != 17 {
		return nil, fmt.Errorf("%d groups, and the end reached: %v", len(groups), ended)
	}
	return groups, lines.Err()
}

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
