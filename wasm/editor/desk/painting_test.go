package desk

import (
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

func swatches(t *testing.T, k *Desk, colours ...string) {
	t.Helper()
	for _, c := range colours {
		if err := k.Do(pattern.Command{Name: "swatch",
			Swatches: []draft.Swatch{{Name: "Swatch " + c, Colour: c}}}); err != nil {
			t.Fatal(err)
		}
	}
}

// With the brush in hand a press colours the copy under it, whatever operation made it; a drag pans, and Escape lays
// the brush down.
func TestBrushColoursCopies(t *testing.T) {
	k := demo(t)
	swatches(t, k, "#17564a", "#8a3b1c")
	if err := k.Do(pattern.Command{Name: "colour", ID: k.Session.Draft().Motifs[0].ID, Text: "c1"}); err != nil {
		t.Fatal(err)
	}
	k.Brush(true, "c2")
	for op := range k.Session.layout.Group.Ops {
		c := someCopy(t, k, op)
		p := centre(k, c)
		if name := k.Pointer("down", 1, p[0], p[1], 0, "mouse"); name != "grabbing" && name != "crosshair" {
			t.Errorf("the cursor is %s", name)
		}
		k.Pointer("up", 1, p[0], p[1], 0, "mouse")
		if got := k.Session.layout.ColourOf(c.Motif, c.Op, c.Cell[0], c.Cell[1]); got != 1 {
			t.Errorf("operation %d: colour %d", op, got)
		}
	}
	if n := k.State().Paint.ByHand.Copies; n != len(k.Session.layout.Group.Ops) {
		t.Errorf("%d copies by hand", n)
	}
	before := k.Session.Draft()
	c := someCopy(t, k, 0)
	drag(k, centre(k, c), orb.Point{40, 10})
	if k.Session.Draft().Paint != before.Paint || k.Session.Draft().Motifs[0] != before.Motifs[0] {
		t.Error("a drag colours or moves")
	}

	// The key does what the pointer does: for the copy that the handles stand on, and away again with no swatch.
	k.Brush(true, "")
	k.Select(before.Motifs[0].ID)
	if !k.Key("c", 0, true, false) || k.State().Paint.ByHand.Copies != len(k.Session.layout.Group.Ops)-1 {
		t.Errorf("%d copies by hand after wiping one", k.State().Paint.ByHand.Copies)
	}
	if !k.Key("Escape", 0, true, false) || k.brush.On() {
		t.Error("Escape leaves the brush in hand")
	}
	if err := k.Act("colour-copy"); err == nil || !strings.Contains(err.Error(), "swatch") {
		t.Error(err)
	}
}

// Twelve colours in p1 on a panel with one copy: it opens, and the page says what is missing.
func TestMoreColoursThanCopies(t *testing.T) {
	k := New(draft.Default())
	k.Resize(900, 700)
	d := patterntest.One(draft.Repeat{Group: "p1", A: 500, B: 500, Gamma: 90}, patterntest.Regular(6, 100))
	d.Panel, d.Field.Margin, d.Field.Origin = draft.Panel{Width: 400, Height: 400}, 10, [2]float64{200, 200}
	d.Motifs[0].At = [2]float64{}
	if err := k.Open(d); err != nil {
		t.Fatal(err)
	}
	g, err := symmetry.Find("p1")
	if err != nil {
		t.Fatal(err)
	}
	perms := patterntest.Perms(g, 3, [2]symmetry.Fraction{symmetry.Frac(0, 1), symmetry.Frac(0, 1)})
	if err := k.Do(pattern.Command{Name: "colouring", Perms: &perms}); err != nil {
		t.Fatal(err)
	}
	notes := k.State().Paint.Notes
	if len(notes) == 0 || !strings.HasPrefix(notes[0],
		"The panel holds 1 copy, and none in Rust, Bone, Slate or 5 more:") {
		t.Errorf("%q", notes)
	}
	if line := k.State().Lines["paint"]; line != "9 colours by symmetry" {
		t.Errorf("%q", line)
	}
}

func TestNotesOnPaint(t *testing.T) {
	k := demo(t)
	if s := k.State(); len(s.Paint.Notes) != 0 || s.Lines["paint"] != "One colour, none named" {
		t.Errorf("%q, %q", s.Paint.Notes, s.Lines["paint"])
	}
	swatches(t, k, "#808080", "#8a8a8a")
	for _, c := range []pattern.Command{{Name: "ground", ID: "c1"},
		{Name: "colour", ID: k.Session.Draft().Motifs[0].ID, Text: "c2"}} {
		if err := k.Do(c); err != nil {
			t.Fatal(err)
		}
	}
	s := k.State()
	if len(s.Paint.Notes) != 1 || !strings.Contains(s.Paint.Notes[0], "lie 3.9 apart in value") {
		t.Errorf("%q", s.Paint.Notes)
	}
	if !strings.HasSuffix(s.Lines["paint"], "on swatch #808080") {
		t.Errorf("%q", s.Lines["paint"])
	}
	if err := k.SeeAs("5"); err != nil || k.State().Paint.Look != "5" {
		t.Error(err)
	}
	if k.SeeAs("x") == nil {
		t.Error("x is a way to look")
	}
}
