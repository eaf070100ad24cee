package desk

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

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
