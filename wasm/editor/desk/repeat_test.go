package desk

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
	"openwork/wasm/editor/desk/copies"
	"openwork/wasm/editor/desk/view"
)

// moth is a silhouette with one mirror, along its own y axis, and nothing else.
var moth = orb.MultiPolygon{{{{0, -14}, {6, -10}, {20, -12}, {14, 2}, {22, 12}, {4, 8}, {0, 12}, {-4, 8}, {-22, 12},
	{-14, 2}, {-20, -12}, {-6, -10}, {0, -14}}}}

// leaning has no symmetry at all.
var leaning = orb.MultiPolygon{{{{-12, -9}, {15, -7}, {9, 2}, {17, 13}, {-3, 9}, {-12, -9}}}}

// bench is a desk with one motif of an outline at a place of a cell of 200 mm.
func benchWith(t *testing.T, group string, outline orb.MultiPolygon, at orb.Point, turn float64) *Desk {
	t.Helper()
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: group, A: 200, B: 200, Gamma: 90}
	if g, _ := symmetry.Find(group); g.System == symmetry.Hexagonal {
		d.Repeat.Gamma = 120
	}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "S", Outline: outline}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: at, Turn: turn, Scale: 1}}
	k := New(d)
	k.Resize(1000, 1000)
	k.Select("m")
	return k
}

// A copy dragged near a mirror comes to stand on it, with Alt it does not; the page says what either means.
func TestMirrorsDrawCopies(t *testing.T) {
	for _, c := range []struct {
		name    string
		outline orb.MultiPolygon
		mods    int
		says    string
		inCell  int
		offers  int
	}{
		{"drawn on", moth, 0, "On a mirror: 4 in a cell instead of 8.", 4, 0},
		{"not with Alt", moth, view.Alt, "", 8, 0},
		{"a silhouette without a mirror", leaning, 0, "not the same on both sides", 8, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := benchWith(t, "p4mm", c.outline, orb.Point{30, 62}, 0)
			middle := k.Session.layout.Orbits[0].Place.Apply(k.Session.layout.Orbits[0].Shape.Centroid())
			k.Session.sel.Held = copies.Held{}
			// The mirror x = 0 lies 30 mm to the left; the hand stops 3 px short of it.
			far := middle[0]*k.View.Zoom - 3
			from := k.View.Map().After(k.Session.Draft().FieldMap()).Apply(middle)
			dragWith(k, from, orb.Point{-far, 0}, c.mods)
			m := k.State().Motifs[0]
			if m.InCell != c.inCell || len(m.Offers) != c.offers ||
				(c.says == "") != (m.Text == "") || !strings.Contains(m.Text, c.says) {
				t.Errorf("%d in a cell, %q, offers %v", m.InCell, m.Text, m.Offers)
			}
		})
	}
}

// A silhouette with a mirror of its own, turned nearly along the mirror it stands on, comes to lie along it.
func TestMirrorsDrawTurns(t *testing.T) {
	k := benchWith(t, "pm", moth, orb.Point{0, 0}, 0)
	o := k.Session.layout.Orbits[0]
	axis := k.Session.shapes.Axes(o.Shape)
	if len(axis) != 1 || math.Abs(math.Remainder(axis[0]-math.Pi/2, math.Pi)) > 1e-9 {
		t.Fatalf("the moth's axes are %v", axis)
	}
	if got := k.copies.SnappedTurn(k.Session.Draft().Motifs[0], 3); math.Abs(got) > 1e-9 {
		t.Errorf("turned by 3° it comes to %g°", got)
	}
	if got := k.copies.SnappedTurn(k.Session.Draft().Motifs[0], 7); got != 7 {
		t.Errorf("turned by 7° it comes to %g°", got)
	}
	if got := k.copies.SnappedTurn(k.Session.Draft().Motifs[0], 178); math.Abs(got-180) > 1e-9 {
		t.Errorf("turned by 178° it comes to %g°", got)
	}
}

func TestOnto(t *testing.T) {
	k := benchWith(t, "p6", leaning, orb.Point{31, 17}, 20)
	if err := k.Act("onto"); err != nil {
		t.Fatal(err)
	}
	if m := k.State().Motifs[0]; !strings.HasPrefix(m.Text, "On a rotation point of ") || len(m.Offers) != 1 {
		t.Errorf("%q, offers %v", m.Text, m.Offers)
	}
	if err := k.Act("onto"); err == nil || !strings.Contains(err.Error(), "already") {
		t.Errorf("once more: %v", err)
	}
	if err := benchWith(t, "p1", leaning, orb.Point{31, 17}, 20).Act("onto"); err == nil {
		t.Error("p1 has a special place")
	}
}

