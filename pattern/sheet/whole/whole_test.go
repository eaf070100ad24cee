package whole

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/symmetry"
)

var drafts = flag.Int("drafts", 34,
	"random drafts on which the look at the whole panel is held against the check of the panel")

// On random drafts of all groups and edge rules, at rest and after some steps of a drag, the frame's report is the
// check's; where it says that it is partial, every count is no more than the check's.
func TestLookTellsWhatTheCheckTells(t *testing.T) {
	const seed = 2207
	t.Logf("seed %d", seed)
	groups := symmetry.Groups()
	var n looks
	for i := range *drafts {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		d := patterntest.Varied(r, groups[i%len(groups)].Symbol, i/len(groups)%patterntest.Variants)
		if r.IntN(2) == 0 {
			d.Repeat.A, d.Repeat.B = geometry.Snap(1.6*d.Repeat.A), geometry.Snap(1.6*d.Repeat.B)
		}
		d.Field.Edge = []draft.Edge{draft.Crop, draft.Crop, draft.Whole, draft.Touching}[r.IntN(4)]
		if r.IntN(4) == 0 { // a margin that brings openings near the sheet's edge
			d.Field.Margin = d.Sheet.Bridge * (0.2 + r.Float64())
		}
		w := &Panel{points: []int{math.MaxInt, math.MaxInt, 300}[r.IntN(3)]}
		shapes := pattern.NewShapes()
		for step := range 2 {
			if step > 0 {
				at := d.Motifs[0].At
				next, err := pattern.Apply(d, pattern.Command{Name: "place", ID: d.Motifs[0].ID,
					Values: map[string]float64{"x": at[0] + r.Float64(), "y": at[1] - r.Float64()}})
				if err != nil {
					t.Fatal(err)
				}
				d = next
			}
			if d.Check() == nil {
				n.hold(t, w, i, d, shapes, step > 0)
			}
		}
	}
	t.Logf("%+v", n)
	if n.complete < *drafts/2 || n.refused > *drafts/20 {
		t.Errorf("%+v", n)
	}
}

// looks counts what became of looks at drafts.
type looks struct{ complete, partial, refused int }

// hold holds a look at draft number i against the panel's check.
func (n *looks) hold(t *testing.T, w *Panel, i int, d draft.Draft, shapes *pattern.Shapes, moving bool) {
	t.Helper()
	l, err := pattern.NewLayout(d, shapes)
	if err != nil {
		t.Fatal(err)
	}

	got, ok := w.Look(l, moving)
	want, err := panel.Check(l)
	switch {
	case err != nil:
		t.Logf("draft %d: %v", i, err)
		n.refused++
	case !ok:
		n.refused++
	case got.Partial:
		n.partial++
		atLeast(t, i, d, got, want)
	default:
		n.complete++
		same(t, i, d, got.Report, want)
	}
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-6*(1+math.Abs(b)) }

// same compares all that both reports tell.
func same(t *testing.T, i int, d draft.Draft, got, want sheet.Report) {
	t.Helper()
	fail := func(what string, a, b any) {
		t.Helper()
		t.Errorf("draft %d (%s, %s): %s %v, the check has %v", i, d.Title, d.Field.Edge, what, a, b)
	}
	if got.Sound != want.Sound {
		fail("sound", got.Sound, want.Sound)
	}
	if got.Counts != want.Counts {
		fail("counts", got.Counts, want.Counts)
	}
	for _, kind := range sheet.Kinds() {
		for _, severity := range []sheet.Severity{sheet.Fault, sheet.Warning} {
			a, b := got.Of(kind, severity), want.Of(kind, severity)
			if a != b {
				fail(string(kind)+" "+string(severity), a, b)
				continue
			}
			if x, y := worst(got, kind, severity), worst(want, kind, severity); a.Count > 0 && !near(x, y) {
				fail("worst "+string(kind)+" "+string(severity), x, y)
			}
		}
	}
	if a, b := got.NarrowestBetween, want.NarrowestBetween; (a == nil) != (b == nil) || (a != nil && !near(*a, *b)) {
		fail("narrowest", of(a), of(b))
	}
	if !near(got.OpenArea, want.OpenArea) || !near(got.SheetArea, want.SheetArea) {
		fail("areas", []float64{got.OpenArea, got.SheetArea}, []float64{want.OpenArea, want.SheetArea})
	}
}

func of(v *float64) float64 {
	if v == nil {
		return math.NaN()
	}
	return *v
}

// worst returns the worst figure of a row.
func worst(r sheet.Report, kind sheet.Kind, severity sheet.Severity) float64 {
	out, has := 0.0, false
	for _, p := range r.Problems {
		if p.Kind != kind || p.Severity != severity {
			continue
		}
		if !has || (p.Measured < out) != kind.LargerIsWorse() {
			out, has = p.Measured, true
		}
	}
	return out
}

// atLeast compares what a partial report promises: never sound, and no count above the check's.
func atLeast(t *testing.T, i int, d draft.Draft, got Report, want sheet.Report) {
	t.Helper()
	if got.Sound {
		t.Errorf("draft %d (%s): partial and sound", i, d.Title)
	}
	for _, row := range got.Totals {
		if b := want.Of(row.Kind, row.Severity); row.Count > b.Count || (!row.AtLeast && row.Count != b.Count) {
			t.Errorf("draft %d (%s, %s): partial %v, the check has %v", i, d.Title, d.Field.Edge, row, b)
		}
	}
}
