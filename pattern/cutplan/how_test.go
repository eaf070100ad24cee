package cutplan

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
)

// window is a draft of one opening, a square of so many mm.
func window(side float64) draft.Draft {
	d := draft.Default()
	d.Panel = draft.Panel{Width: side + 60, Height: side + 60}
	d.Field.Origin = [2]float64{30, 30}
	d.Repeat = draft.Repeat{Group: "p1", A: side + 60, B: side + 60, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s",
		Outline: orb.MultiPolygon{{{{0, 0}, {side, 0}, {side, side}, {0, side}, {0, 0}}}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	d.Sheet.Kerf = 1
	return d
}

// ofClass returns the contours of a class.
func ofClass(p *Plan, class string) []Contour {
	var out []Contour
	for _, c := range p.Contours {
		if c.Class == class {
			out = append(out, c)
		}
	}
	return out
}

// A knife takes nothing away, goes on past where it began, and parts large waste by lines from edge to edge.
func TestKnife(t *testing.T) {
	d := window(250)
	d.Sheet.Cut = draft.Knife
	d.Sheet.Stock = "self-adhesive vinyl"
	p, _ := built(t, d, Options{})
	if p.Made.Kerf != 0 {
		t.Errorf("the kerf is %g mm", p.Made.Kerf)
	}
	open := ofClass(p, ClassOpening)
	if len(open) != 1 {
		t.Fatalf("%d openings", len(open))
	}
	c := open[0].Path
	if got, want := c.Length(), 4*250+usualOvercut; math.Abs(got-want) > 1e-6 || c.Closed() {
		t.Errorf("the opening is %.4f mm long, want %.4f; closed is %v", got, want, c.Closed())
	}
	if got := far(c.Start, c.End()); math.Abs(got-usualOvercut) > 1e-6 {
		t.Errorf("it ends %.4f mm past where it began", got)
	}
	lines := ofClass(p, ClassWeeding)
	if len(lines) != 4 {
		t.Errorf("%d lines part the waste, want 2 each way", len(lines))
	}
	for _, l := range lines {
		if got := l.Path.Length(); math.Abs(got-250) > 1e-6 {
			t.Errorf("a line is %.4f mm long", got)
		}
	}
	p, _ = built(t, d, Options{Overcut: -1, Weed: -1})
	if open := ofClass(p, ClassOpening); len(ofClass(p, ClassWeeding)) > 0 || !open[0].Path.Closed() {
		t.Error("what is not asked for is there")
	}
}

// Under a waterjet what drops out is held by tabs as wide as asked for once the jet has taken its kerf; in between the
// contour is whole.
func TestWaterjet(t *testing.T) {
	d := window(100)
	d.Sheet.Cut = draft.Waterjet
	p, _ := built(t, d, Options{})
	parts := ofClass(p, ClassOpening)
	gap := usualTab + d.Sheet.Kerf
	sum := 0.0
	for _, c := range parts {
		sum += c.Path.Length()
	}
	if want := 4*99 - usualTabs*gap; len(parts) != usualTabs || math.Abs(sum-want) > 1e-6 {
		t.Errorf("%d parts of %.4f mm together, want %d of %.4f", len(parts), sum, usualTabs, want)
	}
	if sheet := ofClass(p, ClassSheet); len(sheet) != 1 || !sheet[0].Path.Closed() {
		t.Error("the sheet's outline has tabs")
	}
	if len(p.Made.Notes) > 0 {
		t.Errorf("a kerf of 1 mm is noted: %q", p.Made.Notes)
	}

	d.Sheet.Kerf = 0.2
	if p, _ = built(t, d, Options{}); !strings.Contains(strings.Join(p.Made.Notes, " "), "none that a waterjet has") {
		t.Errorf("a kerf of 0.2 mm is not noted: %q", p.Made.Notes)
	}
	d = plantest.Rings()
	d.Sheet.Cut, d.Sheet.Kerf = draft.Waterjet, 0.8
	p, _ = built(t, d, Options{Tabs: Tabs{Number: 3, Width: 1}})
	for _, c := range p.Contours {
		if c.Layer == Cut && c.Class != ClassSheet && c.Path.Closed() {
			t.Error("a contour without tabs drops out")
		}
	}
}

func TestRefusalsOfHow(t *testing.T) {
	for words, o := range map[string]Options{
		"the overcut is NaN":  {Overcut: math.NaN()},
		"the tabs' width is ": {Tabs: Tabs{Width: 1000}},
		"101 tabs are":        {Tabs: Tabs{Number: 101}},
		"the least is 5":      {Weed: 1},
	} {
		if _, err := o.filled("card", draft.Laser); err == nil || !strings.Contains(err.Error(), words) {
			t.Errorf("%v, want %q", err, words)
		}
	}
}
