package sheet_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"openwork/pattern"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/symmetry"
)

// Copies are apart exactly when the live check finds no overlap and no bridge too narrow.
func TestApartIsTheLiveCheck(t *testing.T) {
	const seed = 31
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	apart := map[bool]int{}
	for _, g := range symmetry.Groups() {
		for n := range 12 {
			d := patterntest.Draft(r, g.Symbol)
			if n%3 == 0 { // loose, with any bridge, none among them
				d.Repeat.A, d.Repeat.B, d.Sheet.Bridge = 2*d.Repeat.A, 2*d.Repeat.B, float64(n)/6
			}
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			live := sheet.Check(l, nil)
			want := len(live.Overlaps) == 0 && len(live.Bridges) == 0 && !live.Partial
			apart[want]++
			if got := sheet.Apart(l); got != want {
				t.Errorf("%s %d: apart is %v; the live check has %d overlaps and %d bridges", g.Symbol, n, got,
					len(live.Overlaps), len(live.Bridges))
			}
		}
	}
	if apart[true] < 10 || apart[false] < 10 {
		t.Errorf("this says little: %v", apart)
	}
}

// What is moved apart is apart, and no move is longer than half a cell.
func TestMovesApart(t *testing.T) {
	d := patterntest.Demo(t)
	for k, by := range [][2]float64{{3, 2}, {12, -8}, {-15, 5}, {0, 10}} {
		t.Run(strconv.Itoa(k), func(t *testing.T) {
			dragged, err := pattern.Apply(d, pattern.Command{Name: "place", ID: "m2", Values: map[string]float64{
				"x": d.Motifs[1].At[0] + by[0], "y": d.Motifs[1].At[1] + by[1]}})
			if err != nil {
				t.Fatal(err)
			}
			l, err := pattern.NewLayout(dragged, nil)
			if err != nil {
				t.Fatal(err)
			}
			moves := sheet.MovesApart(l)
			if len(moves) == 0 {
				t.Fatal("no way is found, and back is one")
			}
			last := 0.0
			for _, c := range moves {
				m := dragged.Motifs[dragged.Motif(c.ID)]
				far := math.Hypot(c.Values["x"]-m.At[0], c.Values["y"]-m.At[1])
				if far < last-0.2 || far > 54.2 { // rounded to a tenth on both axes
					t.Errorf("%v is %g mm long, after one of %g", c, far, last)
				}
				last = far
				next, err := pattern.Apply(dragged, c)
				if err != nil {
					t.Fatal(err)
				}
				after, err := pattern.NewLayout(next, nil)
				if err != nil || !sheet.Apart(after) {
					t.Errorf("%v leaves copies in each other's way (%v)", c, err)
				}
			}
			// The demonstration's own place is a way that is clear.
			if back := math.Hypot(by[0], by[1]); back < 54 {
				m := dragged.Motifs[dragged.Motif(moves[0].ID)]
				if far := math.Hypot(moves[0].Values["x"]-m.At[0], moves[0].Values["y"]-m.At[1]); far > back+1.5 {
					t.Errorf("the shortest is %g mm, and back are %g", far, back)
				}
			}
		})
	}
}

// What lessens the faults: fewer in all, and from the most severe kind down never more.
func TestLessens(t *testing.T) {
	totals := func(counts ...any) (r sheet.Report) {
		for i := 0; i < len(counts); i += 2 {
			r.Totals = append(r.Totals, sheet.Total{Kind: counts[i].(sheet.Kind), Severity: sheet.Fault,
				Count: counts[i+1].(int)})
		}
		return r
	}
	warned := func(n int) (r sheet.Report) {
		if n > 0 {
			r.Totals = []sheet.Total{{Kind: sheet.Tip, Severity: sheet.Warning, Count: n}}
		}
		return r
	}
	partly := totals(sheet.Overlap, 3)
	partly.Totals[0].AtLeast = true
	for _, c := range []struct {
		name          string
		before, after sheet.Report
		want          bool
	}{
		{"fewer of a kind", totals(sheet.Bridge, 5), totals(sheet.Bridge, 4), true},
		{"as many", totals(sheet.Bridge, 5), totals(sheet.Bridge, 5), false},
		{"bridges become islands", totals(sheet.Bridge, 45), totals(sheet.Island, 45), false},
		{"bridges become fewer islands", totals(sheet.Bridge, 45), totals(sheet.Island, 1), false},
		{"islands become fewer bridges", totals(sheet.Island, 5), totals(sheet.Bridge, 3), true},
		{"an island becomes two bridges", totals(sheet.Island, 1), totals(sheet.Bridge, 2), false},
		{"overlaps go and some edges come", totals(sheet.Overlap, 9, sheet.Edge, 1), totals(sheet.Edge, 4), true},
		{"all goes", totals(sheet.Overlap, 9), totals(), true},
		{"all goes, and warnings come", totals(sheet.Overlap, 9), warned(3), true},
		{"a panel emptied", totals(sheet.Bridge, 9), totals(sheet.Empty, 1), false},
		{"counted in part", totals(sheet.Overlap, 9), partly, false},
		{"fewer warnings of a sheet that holds", warned(3), warned(2), true},
		{"no warning left", warned(3), warned(0), true},
		{"as many warnings", warned(3), warned(3), false},
		{"a warning becomes a fault", warned(3), totals(sheet.Bridge, 1), false},
		{"nothing to mend", totals(), totals(), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := sheet.Lessens(c.before, c.after); got != c.want {
				t.Errorf("%v", got)
			}
		})
	}
}

// Each sentence is held to the letter.
func TestEffect(t *testing.T) {
	narrow := 1.07
	total := func(k sheet.Kind, s sheet.Severity, n int) sheet.Total {
		return sheet.Total{Kind: k, Severity: s, Count: n}
	}
	inMM := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) + " mm" }
	for want, m := range map[string]sheet.Mend{
		"then the sheet holds; narrowest bridge 1.07 mm": {Was: []sheet.Total{total(sheet.Bridge, sheet.Fault, 2)},
			Before: 2, Sound: true, Narrowest: &narrow},
		"leaves 4 of 9 faults: 1 island that would drop out, 3 bridges too thin (2 before)": {Before: 9, After: 4,
			Was:    []sheet.Total{total(sheet.Island, sheet.Fault, 7), total(sheet.Bridge, sheet.Fault, 2)},
			Totals: []sheet.Total{total(sheet.Island, sheet.Fault, 1), total(sheet.Bridge, sheet.Fault, 3)}},
		"leaves 1 of at least 9 faults: 1 place in an opening too narrow for paste (none before)": {Before: 9, After: 1,
			Was:    []sheet.Total{{Kind: sheet.Overlap, Severity: sheet.Fault, Count: 9, AtLeast: true}},
			Totals: []sheet.Total{total(sheet.Opening, sheet.Fault, 1)}},
		"leaves 2 tails of openings that paste will not fill": {Was: []sheet.Total{total(sheet.Opening, sheet.Warning,
			5)}, Sound: true,
			Totals: []sheet.Total{total(sheet.Opening, sheet.Warning, 2)}},
		"leaves no warning": {Was: []sheet.Total{total(sheet.Tip, sheet.Warning, 5)}, Sound: true},
	} {
		t.Run(want, func(t *testing.T) {
			if got := m.Effect(inMM); got != want {
				t.Errorf("%q", got)
			}
		})
	}
}
