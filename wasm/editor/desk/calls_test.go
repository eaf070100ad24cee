package desk

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/wasm/editor/desk/pen"
	"openwork/wasm/editor/desk/view"
)

func open(t *testing.T) *Desk {
	t.Helper()
	k := New(draft.Default())
	k.Resize(900, 700)
	if err := k.Open(patterntest.Demo(t)); err != nil {
		t.Fatal(err)
	}
	return k
}

func text(k *Desk) string { return string(k.Session.Draft().Encode()) }

// shows fails when the view state or the labels are no JSON.
func shows(t *testing.T, k *Desk) {
	t.Helper()
	if _, err := json.Marshal(k.State()); err != nil {
		t.Errorf("the view state: %v", err)
	}
	if _, err := json.Marshal(k.Labels()); err != nil {
		t.Errorf("the labels: %v", err)
	}
}

// A command that comes without numbers while a tie is taken up is refused or done, as with numbers.
func TestRetieWithoutNumbers(t *testing.T) {
	k := open(t)
	c := someCopy(t, k, 0)
	if err := k.Act("tying"); err != nil {
		t.Fatal(err)
	}
	p := centre(k, c)
	k.Pointer("down", 1, p[0], p[1], 0, "mouse")
	k.Pointer("up", 1, p[0], p[1], 0, "mouse")
	if k.ties.Chosen < 0 {
		t.Fatal("no tie is taken up")
	}
	was := text(k)
	if err := k.Do(pattern.Command{Name: "retie"}); err != nil {
		t.Error(err)
	}
	if text(k) != was {
		t.Error("the tie was changed to nothing said")
	}
}

// A command that comes while a copy is dragged is an entry of its own, after the drag as far as it went.
func TestCommandDuringDrag(t *testing.T) {
	k := open(t)
	p := centre(k, someCopy(t, k, 0))
	first := text(k)
	k.Pointer("down", 1, p[0], p[1], view.Alt, "mouse")
	k.Pointer("move", 1, p[0]+20, p[1], view.Alt, "mouse")
	dragged := text(k)
	if dragged == first {
		t.Fatal("the copy was not dragged")
	}
	if err := k.Do(pattern.Command{Name: "title", Text: "Meanwhile"}); err != nil {
		t.Fatal(err)
	}
	titled := text(k)
	k.Pointer("move", 1, p[0]+40, p[1], view.Alt, "mouse")
	k.Pointer("up", 1, p[0]+40, p[1], view.Alt, "mouse")
	if text(k) != titled {
		t.Error("the hand goes on changing the draft after the command, outside of any entry")
	}
	for _, want := range []string{dragged, first} {
		if err := k.Undo(); err != nil || text(k) != want {
			t.Errorf("undoing does not bring back what was before (%v)", err)
		}
	}
}

// A command that comes while a key is held ends what the key does as one entry.
func TestCommandDuringNudge(t *testing.T) {
	k := open(t)
	k.Select(k.Session.Draft().Motifs[0].ID)
	k.Key("ArrowLeft", 0, true, false)
	nudged := text(k)
	if err := k.Do(pattern.Command{Name: "title", Text: "Meanwhile"}); err != nil {
		t.Fatal(err)
	}
	titled := text(k)
	k.Key("ArrowLeft", 0, true, true)
	k.Key("ArrowLeft", 0, false, false)
	for _, want := range []string{titled, nudged} {
		if err := k.Undo(); err != nil || text(k) != want {
			t.Errorf("undoing does not bring back what was before (%v)", err)
		}
	}
}

// What ends a drawing also ends what the hand does in it.
func TestDrawingEndsUnderTheHand(t *testing.T) {
	for _, c := range []struct {
		name string
		end  func(k *Desk) error
	}{
		{"the panel again", func(k *Desk) error { return k.Act("draw-done") }},
		{"another motif", func(k *Desk) error { k.Select(k.Session.Draft().Motifs[0].ID); return nil }},
		{"the silhouette thrown away", func(k *Desk) error {
			return k.Do(pattern.Command{Name: "discard", ID: k.pen.ID()})
		}},
		{"another outline", func(k *Desk) error {
			triangle := patterntest.NewStream([]byte{0, 0, 20, 11, 0}).Outline()
			return k.Do(pattern.Command{Name: "redraw", ID: k.pen.ID(), Outline: triangle})
		}},
	} {
		for _, way := range []string{pen.Free, pen.Points, pen.Move} {
			t.Run(c.name+", "+way, func(t *testing.T) {
				k := open(t)
				if err := k.Pen("open", k.Session.Draft().Silhouettes[0].ID, 0); err != nil {
					t.Fatal(err)
				}
				if err := k.Pen("way", way, 0); err != nil {
					t.Fatal(err)
				}
				rings := k.pen.Shape().Rings()
				last := rings[len(rings)-1].Nodes
				p := k.View.Map().Apply(last[len(last)-1].At)
				k.Pointer("down", 1, p[0], p[1], 0, "mouse")
				k.Pointer("move", 1, p[0]+9, p[1]+9, 0, "mouse")
				if err := c.end(k); err != nil {
					t.Fatal(err)
				}
				was := text(k)
				k.Pointer("move", 1, p[0]+20, p[1]+9, 0, "mouse")
				k.Pointer("up", 1, p[0]+20, p[1]+9, 0, "mouse")
				if text(k) != was {
					t.Error("the hand goes on drawing")
				}
				shows(t, k)
			})
		}
	}
}

