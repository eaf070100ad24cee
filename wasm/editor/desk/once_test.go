package desk

import (
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// tally counts how often a desk applies a command and lays a draft out.
type tally struct{ applied, laidOut int }

func counted(k *Desk) *tally {
	n := &tally{}
	apply, layOut := k.Session.apply, k.Session.newLayout
	k.Session.apply = func(d draft.Draft, c pattern.Command) (draft.Draft, error) {
		n.applied++
		return apply(d, c)
	}
	k.Session.newLayout = func(d draft.Draft, s *pattern.Shapes) (*pattern.Layout, error) {
		n.laidOut++
		return layOut(d, s)
	}
	return n
}

// A command is applied once and its draft laid out once, whichever way it comes; what is refused is not laid out at
// all.
func TestACommandIsDoneOnce(t *testing.T) {
	triangle := orb.MultiPolygon{{{{0, 0}, {30, 0}, {0, 30}, {0, 0}}}}
	for _, c := range []struct {
		name string
		do   func(k *Desk) error
		want tally
	}{
		{"a field's value", func(k *Desk) error {
			return k.Do(pattern.Command{Name: "panel", Values: map[string]float64{"width": 500}})
		}, tally{1, 1}},
		{"another group", func(k *Desk) error { return k.Do(pattern.Command{Name: "group", Text: "p2"}) }, tally{1, 1}},
		{"another motif", func(k *Desk) error { return k.Act("another") }, tally{1, 1}},
		{"an outline redrawn", func(k *Desk) error {
			return k.Do(pattern.Command{Name: "redraw", ID: k.Session.Draft().Silhouettes[0].ID, Outline: triangle})
		}, tally{1, 1}},
		{"a refusal", func(k *Desk) error {
			if k.Do(pattern.Command{Name: "group", Text: "p5"}) == nil {
				t.Error("a group that is none is taken")
			}
			return nil
		}, tally{1, 0}},
		{"undone", (*Desk).Undo, tally{0, 1}},
		{"opened", func(k *Desk) error { return k.OpenText(string(k.Session.Draft().Encode())) }, tally{0, 1}},
		{"a key", func(k *Desk) error { k.Key("ArrowLeft", 0, true, false); return nil }, tally{1, 1}},
		{"a key let go", func(k *Desk) error {
			k.Key("[", 0, true, false)
			k.Key("[", 0, false, false)
			return nil
		}, tally{1, 1}},
		{"ten steps of a drag", func(k *Desk) error {
			p := centre(k, someCopy(t, k, 0))
			drag(k, p, orb.Point{60, 40})
			return nil
		}, tally{10, 10}},
		{"a tie set", func(k *Desk) error {
			p := centre(k, someCopy(t, k, 0))
			if err := k.Act("tying"); err != nil {
				return err
			}
			k.Pointer("down", 1, p[0], p[1], 0, "mouse")
			k.Pointer("up", 1, p[0], p[1], 0, "mouse")
			return nil
		}, tally{1, 1}},
		{"a point of an outline moved", func(k *Desk) error {
			if err := k.Pen("open", k.Session.Draft().Silhouettes[0].ID, 0); err != nil {
				return err
			}
			if err := k.Pen("point", "", 3); err != nil {
				return err
			}
			return k.Pen("x", "", *k.State().Pen.X+0.5)
		}, tally{1, 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := demo(t)
			if err := k.Do(pattern.Command{Name: "title", Text: "Before"}); err != nil {
				t.Fatal(err)
			}
			k.Select(k.Session.Draft().Motifs[0].ID)
			n := counted(k)
			if err := c.do(k); err != nil {
				t.Fatal(err)
			}
			if *n != c.want {
				t.Errorf("%d commands applied and %d layouts made, want %d and %d",
					n.applied, n.laidOut, c.want.applied, c.want.laidOut)
			}
		})
	}
}