func TestWholeRepeatsAreTold(t *testing.T) {
	k := benchWith(t, "p2mm", leaning, orb.Point{60, 60}, 0)
	if err := k.Do(pattern.Command{Name: "repeats", Values: map[string]float64{"across": 3, "down": 4}}); err != nil {
		t.Fatal(err)
	}
	s := k.State()
	if s.Repeats["across"] != 3.0 && math.Abs(s.Repeats["across"].(float64)-3) > 1e-4 {
		t.Errorf("across %v", s.Repeats["across"])
	}
	if !strings.Contains(s.Repeat.Fit, "3 across and 4 down fill the field exactly") {
		t.Error(s.Repeat.Fit)
	}
	if s.Message == nil || !strings.Contains(s.Message.Text, "%") {
		t.Errorf("no word of the change: %+v", s.Message)
	}
	k = benchWith(t, "p4", leaning, orb.Point{60, 60}, 0)
	if err := k.Do(pattern.Command{Name: "repeats", Values: map[string]float64{"across": 3}}); err != nil {
		t.Fatal(err)
	}
	// 560 mm wide: cells of 186.667; 860 mm high: 4 cells and 113.3 mm.
	want := "3 across fill the width exactly; down there are 4 and 113.3 mm left over"
	if fit := k.State().Repeat.Fit; !strings.Contains(fit, want) {
		t.Error(fit)
	}
}

func TestWhatWasRecognisedIsSaid(t *testing.T) {
	k := benchWith(t, "p2", leaning, orb.Point{60, 60}, 0)
	for _, c := range []struct{ actual, want string }{
		{"p2mm", "You chose p2. As drawn, this is p2mm: there are mirrors you can use."},
		{"p4", "You chose p2. As drawn, this is p4: there are quarter turns you can use."},
		{"p2", ""},
	} {
		t.Run(c.actual, func(t *testing.T) {
			text := fmt.Sprintf(
				`{"chosen":"p2","actual":%q,"order":4,"primitive":[[200,0],[0,200]],"elements":[]}`, c.actual)
			if err := k.Session.Recognised(k.Session.token, text); err != nil {
				t.Fatal(err)
			}
			if got := k.State().Found.Text; got != c.want {
				t.Errorf("%q", got)
			}
		})
	}
	for _, c := range []struct{ colours, want string }{
		{`"permutes":"p2","keptOne":"p2","kept":"p2","keptCells":1`, ""},
		{`"permutes":"p2","keptOne":"p1","kept":"p1","keptCells":1`,
			"With its colours it is p1; p2 carries colours into each other."},
		{`"permutes":"p2","keptOne":"p2","kept":"p2","keptCells":2`,
			"With its colours it is p2, and its repeat is 2 times as large; p2 carries colours into each other."},
		{`"permutes":"p2","keptOne":"p2","kept":"p1","keptCells":3`, "With its colours it is p1, and its repeat is 3 " +
			"times as large; p2 keeps one colour; p2 carries colours into each other."},
		{`"permutes":"p1","keptOne":"p1","kept":"p1","keptCells":1`, "With its colours it is p1."},
	} {
		t.Run(c.colours, func(t *testing.T) {
			text := `{"chosen":"p2","actual":"p2","primitive":[[200,0],[0,200]],` + c.colours + `}`
			if err := k.Session.Recognised(k.Session.token, text); err != nil {
				t.Fatal(err)
			}
			if got := k.State().Found.Text; got != c.want {
				t.Errorf("%q", got)
			}
		})
	}
	half := `{"chosen":"p2","actual":"p2","primitive":[[100,0],[0,200]]}`
	if err := k.Session.Recognised(k.Session.token, half); err != nil {
		t.Fatal(err)
	}
	if got := k.State().Found.Text; !strings.Contains(got, "2 times within your cell") {
		t.Error(got)
	}
	err := k.Session.Recognised(k.Session.token-1, `{"actual":"p6"}`)
	if err != nil || !strings.Contains(k.State().Found.Text, "2 times") {
		t.Error("an old answer was taken")
	}
}
