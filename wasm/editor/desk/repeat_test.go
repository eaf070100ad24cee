package desk

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
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

// The cell's corners under the hand: what the system binds stays bound, and the corner follows the hand.
func TestCornersOfTheCell(t *testing.T) {
	for _, c := range []struct {
		group, hold, lay string
		corner           string
		by               orb.Point // px
		check            func(r draft.Repeat) string
	}{
		{"p4", "", "", "far", orb.Point{30, -30}, func(r draft.Repeat) string {
			return unless(r.A == r.B && r.A > 200, "square")
		}},
		{"p6", "", "", "far", orb.Point{20, -40}, func(r draft.Repeat) string {
			return unless(r.A == r.B && r.Gamma == 120 && r.A > 200, "120°")
		}},
		{"p6", "", "", "b", orb.Point{-20, -40}, func(r draft.Repeat) string {
			return unless(r.A == r.B && r.Gamma == 120 && r.A > 200, "120°")
		}},
		{"p2mm", "", "", "far", orb.Point{30, -10}, func(r draft.Repeat) string {
			return unless(r.A > 225 && r.B > 205 && r.B < 220 && r.Gamma == 90, "free sides")
		}},
		{"p2mm", pattern.KeepArea, "", "a", orb.Point{30, 0}, func(r draft.Repeat) string {
			return unless(math.Abs(r.A*r.B-40000) < 0.1 && r.A > 200, "area")
		}},
		{"p2mm", pattern.KeepProportion, "", "far", orb.Point{30, 0}, func(r draft.Repeat) string {
			return unless(math.Abs(r.A-r.B) < 1e-3 && r.A > 200, "proportion")
		}},
		{"p4", pattern.KeepArea, "", "a", orb.Point{30, 0}, func(r draft.Repeat) string {
			return unless(r.A == 200, "area held")
		}},
		{"p1", "", "half-drop", "a", orb.Point{40, 0}, func(r draft.Repeat) string {
			l, _ := pattern.LayOf(r, "half-drop")
			return unless(l.Name == "half-drop" && l.Width > 210, "half-drop")
		}},
		{"p2", "", "brick", "b", orb.Point{0, -40}, func(r draft.Repeat) string {
			l, _ := pattern.LayOf(r, "brick")
			return unless(l.Name == "brick" && l.Height > 210, "brick")
		}},
		{"p1", "", "straight", "far", orb.Point{40, -20}, func(r draft.Repeat) string {
			return unless(r.Gamma == 90 && r.A > 210 && r.B > 210, "right angle")
		}},
	} {
		t.Run(strings.Join([]string{c.group, c.hold, c.lay, "corner " + c.corner}, " "), func(t *testing.T) {
			k := benchWith(t, c.group, leaning, orb.Point{60, 60}, 0)
			k.Select("")
			k.Session.hold = c.hold
			if c.lay != "" {
				if err := k.Do(pattern.Command{Name: "lay", Text: c.lay}); err != nil {
					t.Fatal(err)
				}
			}
			h := k.Handles()
			drag(k, map[string]orb.Point{"a": h.A, "b": h.B, "far": h.Far}[c.corner], c.by)
			if wrong := c.check(k.Session.Draft().Repeat); wrong != "" {
				t.Errorf("not %s: %+v", wrong, k.Session.Draft().Repeat)
			}
			if k.Session.history.UndoLabel() == "" && c.group != "p4" {
				t.Error("no entry in the history")
			}
		})
	}
	k := benchWith(t, "p4", leaning, orb.Point{60, 60}, 0)
	k.Select("")
	h := k.Handles()
	drag(k, h.Origin, orb.Point{25, -15})
	after := k.Handles()
	if math.Hypot(after.Origin[0]-h.Origin[0]-25, after.Origin[1]-h.Origin[1]+15) > 0.2*k.View.Zoom {
		t.Errorf("the repeat starts at %v, and was dragged from %v by (25, −15)", after.Origin, h.Origin)
	}
}

func unless(ok bool, wrong string) string {
	if ok {
		return ""
	}
	return wrong
}

