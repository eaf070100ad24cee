package jobsheet

import (
	"os/exec"
	"strings"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/paint"
)

// coloured is squares in two columns of colours on a ground: 8 squares of 20 × 20 mm each.
func coloured() draft.Draft {
	d := squares()
	d.Sheet.Thickness, d.Sheet.Kerf = 0.5, 0
	d.Swatches = []draft.Swatch{{ID: "g", Name: "Limewash", Colour: "#efe6d2", Note: "white, raw sienna"},
		{ID: "l", Name: "Ochre", Colour: "#c08a2e"}, {ID: "d", Name: "Fir", Colour: "#1d4a3a"}}
	d.Paint = draft.NewPaint()
	d.Paint.Ground, d.Paint.Colours = "g", []string{"l", "d"}
	d.Paint.Waste, d.Paint.DryOfWet, d.Paint.Density, d.Paint.Tub = 0, 0.5, 1.5, 10
	id := d.Motifs[0].ID
	d.Paint.ByHand = &draft.ByHand{Cells: [2]int{2, 1},
		Copies: []draft.HandColour{{Motif: id, Cell: [2]int{1, 0}, Colour: 1}}}
	return d
}

// A draft with colours has a page for the studio wall: the base coat, then the plates from dark to light or as asked,
// with paste known by hand: 8 × 400 mm² at 0.5 mm are 1.6 ml dry and 3.2 ml wet, 4.8 g.
func TestPageForTheStudioWall(t *testing.T) {
	if _, path := written(t, squares(), Defaults()); strings.Contains(words(t, path), "What is laid") {
		t.Error("a draft without colours has the page")
	}
	for order, want := range map[paint.By][2]string{"": {"2. Plate 2: Fir", "3. Plate 1: Ochre"},
		"light": {"2. Plate 1: Ochre", "3. Plate 2: Fir"}, "listed": {"2. Plate 1: Ochre", "3. Plate 2: Fir"}} {
		o := Defaults()
		o.Order, o.Panels = order, 5
		m, path := written(t, coloured(), o)
		out, err := exec.Command("pdftotext", "-f", "4", "-l", "4", "-layout", path, "-").Output()
		if err != nil || m.Pages != 4 {
			t.Fatalf("%v, %d pages", err, m.Pages)
		}
		text := strings.Join(strings.Fields(string(out)), " ")
		at := -1
		for _, w := range []string{"1. Base coat: Limewash, L* 92 white, raw sienna The whole panel.", want[0],
			want[1]} {
			i := strings.Index(text, w)
			if i <= at {
				t.Errorf("order %q: %q is not in its place in %q", order, w, text)
			}
			at = i
		}
		for _, w := range []string{"8 openings, 32 cm²; 16 ml of wet paste for 5 panels, 24 g: 2 tubs of 10 ml.",
			"Let it dry before the next plate lies on it.", "numbered by their colour: 1 Ochre, 2 Fir. One stencil",
			"0 % more is laid", "keeps 50 % of its volume"} {
			if !strings.Contains(text, w) {
				t.Errorf("order %q: %q is not in %q", order, w, text)
			}
		}
	}
	o := Defaults()
	o.Units = "in"
	if _, path := written(t, coloured(), o); !strings.Contains(words(t, path), "fl oz of wet paste") {
		t.Error("in inches paste is not in fluid ounces")
	}
	for _, o := range []Options{{Order: "any"}, {Panels: -1}} {
		bad := Defaults()
		bad.Order, bad.Panels = o.Order, o.Panels
		if bad.check() == nil {
			t.Errorf("%+v is taken", o)
		}
	}
}

// What lies on top is laid later, whatever the values are, and the page says why: the dark squares lie on the light
// ones over 40 mm² of each of four.
func TestPageSaysWhatLiesOnTop(t *testing.T) {
	d := coloured()
	m := d.Motifs[0]
	m.ID, m.At = "over", [2]float64{m.At[0] + 18, m.At[1]}
	d.Motifs, d.Paint.ByHand = append(d.Motifs, m), nil
	d.Paint.Of = map[string]int{"over": 1}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	laying, err := paint.Order(l, paint.DarkFirst)
	if err != nil || len(laying.Pairs) != 1 || laying.Pairs[0].On == 0 {
		t.Fatalf("%+v, %v", laying, err)
	}
	_, path := written(t, d, Defaults())
	text := strings.Join(strings.Fields(words(t, path)), " ")
	first, then := strings.Index(text, "2. Plate 1: Ochre"), strings.Index(text, "3. Plate 2: Fir")
	if first < 0 || then < first {
		t.Errorf("the light ones do not come first in %q", text)
	}
	want := "Fir goes after Ochre: it lies on it over " + Defaults().unit().Surface(laying.Pairs[0].On) + "."
	if !strings.Contains(text, strings.Join(strings.Fields(want), " ")) {
		t.Errorf("%q is not in %q", want, text)
	}
}
