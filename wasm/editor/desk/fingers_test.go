package desk

import (
	"reflect"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
)

// touching is a finger's event.
func touching(k *Desk, kind string, finger int, at orb.Point) {
	k.Pointer(kind, finger, at[0], at[1], 0, "touch")
}

// Two fingers change the view alone: what the first of them has dragged, set, pressed or taken up until the second came
// is as it was, in every mode, with nothing in the history and what was undone still to be done again.
func TestTwoFingersChangeNothing(t *testing.T) {
	type scene struct {
		name string
		make func(t *testing.T) (*Desk, orb.Point)
	}
	onCopy := func(t *testing.T, k *Desk) orb.Point { return centre(k, someCopy(t, k, 1)) }
	drawing := func(t *testing.T, way string) *Desk {
		k := demo(t)
		if err := k.Pen("open", "carp", 0); err != nil {
			t.Fatal(err)
		}
		if err := k.Pen("way", way, 0); err != nil {
			t.Fatal(err)
		}
		return k
	}
	for _, s := range []scene{
		{"a copy, nothing in hand before", func(t *testing.T) (*Desk, orb.Point) {
			k := demo(t)
			return k, onCopy(t, k)
		}},
		{"a copy, another in hand before", func(t *testing.T) (*Desk, orb.Point) {
			k := demo(t)
			at := onCopy(t, k)
			k.Select(k.Session.Draft().Motifs[0].ID)
			if held, _ := k.copies.Hit(at); held.Motif == 0 {
				k.Select(k.Session.Draft().Motifs[1].ID)
			}
			return k, at
		}},
		{"the turning handle", func(t *testing.T) (*Desk, orb.Point) {
			k := demo(t)
			k.Select(k.Session.Draft().Motifs[0].ID)
			return k, k.Handles().Turn
		}},
		{"the cell's corner", func(t *testing.T) (*Desk, orb.Point) {
			k := demo(t)
			k.copies.CellTouched()
			return k, k.Handles().A
		}},
		{"a new tie", func(t *testing.T) (*Desk, orb.Point) {
			k := demo(t)
			at := onCopy(t, k)
			if err := k.Act("tying"); err != nil {
				t.Fatal(err)
			}
			return k, at
		}},
		{"a freehand stroke", func(t *testing.T) (*Desk, orb.Point) {
			k := drawing(t, "free")
			return k, orb.Point{k.View.Width / 2, k.View.Height / 2}
		}},
		{"a point that is moved", func(t *testing.T) (*Desk, orb.Point) {
			k := drawing(t, "move")
			return k, k.View.Map().Apply(k.pen.Shape().Rings()[0].Nodes[2].At)
		}},
		{"a point that is set", func(t *testing.T) (*Desk, orb.Point) {
			k := drawing(t, "points")
			return k, orb.Point{k.View.Width / 2, k.View.Height / 2}
		}},
		{"the first point of a line, pressed again", func(t *testing.T) (*Desk, orb.Point) {
			k := drawing(t, "points")
			for _, p := range []orb.Point{{0, 0}, {40, 0}, {40, 40}} {
				press(k, p, 0)
			}
			return k, k.View.Map().Apply(orb.Point{0, 0})
		}},
	} {
		for _, by := range []orb.Point{{}, {2, 1}, {35, -20}} {
			t.Run(s.name, func(t *testing.T) {
				k, at := s.make(t)
				if err := k.Do(pattern.Command{Name: "title", Text: "to be done again"}); err != nil {
					t.Fatal(err)
				}
				if err := k.travel(k.Session.history.Undo, ""); err != nil {
					t.Fatal(err)
				}
				look := func() []any {
					v := k.State()
					return []any{string(k.Session.Draft().Encode()), v.Undo, v.Redo, v.Selected, k.ties.Chosen,
						v.Pen.Chosen, v.Pen.Set, v.Pen.Point}
				}
				before := look()

				touching(k, "down", 1, at)
				for i := range 5 {
					f := float64(i+1) / 5
					touching(k, "move", 1, orb.Point{at[0] + f*by[0], at[1] + f*by[1]})
				}
				dragged := look()
				zoom := k.View.Zoom
				touching(k, "down", 2, orb.Point{at[0] + 60, at[1] + 60})
				touching(k, "move", 2, orb.Point{at[0] + 60, at[1] + 60})
				if k.View.Zoom != zoom {
					t.Errorf("the second finger comes, and the view jumps from %g px/mm to %g", zoom, k.View.Zoom)
				}
				for i := range 5 {
					touching(k, "move", 2, orb.Point{at[0] + 60 + float64(8*i), at[1] + 60})
				}
				touching(k, "up", 2, orb.Point{at[0] + 100, at[1] + 60})
				touching(k, "move", 1, orb.Point{at[0] + by[0] + 20, at[1] + by[1]})
				touching(k, "up", 1, orb.Point{at[0] + by[0] + 20, at[1] + by[1]})
				if after := look(); !reflect.DeepEqual(before, after) {
					t.Errorf("dragged by %v, then pinched: %v became %v", by, before[1:], after[1:])
				}
				if !k.hand.idle() {
					t.Error("something is still in hand")
				}

				// The same without a second finger does something, or this test says nothing.
				pressed := s.name == "a freehand stroke" || s.name[:9] == "the first" // changes nothing until let go of
				if by[0] > 10 && reflect.DeepEqual(before, dragged) && !pressed {
					t.Errorf("one finger alone changed nothing")
				}
			})
		}
	}
}