// Every sign of the cell lies where the operations say: reflected in a drawn mirror, or turned about a drawn point, a
// copy of the field falls on a copy. Looked at close to and from far.
func TestSignsLieOnTheElements(t *testing.T) {
	for _, g := range symmetry.Groups() {
		for _, zoom := range []float64{1.3, 0.2} {
			k := benchWith(t, g.Symbol, leaning, orb.Point{60, 60}, 0)
			if len(k.signs.Shown()) != 0 || k.signs.Unit() != nil {
				t.Fatal("signs before they are switched on")
			}
			if err := k.Act("signs"); err != nil {
				t.Fatal(err)
			}
			k.View.Zoom = zoom
			list := g.Elements()
			seen := map[int]bool{}
			back, _ := k.View.Map().After(k.Session.Draft().FieldMap()).Inverse()
			for _, s := range k.signs.Shown() {
				seen[s.Element] = true
				if b := signBound(k, zoom < 1).Pad(0.01); s.Kind == symmetry.Turn && !b.Contains(s.A) {
					t.Errorf("%s at zoom %g: a rotation point at %v, outside %v", g.Symbol, zoom, s.A, b)
				}
				p := back.Apply(s.A)
				if s.Kind == symmetry.Glide {
					continue
				}
				there, ok := k.Session.layout.Special(p, 0.01)
				if !ok || math.Hypot(there[0]-p[0], there[1]-p[1]) > 1e-6 {
					t.Errorf("%s at zoom %g: a %s at %v where there is none", g.Symbol, zoom, s.Kind, p)
				}
				q := back.Apply(s.B)
				there, ok = k.Session.layout.Special(q, 0.01)
				if !ok || math.Hypot(there[0]-q[0], there[1]-q[1]) > 1e-6 {
					t.Errorf("%s at zoom %g: a %s ends at %v, off the element", g.Symbol, zoom, s.Kind, q)
				}
			}
			if len(seen) != len(list) {
				t.Errorf("%s at zoom %g: %d of %d elements are drawn", g.Symbol, zoom, len(seen), len(list))
			}
			for range 2 * len(list) {
				if err := k.Act("next-sign"); err != nil {
					t.Fatal(err)
				}
				if text := k.State().Signs.Text; text != list[k.signs.Current].Sentence() {
					t.Errorf("%s: %q", g.Symbol, text)
				}
			}
		}
	}
}

