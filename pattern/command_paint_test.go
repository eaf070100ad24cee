package pattern_test

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"openwork/pattern"
	"openwork/pattern/colouring"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// twoMotifs is a draft in p2gg of two motifs and three swatches, c1 to c3.
func twoMotifs(t *testing.T) draft.Draft {
	t.Helper()
	d := patterntest.Draft(rand.New(rand.NewPCG(161, 0)), "p2gg")
	d.Motifs = []draft.Motif{d.Motifs[0], d.Motifs[0]}
	d.Motifs[1].ID, d.Motifs[1].At[0] = "m1", d.Motifs[0].At[0]+20
	return apply(t, d, pattern.Command{Name: "swatch", Swatches: []draft.Swatch{{Name: "Verdigris", Colour: "#17564A"},
		{Name: "Rust", Colour: "#8a3b1c"}, {Colour: "#e8e0cf", Note: "raw"}}})
}

func apply(t *testing.T, d draft.Draft, commands ...pattern.Command) draft.Draft {
	t.Helper()
	for _, c := range commands {
		next, err := pattern.Apply(d, c)
		if err != nil {
			t.Fatalf("%s: %v", c.Name, err)
		}
		d = next
	}
	return d
}

func perms(t *testing.T, group string, n int, x, y symmetry.Fraction) *colouring.Perms {
	t.Helper()
	g, err := symmetry.Find(group)
	if err != nil {
		t.Fatal(err)
	}
	p := patterntest.Perms(g, n, [2]symmetry.Fraction{x, y})
	return &p
}

func TestSwatchesComeAndGo(t *testing.T) {
	d := twoMotifs(t)
	want := []draft.Swatch{{ID: "c1", Name: "Verdigris", Colour: "#17564a"},
		{ID: "c2", Name: "Rust", Colour: "#8a3b1c"}, {ID: "c3", Name: "#e8e0cf", Colour: "#e8e0cf", Note: "raw"}}
	if !reflect.DeepEqual(d.Swatches, want) {
		t.Fatalf("%+v", d.Swatches)
	}
	d = apply(t, d, pattern.Command{Name: "reswatch", ID: "c3", Swatches: []draft.Swatch{{Name: "Bone",
		Colour: "#EEE0CF"}}}, pattern.Command{Name: "ground", ID: "c3"},
		pattern.Command{Name: "colour", ID: "m0", Text: "c2"})
	if s, _ := d.Swatch("c3"); s.Name != "Bone" || s.Colour != "#eee0cf" || d.Paint.Ground != "c3" {
		t.Errorf("%+v, ground %s", s, d.Paint.Ground)
	}
	for id, why := range map[string]string{"c3": "Bone is the ground", "c2": "Rust is a colour of the panel",
		"c9": "no swatch is called"} {
		if _, err := pattern.Apply(d, pattern.Command{Name: "unswatch", ID: id}); err == nil ||
			!strings.HasPrefix(err.Error(), why) {
			t.Errorf("%s: %v", id, err)
		}
	}
	d = apply(t, d, pattern.Command{Name: "unswatch", ID: "c1"})
	if len(d.Swatches) != 2 {
		t.Errorf("%+v", d.Swatches)
	}
	for _, bad := range []draft.Swatch{{Name: "x", Colour: "teal"},
		{Name: strings.Repeat("x", 201), Colour: "#000000"}} {
		if _, err := pattern.Apply(d, pattern.Command{Name: "swatch", Swatches: []draft.Swatch{bad}}); err == nil {
			t.Errorf("%+v is taken", bad)
		}
	}
}

func TestColoursOfMotifs(t *testing.T) {
	d := twoMotifs(t)
	d = apply(t, d, pattern.Command{Name: "colour", ID: "m0", Text: "c2"},
		pattern.Command{Name: "colour", ID: "m1", Text: "c1"})
	if !reflect.DeepEqual(d.Paint.Colours, []string{"c2", "c1"}) || !reflect.DeepEqual(d.Paint.Of,
		map[string]int{"m1": 1}) {
		t.Fatalf("%+v", d.Paint)
	}
	// The first colour has nothing left and goes; the second becomes the first.
	d = apply(t, d, pattern.Command{Name: "colour", ID: "m0", Text: "c1"})
	if !reflect.DeepEqual(d.Paint.Colours, []string{"c1"}) || d.Paint.Of != nil {
		t.Fatalf("%+v", d.Paint)
	}
	d = apply(t, d, pattern.Command{Name: "colour", ID: "m0", Text: "c3"},
		pattern.Command{Name: "slot", Values: map[string]float64{"index": 0}, Text: "c3"})
	if !reflect.DeepEqual(d.Paint.Colours, []string{"c3", "c1"}) {
		t.Fatalf("%+v", d.Paint)
	}
	// A second motif like one has its colour, and one that is taken out leaves none.
	d = apply(t, d, pattern.Command{Name: "motif", ID: "m0"})
	if id := d.Motifs[2].ID; d.Paint.Of[id] != d.Paint.Of["m0"] || d.Paint.Of["m0"] == 0 {
		t.Errorf("%s: %+v", id, d.Paint)
	}
	d = apply(t, d, pattern.Command{Name: "remove", ID: "m0"})
	if _, ok := d.Paint.Of["m0"]; ok {
		t.Errorf("%+v", d.Paint)
	}
}

