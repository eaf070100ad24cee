package desk

import (
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// What changes colours alone leaves the engine's answer and the mends standing; what changes the sheet does not, and
// going back to the draft that was answered for brings the answer back.
func TestColoursKeepTheAnswer(t *testing.T) {
	k := demo(t)
	motif := k.Session.Draft().Motifs[0]
	answer := `{"sound":false,"counts":{"copies":4,"openings":4,"islands":0},"problems":[{"kind":"overlap",
		"severity":"fault","at":[100,100],"measured":7,"text":"Two silhouettes run into each other over 7 mm²."}],
		"totals":[{"kind":"overlap","severity":"fault","count":1}]}`
	if err := k.Session.Answer(k.State().Check.Token, answer); err != nil {
		t.Fatal(err)
	}
	if err := k.Session.Mends(k.State().Check.Token, `[]`); err != nil {
		t.Fatal(err)
	}
	for _, c := range []pattern.Command{
		{Name: "swatch", Swatches: []draft.Swatch{{Name: "Rust", Colour: "#8a3b1c"}}},
		{Name: "colour", ID: motif.ID, Text: "c1"},
		{Name: "reswatch", ID: "c1", Swatches: []draft.Swatch{{Name: "Bone", Colour: "#e8e0cf"}}},
		{Name: "title", Text: "Another"},
	} {
		if err := k.Do(c); err != nil {
			t.Fatal(err)
		}
		if s := k.State(); s.Check.Wanted || s.MendsWanted || len(s.Faults) != 1 || s.Verdict.State == "holds" {
			t.Errorf("after %s: wanted %v, mends wanted %v, %d faults, the verdict is %+v", c.Name, s.Check.Wanted,
				s.MendsWanted, len(s.Faults), s.Verdict)
		}
	}

	move := pattern.Command{Name: "place", ID: motif.ID, Values: map[string]float64{"x": motif.At[0] + 1}}
	if err := k.Do(move); err != nil {
		t.Fatal(err)
	}
	if !k.State().Check.Wanted {
		t.Error("a moved motif is not checked")
	}
	if err := k.Undo(); err != nil {
		t.Fatal(err)
	}
	if k.State().Check.Wanted {
		t.Error("the draft that was answered for is checked again")
	}
	if err := k.Do(pattern.Command{Name: "sheet", Values: map[string]float64{"bridge": 2.5}}); err != nil {
		t.Fatal(err)
	}
	if !k.State().Check.Wanted {
		t.Error("another bridge is not checked")
	}
}
