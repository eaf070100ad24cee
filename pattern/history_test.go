package pattern

import (
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
)

// What settles after a drag belongs to the drag's entry; where something else came between, it is one of its own.
func TestAmend(t *testing.T) {
	at := func(x float64) Command { return Command{Name: "place", ID: "m", Values: map[string]float64{"x": x}} }
	d := draft.Default()
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "s",
		Outline: orb.MultiPolygon{{{{-5, -5}, {5, -5}, {5, 5}, {-5, -5}}}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	moved := func(from draft.Draft, x float64) draft.Draft {
		next, err := Apply(from, at(x))
		if err != nil {
			t.Fatal(err)
		}
		return next
	}

	h := NewHistory(d)
	h.Begin()
	if err := h.Try(at(5)); err != nil {
		t.Fatal(err)
	}
	h.Settle()
	h.Amend(moved(h.Draft(), 7), "place of a motif")
	if got := h.Draft().Motifs[0].At[0]; got != 7 {
		t.Errorf("it lies at %g, not at 7", got)
	}
	if !h.Undo() || h.Draft().Motifs[0].At[0] != 0 || h.UndoLabel() != "" {
		t.Error("one step back should undo both")
	}
	if !h.Redo() || h.Draft().Motifs[0].At[0] != 7 {
		t.Error("one step forward should bring both back")
	}

	if err := h.Do(Command{Name: "title", Text: "Carp"}); err != nil {
		t.Fatal(err)
	}
	h.Amend(moved(h.Draft(), 9), "place of a motif")
	if !h.Undo() || h.Draft().Motifs[0].At[0] != 7 || h.Draft().Title != "Carp" {
		t.Error("after a title it should be an entry of its own")
	}
}