func TestCopiesByHand(t *testing.T) {
	at := func(m, n float64, swatch string) pattern.Command {
		return pattern.Command{Name: "copy", ID: "m0", Text: swatch,
			Values: map[string]float64{"op": 2, "m": m, "n": n}}
	}
	block := func(m, n float64) pattern.Command {
		return pattern.Command{Name: "block", Values: map[string]float64{"m": m, "n": n}}
	}
	d := apply(t, twoMotifs(t), pattern.Command{Name: "colour", ID: "m0", Text: "c1"}, at(-3, 8, "c2"), block(2, 2),
		at(-3, 8, "c3"))
	want := []draft.HandColour{{Motif: "m0", Op: 2, Cell: [2]int{0, 0}, Colour: 1},
		{Motif: "m0", Op: 2, Cell: [2]int{0, 1}, Colour: 1}, {Motif: "m0", Op: 2, Cell: [2]int{1, 0}, Colour: 2},
		{Motif: "m0", Op: 2, Cell: [2]int{1, 1}, Colour: 1}}
	if !reflect.DeepEqual(d.Paint.ByHand.Copies, want) {
		t.Fatalf("%+v", d.Paint.ByHand)
	}
	d = apply(t, d, block(1, 1), at(5, 5, ""))
	if d.Paint.ByHand != nil || len(d.Paint.Colours) != 1 {
		t.Errorf("%+v", d.Paint)
	}
	if _, err := pattern.Apply(d, at(0, 0, "c7")); err == nil {
		t.Error("a swatch that is none is taken")
	}
	if _, err := pattern.Apply(d, block(2, 2)); err == nil || !strings.Contains(err.Error(), "by hand yet") {
		t.Error(err)
	}
}

// A colouring fills up the colours that it needs, leaves with its group, and is there again when its group is.
func TestColouringThroughGroups(t *testing.T) {
	zero := symmetry.Frac(0, 1)
	d := twoMotifs(t)
	d = apply(t, d, pattern.Command{Name: "colouring", Perms: perms(t, "p2gg", 2, zero, zero)})
	if n := len(d.Paint.Colours); n != 8 || len(d.Swatches) != 8 {
		t.Fatalf("%d colours, %d swatches", n, len(d.Swatches))
	}
	d = apply(t, d, pattern.Command{Name: "copy", ID: "m1", Text: "c2", Values: map[string]float64{"op": 1}})
	coloured := d
	d = apply(t, d, pattern.Command{Name: "group", Text: "p4"})
	if d.Paint.Perms != nil || d.Paint.ByHand != nil || len(d.Paint.Colours) != 8 {
		t.Fatalf("%+v", d.Paint)
	}
	back := apply(t, d, pattern.Command{Name: "group", Text: "p2gg"})
	if !reflect.DeepEqual(back.Paint, coloured.Paint) {
		t.Errorf("%+v", back.Paint)
	}
	// What was changed meanwhile stays.
	d = apply(t, d, pattern.Command{Name: "ground", ID: "c3"}, pattern.Command{Name: "group", Text: "p2gg"})
	if d.Paint.Perms != nil || d.Paint.Ground != "c3" {
		t.Errorf("%+v", d.Paint)
	}
	// A motif that is gone is not coloured again.
	d = apply(t, coloured, pattern.Command{Name: "group", Text: "p2"}, pattern.Command{Name: "remove", ID: "m1"},
		pattern.Command{Name: "group", Text: "p2gg"})
	if d.Paint.ByHand != nil {
		t.Errorf("%+v", d.Paint)
	}
	if _, err := pattern.Apply(twoMotifs(t), pattern.Command{Name: "colouring",
		Perms: perms(t, "p4", 1, zero, zero)}); err != nil && !strings.Contains(err.Error(), "paint.perms.ops") {
		t.Error(err)
	}
	if d = apply(t, coloured, pattern.Command{Name: "colouring"}); d.Paint.Perms != nil {
		t.Errorf("%+v", d.Paint)
	}
}

// One command is one step back.
func TestPaintIsUndone(t *testing.T) {
	h := pattern.NewHistory(twoMotifs(t))
	was := h.Draft()
	for _, c := range []pattern.Command{{Name: "colour", ID: "m0", Text: "c1"}, {Name: "ground", ID: "c2"},
		{Name: "paste", Values: map[string]float64{"waste": 0, "tub": 500}}} {
		if err := h.Do(c); err != nil {
			t.Fatal(err)
		}
	}
	if p := h.Draft().Paint; p.Waste != 0 || p.Tub != 500 || p.Density != 1.5 || h.UndoLabel() != "reckoning of paste" {
		t.Errorf("%+v, %s", p, h.UndoLabel())
	}
	for range 3 {
		h.Undo()
	}
	if !reflect.DeepEqual(h.Draft(), was) {
		t.Error("something is left of it")
	}
}
