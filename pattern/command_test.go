package pattern_test

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/symmetry"
)

func TestChangingTheGroupKeepsPlacesInTheCell(t *testing.T) {
	d := fieldOf("p2", arrow, 0.3, 0.2, 15)
	for _, g := range symmetry.Groups() {
		next, err := pattern.Apply(d, pattern.Command{Name: "group", Text: g.Symbol})
		if err != nil {
			t.Fatal(err)
		}
		inv, _ := next.Repeat.Cell().Basis().Inverse()
		p := inv.Apply(orb.Point(next.Motifs[0].At))
		if math.Abs(p[0]-0.3) > 1e-4 || math.Abs(p[1]-0.2) > 1e-4 {
			t.Errorf("%s: the motif stands at %v of the cell, want 0.3, 0.2", g.Symbol, p)
		}
		if a, b := next.Repeat.Cell().Area(), d.Repeat.Cell().Area(); math.Abs(a-b) > 1e-4*b {
			t.Errorf("%s: the cell's area is %g, was %g", g.Symbol, a, b)
		}
	}
}

func TestCommandsThatCannotBe(t *testing.T) {
	d := fieldOf("p4", arrow, 0.3, 0.2, 15)
	before := string(d.Encode())
	for _, c := range []pattern.Command{
		{Name: "paint"},
		{Name: "place", ID: "m9", Values: map[string]float64{"x": 1}},
		{Name: "place", ID: "m1", Values: map[string]float64{"x": math.NaN()}},
		{Name: "place", ID: "m1", Values: map[string]float64{"scale": 0}},
		{Name: "place", ID: "m1", Values: map[string]float64{"scale": 1e9}},
		{Name: "cell", Values: map[string]float64{"a": 50, "b": 60}},
		{Name: "cell", Values: map[string]float64{"gamma": 80}},
		{Name: "cell", Values: map[string]float64{"a": 0}},
		{Name: "group", Text: "p5"},
		{Name: "edge", Text: "fade"},
		{Name: "panel", Values: map[string]float64{"width": -3}},
		{Name: "field", Values: map[string]float64{"margin": 200}},
		{Name: "discard", ID: "s7"},
		{Name: "swap", ID: "m1", Text: "s7"},
		{Name: "draw", Text: "bow", Outline: orb.MultiPolygon{{orb.Ring{{0, 0}, {10, 10}, {10, 0}, {0, 10}, {0, 0}}}}},
	} {
		next, err := pattern.Apply(d, c)
		if err == nil {
			t.Errorf("%+v was carried out", c)
		}
		if string(next.Encode()) != before || string(d.Encode()) != before {
			t.Errorf("%+v changed the draft although it was refused", c)
		}
	}
}

func TestHistory(t *testing.T) {
	d := fieldOf("p4", arrow, 0.3, 0.2, 15)
	h := pattern.NewHistory(d)
	place := func(x float64) pattern.Command {
		return pattern.Command{Name: "place", ID: "m1", Values: map[string]float64{"x": x}}
	}
	h.Begin()
	for x := range 20 {
		if err := h.Try(place(float64(x))); err != nil {
			t.Fatal(err)
		}
	}
	h.Settle()
	if err := h.Do(pattern.Command{Name: "title", Text: "Another"}); err != nil {
		t.Fatal(err)
	}
	if h.UndoLabel() != "title" {
		t.Errorf("undo is labelled %q", h.UndoLabel())
	}
	h.Undo()
	if !h.Undo() || h.Draft().Motifs[0].At != d.Motifs[0].At {
		t.Errorf("one gesture is not one entry: the motif stands at %v", h.Draft().Motifs[0].At)
	}
	if h.Undo() {
		t.Error("there was more to undo than was done")
	}
	h.Redo()
	if h.Draft().Motifs[0].At[0] != 19 {
		t.Errorf("redo brings the motif to %v", h.Draft().Motifs[0].At)
	}
	h.Begin()
	if err := h.Try(place(77)); err != nil {
		t.Fatal(err)
	}
	h.Abandon()
	if h.Draft().Motifs[0].At[0] != 19 || h.RedoLabel() != "title" {
		t.Errorf("an abandoned gesture left %v and redo %q", h.Draft().Motifs[0].At, h.RedoLabel())
	}
}