// The pointer on a sign reads it.
func TestPointerReadsSigns(t *testing.T) {
	k := benchWith(t, "p4mm", leaning, orb.Point{60, 60}, 0)
	if err := k.Act("signs"); err != nil {
		t.Fatal(err)
	}
	for _, s := range k.signs.Shown() {
		k.Pointer("move", 1, s.A[0]+2, s.A[1]+1, 0, "mouse")
		if k.signs.Current < 0 {
			t.Errorf("nothing is read at %v", s.A)
		} else if e := k.signs.Elements()[k.signs.Current]; s.Kind == symmetry.Turn && e.Order != s.Order {
			t.Errorf("at a point of order %d: %q", s.Order, e.Sentence())
		}
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

// signBound is where signs are drawn, in CSS px: the field as far as it is seen, or the one cell.
func signBound(k *Desk, small bool) orb.Bound {
	if !small {
		return k.signs.Bound()
	}
	h := k.Handles()
	return orb.Bound{Min: h.Origin, Max: h.Origin}.Extend(h.A).Extend(h.B).Extend(h.Far)
}

// A cell's corner never goes before a copy near it, unless the cell was touched last; the cell has handles only while
// the repeat is the step in hand, or with its key.
func TestRightOfWay(t *testing.T) {
	fresh := func() (*Desk, orb.Point) {
		k := benchWith(t, "p1", leaning, orb.Point{0, 0}, 0) // a copy stands on each corner of the cell
		k.Select("")
		return k, k.Handles().A
	}

	k, corner := fresh()
	was := k.Session.Draft()
	drag(k, corner, orb.Point{25, 0})
	if d := k.Session.Draft(); d.Repeat != was.Repeat || d.Motifs[0].At == was.Motifs[0].At {
		t.Errorf("the corner was taken off a copy: %+v", d.Repeat)
	}

	k, corner = fresh()
	beside := false
	for x := 0.0; x < 60 && !beside; x++ { // off the copy, and nearer to it than to the corner
		at := orb.Point{corner[0] + x, corner[1] + x}
		if _, on := k.copies.Hit(at); on {
			continue
		}
		beside = true
		drag(k, orb.Point{at[0] - 1, at[1] - 1}, orb.Point{25, 0})
		if d := k.Session.Draft(); d.Repeat != was.Repeat {
			t.Errorf("%g px beside the corner, near the copy, the corner was taken", x)
		}
	}

	k, corner = fresh()
	if err := k.Act("cell-handles"); err != nil { // asked for by its key: touched last
		t.Fatal(err)
	}
	drag(k, corner, orb.Point{25, 0})
	if d := k.Session.Draft(); d.Repeat.A <= was.Repeat.A || d.Motifs[0].At != was.Motifs[0].At {
		t.Errorf("the cell's handles were asked for, and the corner does not move: %+v", d.Repeat)
	}
	drag(k, k.Handles().A, orb.Point{-25, 0})
	if d := k.Session.Draft(); math.Abs(d.Repeat.A-was.Repeat.A) > 1 {
		t.Errorf("the corner was touched last and is not taken again: %+v", d.Repeat)
	}

	k, corner = fresh()
	k.Select(was.Motifs[0].ID)
	drag(k, corner, orb.Point{25, 0})
	if d := k.Session.Draft(); d.Repeat != was.Repeat || d.Motifs[0].At == was.Motifs[0].At {
		t.Errorf("a copy is in hand, and the corner on it is taken: %+v", d.Repeat)
	}

	k, corner = fresh()
	k.StepInHand("panel")
	drag(k, corner, orb.Point{25, 0})
	if d := k.Session.Draft(); d.Repeat != was.Repeat || k.Handles().Cell {
		t.Error("the cell has handles in another step")
	}
	if err := k.Act("cell-handles"); err != nil || !k.Handles().Cell {
		t.Error("the key does not bring the cell's handles")
	}
}

// A half-drop is shown by its block, a column wide and a height high, upright, and its corners shape it.
func TestHalfDropIsABlock(t *testing.T) {
	k := benchWith(t, "p1", leaning, orb.Point{60, 60}, 0)
	k.Select("")
	if err := k.Do(pattern.Command{Name: "lay", Text: "half-drop"}); err != nil {
		t.Fatal(err)
	}
	l, _ := pattern.LayOf(k.Session.Draft().Repeat, "half-drop")
	h := k.Handles()
	if w, up := (h.A[0]-h.Origin[0])/k.View.Zoom, (h.Origin[1]-h.B[1])/k.View.Zoom; math.Abs(w-l.Width) > 1e-6 ||
		math.Abs(up-l.Height) > 1e-6 || h.B[0] != h.Origin[0] || h.A[1] != h.Origin[1] {
		t.Errorf("the block is %g × %g, the lay %g × %g", w, up, l.Width, l.Height)
	}
	drag(k, h.Far, orb.Point{30, -20})
	now, _ := pattern.LayOf(k.Session.Draft().Repeat, "half-drop")
	if now.Name != "half-drop" || math.Abs(now.Width-l.Width-30/k.View.Zoom) > 0.2 ||
		math.Abs(now.Height-l.Height-20/k.View.Zoom) > 0.2 {
		t.Errorf("its far corner dragged by 30 and 20 px: %+v from %+v", now, l)
	}
}

// The block of a half-drop and of a brick lay is shown on the panel wherever the field begins, and its handles shape
// and move it as the hand goes.
func TestBlockStandsOnThePanel(t *testing.T) {
	const seed = 12
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	moved, shaped := 0, 0
	for n := range 40 {
		k := benchWith(t, "p1", leaning, orb.Point{60, 60}, 0)
		k.Select("")
		panel := k.Session.Draft().Panel
		at := map[string]float64{"x": (2*r.Float64() - 0.5) * panel.Width, "y": (2*r.Float64() - 0.5) * panel.Height}
		lay := []string{"half-drop", "brick"}[n%2]
		third := map[string]float64{"width": panel.Width / 3, "height": panel.Height / 3}
		for _, c := range []pattern.Command{{Name: "field", Values: at}, {Name: "lay", Text: lay, Values: third}} {
			if err := k.Do(c); err != nil {
				t.Fatal(err)
			}
		}

		h := k.Handles()
		on := k.Session.Draft().PanelBound().Pad(0.01)
		for _, p := range []orb.Point{h.Origin, h.A, h.B, h.Far} {
			if !on.Contains(k.View.Panel(p[0], p[1])) {
				t.Errorf("%d: a corner of the block lies off the panel, at %v", n, k.View.Panel(p[0], p[1]))
			}
		}

		// Each corner goes with the hand, and what lies across it on the lattice stays.
		k.copies.CellTouched()
		before, _ := pattern.LayOf(k.Session.Draft().Repeat, lay)
		by := orb.Point{4, -3}
		drag(k, h.Far, by)
		after, _ := pattern.LayOf(k.Session.Draft().Repeat, lay)
		if after != before {
			shaped++
		}
		now := k.Handles()
		same := geometry.PointDistance(now.Origin, h.Origin) < 40 // it is not another block that is shown now
		if far := geometry.PointDistance(now.Far, geometry.Add(h.Far, by)); far > 1 && same {
			t.Errorf("%d: the far corner dragged by %v stands %.2f px from the hand: %+v, %+v", n, by, far, before,
				after)
		}

		k.copies.CellTouched()
		from := k.Session.Draft().Field.Origin
		drag(k, now.Origin, orb.Point{7, 5})
		to := k.Session.Draft().Field.Origin
		if d := math.Hypot(to[0]-from[0]-7/k.View.Zoom, to[1]-from[1]+5/k.View.Zoom); d > 0.2 {
			t.Errorf("%d: its origin dragged by 7 and 5 px moves the field's by %v", n, geometry.Sub(to, from))
		} else {
			moved++
		}
	}
	t.Logf("%d moved, %d shaped", moved, shaped)
}
