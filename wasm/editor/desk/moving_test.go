package desk

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/wasm/editor/desk/copies"
	"openwork/wasm/editor/desk/view"
)

// Any copy follows the hand, whichever operation made it: the drag is carried back through it.
func TestEveryCopyFollowsTheHand(t *testing.T) {
	for _, group := range []string{"pg", "p2gg", "p4gm", "p31m", "p6mm", "cm"} {
		k := demo(t)
		if err := k.Do(pattern.Command{Name: "group", Text: group}); err != nil {
			t.Fatal(err)
		}
		if err := k.Do(pattern.Command{Name: "cell", Values: map[string]float64{"a": 400}}); err != nil {
			t.Fatal(err)
		}
		for op := range k.Session.layout.Group.Ops {
			var c pattern.Copy
			found := false
			for _, v := range k.Session.Visible() {
				p := centre(k, v)
				want := copies.Held{Motif: v.Motif, Op: v.Op, Cell: v.Cell}
				if h, ok := k.copies.Hit(p); ok && v.Op == op && h == want {
					c, found = v, true
					break
				}
			}
			if !found {
				continue
			}
			from := centre(k, c)
			before := k.Session.Draft()
			dragWith(k, from, orb.Point{9, -14}, view.Alt) // free of mirrors and rotation points
			o := k.Session.layout.Orbits[c.Motif]
			to := k.View.Map().After(k.Session.sel.Map(k.Session.layout)).After(o.Place).Apply(o.Shape.Centroid())
			if math.Hypot(to[0]-from[0]-9, to[1]-from[1]+14) > 1e-3 {
				t.Errorf("%s, operation %d: the copy went from %v to %v, the hand by (9, −14)", group, op, from, to)
			}
			if err := k.Undo(); err != nil || k.Session.Draft().Motifs[c.Motif].At != before.Motifs[c.Motif].At {
				t.Errorf("%s, operation %d: one drag is not one entry (%v)", group, op, err)
			}
		}
	}
}

func TestTurnAndScaleByHandles(t *testing.T) {
	k := demo(t)
	for op := range k.Session.layout.Group.Ops {
		c := someCopy(t, k, op)
		p := centre(k, c)
		k.Pointer("down", 1, p[0], p[1], 0, "mouse")
		k.Pointer("up", 1, p[0], p[1], 0, "mouse")
		h := k.Handles()
		if !h.Shown {
			t.Fatal("a press on a copy shows no handles")
		}
		// A quarter-turn counter-clockwise as seen: the knob goes a quarter round its centre.
		to := orb.Point{h.Centre[0] + (h.Turn[1] - h.Centre[1]), h.Centre[1] - (h.Turn[0] - h.Centre[0])}
		was := k.Session.Draft().Motifs[c.Motif]
		drag(k, h.Turn, orb.Point{to[0] - h.Turn[0], to[1] - h.Turn[1]})
		want := 90.0
		if k.Session.sel.Map(k.Session.layout).Det() < 0 {
			want = -90
		}
		if got := k.Session.Draft().Motifs[c.Motif].Turn - was.Turn; math.Abs(got-want) > 0.2 {
			t.Errorf("operation %d: turned by %g, want %g", op, got, want)
		}
		if now := k.Handles().Turn; math.Hypot(now[0]-to[0], now[1]-to[1]) > 2 {
			t.Errorf("operation %d: the knob is at %v and the hand at %v", op, now, to)
		}
		h = k.Handles()
		away := orb.Point{(h.Scale[0] - h.Centre[0]) * 0.5, (h.Scale[1] - h.Centre[1]) * 0.5}
		drag(k, h.Scale, away)
		if got := k.Session.Draft().Motifs[c.Motif].Scale / was.Scale; math.Abs(got-1.5) > 0.01 {
			t.Errorf("operation %d: scaled by %g, want 1.5", op, got)
		}
		for range 2 {
			if err := k.Undo(); err != nil {
				t.Fatal(err)
			}
		}
		if k.Session.Draft().Motifs[c.Motif] != was {
			t.Errorf("operation %d: two gestures are not two entries", op)
		}
	}
}

func TestVerdictFollowsTheHand(t *testing.T) {
	k := demo(t)
	if v := k.Session.verdict(); v.State != "holds" || k.Session.report != nil || !k.State().Check.Wanted {
		t.Fatalf("the demonstration is seen to hold before the engine has answered, and the engine is asked; "+
			"the verdict is %+v", v)
	}
	token := k.State().Check.Token
	if err := k.Session.Answer(token-1, `{"sound":false}`); err != nil || k.Session.report != nil {
		t.Error("an answer to an older question was taken")
	}
	answer := `{"sound":true,"counts":{"copies":4,"openings":4,"islands":0},"problems":[]}`
	if err := k.Session.Answer(token, answer); err != nil {
		t.Fatal(err)
	}
	if v := k.Session.verdict(); v.State != "holds" {
		t.Errorf("after a sound answer the verdict is %+v", v)
	}
	c := someCopy(t, k, 1)
	p := centre(k, c)
	k.Pointer("down", 1, p[0], p[1], 0, "mouse")
	k.Pointer("move", 1, p[0]+30, p[1], 0, "mouse")
	if k.Session.report != nil {
		t.Errorf("while a copy is dragged the engine's report of the field as it was is kept")
	}
	v := k.Session.verdict()
	if v.State != atRest(t, k).State || !strings.HasPrefix(v.Line, "At least so far: ") { // some run together
		t.Errorf("while a copy is dragged the verdict is %+v, the check of the panel makes it %+v", v, atRest(t, k))
	}
	if s := k.State(); s.Check.Wanted || !s.InHand {
		t.Errorf("while a copy is dragged the panel is asked for: %+v", s.Check)
	}
	k.Pointer("cancel", 1, 0, 0, 0, "mouse")
	if len(k.Session.Live().Overlaps) != 0 {
		t.Error("a cancelled drag leaves its overlaps")
	}
	// Drag until two silhouettes run into each other.
	for i := 0; i < 40 && len(k.Session.Live().Overlaps) == 0; i++ {
		p = centre(k, someCopy(t, k, 1))
		drag(k, p, orb.Point{10, 0})
	}
	if v := k.Session.verdict(); v.State != "fails" || !strings.Contains(v.Line, "overlap") {
		t.Errorf("with silhouettes run together the verdict is %+v", v)
	}
	if s := k.State(); len(s.Faults) == 0 || !s.Check.Wanted {
		t.Errorf("faults %v, check %+v", s.Faults, s.Check)
	}
}

func TestKeysMoveAsSeenAndAreOneEntry(t *testing.T) {
	k := demo(t)
	c := someCopy(t, k, 1)
	p := centre(k, c)
	k.Pointer("down", 1, p[0], p[1], 0, "mouse")
	k.Pointer("up", 1, p[0], p[1], 0, "mouse")
	was := k.Session.Draft().Motifs[c.Motif]
	for i := range 5 {
		k.Key("ArrowRight", 0, true, i > 0)
	}
	k.Key("ArrowRight", 0, false, false)
	now := centreOfHeld(k)
	if d := (now[0] - p[0]) / k.View.Zoom; math.Abs(d-5) > 1e-3 {
		t.Errorf("five steps to the right moved the copy by %g mm", d)
	}
	if err := k.Undo(); err != nil || k.Session.Draft().Motifs[c.Motif] != was {
		t.Errorf("a key held down is not one entry: %v", err)
	}
}

func centreOfHeld(k *Desk) orb.Point {
	s, m, _ := k.InHandShape()
	return m.Apply(s.Centroid())
}