// Numbers that are none, or far off, leave a view that can be shown.
func TestOddNumbers(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300} {
		for _, c := range []struct {
			name string
			call func(k *Desk)
		}{
			{"wheel", func(k *Desk) { k.Wheel(v, 300, 0, 100, 0) }},
			{"wheel by", func(k *Desk) { k.Wheel(300, 300, 0, v, 0) }},
			{"wheel with Shift", func(k *Desk) { k.Wheel(300, 300, v, v, view.Shift) }},
			{"panning", func(k *Desk) {
				k.Pointer("down", 1, 300, 300, view.PanKey, "mouse")
				k.Pointer("move", 1, v, 300, view.PanKey, "mouse")
				k.Pointer("up", 1, v, 300, view.PanKey, "mouse")
			}},
			{"pinching", func(k *Desk) {
				k.Pointer("down", 1, 300, 300, 0, "touch")
				k.Pointer("down", 2, 400, v, 0, "touch")
				k.Pointer("move", 1, v, 300, 0, "touch")
			}},
			{"the mirror of a half", func(k *Desk) { drawn(t, k, k.Pen("axis", "", v)) }},
			{"a point of a line", func(k *Desk) {
				set(t, k, "way", pen.Points, 0)
				k.Pointer("down", 1, 300, 300, 0, "mouse")
				k.Pointer("up", 1, 300, 300, 0, "mouse")
				drawn(t, k, k.Pen("x", "", v))
			}},
		} {
			t.Run(fmt.Sprintf("%s, %g", c.name, v), func(t *testing.T) {
				k := open(t)
				if err := k.Pen("open", "", 0); err != nil {
					t.Fatal(err)
				}
				if c.name == "wheel" || c.name == "panning" {
					k.Select("")
				}
				c.call(k)
				shows(t, k)
				if m := math.Max(math.Abs(k.View.Centre[0]), math.Abs(k.View.Centre[1])); !(m <= view.MaxAway) {
					t.Errorf("the middle of the view lies %g mm away", m)
				}
			})
		}
	}
}

func drawn(t *testing.T, k *Desk, err error) {
	t.Helper()
	if err == nil {
		t.Error("a number that is none is taken")
	}
}

// Pieces of which one cannot be used leave the cell, and what is laid out, as they were, though the first had opened
// it.
func TestPiecesRefusedLeaveTheCell(t *testing.T) {
	k := New(draft.Default())
	k.Resize(900, 700)
	was := text(k)
	list := `[{"id":"a","name":"A","outline":[[[[0,0],[300,0],[0,300],[0,0]]]]}]`
	if err := k.Pieces(list, []int{0, 7}, "add", true); err == nil {
		t.Fatal("a piece that is not there is taken")
	}
	if text(k) != was || string(k.Session.layout.Draft.Encode()) != was {
		t.Error("the draft, or what is laid out, is another")
	}
}

// Words that name no way of drawing are refused.
func TestPenWords(t *testing.T) {
	k := open(t)
	if err := k.Pen("open", "", 0); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"way", "use"} {
		was := k.State().Pen
		if err := k.Pen(name, "sideways", 0); err == nil || k.State().Pen != was {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A hand that draws a copy out to any size, or the cell to next to nothing, never makes more copies than can be gone
// over.
func TestDraggedOutOfMeasure(t *testing.T) {
	k := New(draft.Default())
	k.Resize(900, 700)
	list := `[{"id":"a","name":"A","outline":[[[[0,0],[20,0],[20,20],[0,20],[0,0]]]]}]`
	if err := k.Pieces(list, []int{0}, "add", true); err != nil {
		t.Fatal(err)
	}
	for range 4 {
		h := k.Handles()
		k.Pointer("down", 1, h.Scale[0], h.Scale[1], 0, "mouse")
		k.Pointer("move", 1, h.Centre[0]+5*(h.Scale[0]-h.Centre[0]), h.Centre[1]+5*(h.Scale[1]-h.Centre[1]), 0, "mouse")
		k.Pointer("up", 1, 0, 0, 0, "mouse")
	}
	for _, f := range []float64{0.5, 0.2, 0.1, 0.01} { // the cell's far corner, towards its first
		h := k.Handles()
		k.Pointer("down", 1, h.Far[0], h.Far[1], 0, "mouse")
		k.Pointer("move", 1, h.Origin[0]+f*(h.Far[0]-h.Origin[0]), h.Origin[1]+f*(h.Far[1]-h.Origin[1]), 0, "mouse")
		k.Pointer("up", 1, 0, 0, 0, "mouse")
	}
	tried := 0
	p := k.Session.Draft().PanelBound().Center()
	for _, o := range k.Session.layout.Orbits {
		for _, i := range o.Images {
			window := orb.Bound{Min: p, Max: p}
			k.Session.layout.Cells(window, i.Bound(), func(int, int) bool { tried++; return tried < 2e6 })
		}
	}
	t.Logf("scale %g, cell %g × %g: %d copies under a place",
		k.Session.Draft().Motifs[0].Scale, k.Session.layout.Cell.A, k.Session.layout.Cell.B, tried)
	if tried >= 2e6 {
		t.Error("there are more copies under one place than can be gone over")
	}
	if k.Session.Draft().Motifs[0].Scale <= 1 {
		t.Error("the copy was not drawn out at all")
	}
}
