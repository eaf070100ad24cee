package draft_test

import (
	"errors"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// Swatches and paint come back from a file as they were, and a draft without them has the file it always had.
func TestPaintThroughAFile(t *testing.T) {
	const seed = 151
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for _, g := range symmetry.Groups() {
		for range 4 {
			bare := patterntest.Draft(r, g.Symbol)
			d := patterntest.Coloured(r, bare)
			got, err := draft.DecodeBytes(d.Encode())
			if err != nil {
				t.Fatalf("%s: %v in\n%s", g.Symbol, err, d.Encode())
			}
			if !reflect.DeepEqual(got.Swatches, d.Swatches) || !reflect.DeepEqual(got.Paint, d.Paint) {
				t.Fatalf("%+v came back as %+v", d.Paint, got.Paint)
			}
			d.Swatches, d.Paint = nil, nil
			if string(d.Encode()) != string(bare.Encode()) || strings.Contains(string(bare.Encode()), "paint") {
				t.Fatal("a draft without paint has another file")
			}
		}
	}
}

// A paint that says only what is usual is none.
func TestPaintThatSaysNothing(t *testing.T) {
	p := draft.NewPaint()
	p.Of = map[string]int{"m1": 0}
	p.ByHand = &draft.ByHand{Cells: [2]int{2, 2}}
	if p.Kept() != nil {
		t.Errorf("%+v says something", p)
	}
	p.Waste = 0
	if p.Kept() == nil {
		t.Error("a paint without waste says nothing")
	}
}

func TestPaintNamesThePlace(t *testing.T) {
	base := func() draft.Draft {
		r := rand.New(rand.NewPCG(152, 0))
		d := patterntest.Draft(r, "p2gg")
		d.Swatches = []draft.Swatch{{ID: "green", Name: "Verdigris", Colour: "#17564a"},
			{ID: "rust", Name: "Rust", Colour: "#8a3b1c"}}
		perms := patterntest.Perms(must(symmetry.Find("p2gg")), 1, [2]symmetry.Fraction{})
		d.Paint = &draft.Paint{Colours: []string{"green", "rust"}, Of: map[string]int{"m0": 1}, Perms: &perms,
			ByHand: &draft.ByHand{Cells: [2]int{2, 3},
				Copies: []draft.HandColour{{Motif: "m0", Op: 3, Cell: [2]int{1, 2},
					Colour: 1}}}, Waste: 0.25, DryOfWet: 0.6, Density: 1.5, Tub: 250}
		return d
	}
	for _, c := range []struct {
		place, text string
		change      func(d *draft.Draft, p *draft.Paint)
	}{
		{"", "", func(d *draft.Draft, p *draft.Paint) {}},
		{"swatches[1].colour", `"rust" is not a colour; one is # and six digits from 0 to f, as in #17564a`,
			func(d *draft.Draft, p *draft.Paint) { d.Swatches[1].Colour = "rust" }},
		{"swatches[1].id", `"green" is the id of swatches[0] already`,
			func(d *draft.Draft, p *draft.Paint) { d.Swatches[1].ID = "green" }},
		{"paint.ground", `no swatch is called "bone"; there are "green", "rust"`,
			func(d *draft.Draft, p *draft.Paint) { p.Ground = "bone" }},
		{"paint.colours[1]", `no swatch is called "ochre"`,
			func(d *draft.Draft, p *draft.Paint) { p.Colours[1] = "ochre" }},
		{"paint.colours[1]", `"green" is colour 0 already`,
			func(d *draft.Draft, p *draft.Paint) { p.Colours[1] = "green" }},
		{"paint.of.m0", "there is no colour 2; the 2 colours are numbered from 0 to 1",
			func(d *draft.Draft, p *draft.Paint) { p.Of["m0"] = 2 }},
		{"paint.of.m9", `no motif is called "m9"`, func(d *draft.Draft, p *draft.Paint) { p.Of["m9"] = 0 }},
		{"paint.of", "it names the colours of motifs, and there are no colours",
			func(d *draft.Draft, p *draft.Paint) { p.Colours = nil }},
		{"paint.perms.a", "it permutes 2 colours, and there are 1", func(d *draft.Draft, p *draft.Paint) {
			p.Colours, p.Of, p.ByHand = p.Colours[:1], nil, nil
		}},
		{"paint.perms.ops", "p2gg has 4 operations",
			func(d *draft.Draft, p *draft.Paint) { p.Perms.Ops = p.Perms.Ops[:3] }},
		{"paint.perms.ops[2]", "", func(d *draft.Draft, p *draft.Paint) { p.Perms.Ops[2] = []int{0, 1} }},
		{"paint.byHand.cells[0]", "0 is out of range; it may be from 1 to 24",
			func(d *draft.Draft, p *draft.Paint) { p.ByHand.Cells[0] = 0 }},
		{"paint.byHand.copies[0].cell[1]", "3 lies outside the block of 2 × 3 cells",
			func(d *draft.Draft, p *draft.Paint) { p.ByHand.Copies[0].Cell[1] = 3 }},
		{"paint.byHand.copies[0].op", "p2gg has no operation 4",
			func(d *draft.Draft, p *draft.Paint) { p.ByHand.Copies[0].Op = 4 }},
		{"paint.byHand.copies[0].colour", "there is no colour 5",
			func(d *draft.Draft, p *draft.Paint) { p.ByHand.Copies[0].Colour = 5 }},
		{"paint.byHand.copies[1]", "it is the copy of byHand.copies[0]", func(d *draft.Draft, p *draft.Paint) {
			p.ByHand.Copies = append(p.ByHand.Copies, p.ByHand.Copies[0])
		}},
		{"paint.waste", "-1 is out of range", func(d *draft.Draft, p *draft.Paint) { p.Waste = -1 }},
		{"paint.dryOfWet", "2 is out of range; it may be from 0.05 to 1",
			func(d *draft.Draft, p *draft.Paint) { p.DryOfWet = 2 }},
		{"paint.density", "0 is out of range; it may be from 0.3 to 10 g/ml",
			func(d *draft.Draft, p *draft.Paint) { p.Density = 0 }},
	} {
		t.Run(c.place+c.text, func(t *testing.T) {
			d := base()
			c.change(&d, d.Paint)
			err := d.Check()
			var place *draft.PlaceError
			if c.place == "" && err != nil || c.place != "" && (!errors.As(err, &place) || place.Place != c.place ||
				!strings.HasPrefix(place.Text, c.text)) {
				t.Errorf("%v, want %s: %s", err, c.place, c.text)
			}
		})
	}
}

// A paint is looked at anew when what it depends on has changed, though it is the same paint.
func TestPaintIsCheckedAfterAChange(t *testing.T) {
	r := rand.New(rand.NewPCG(153, 0))
	was := patterntest.Draft(r, "p2gg")
	was.Swatches = []draft.Swatch{{ID: "c1", Colour: "#000000"}, {ID: "c2", Colour: "#ffffff"}}
	was.Paint = draft.NewPaint()
	was.Paint.Colours, was.Paint.Of = []string{"c1", "c2"}, map[string]int{"m0": 1}
	perms := patterntest.Perms(must(symmetry.Find("p2gg")), 1, [2]symmetry.Fraction{})
	was.Paint.Perms = &perms
	if err := was.Check(); err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string]func(d *draft.Draft){
		"group":  func(d *draft.Draft) { d.Repeat.Group = "p2" },
		"swatch": func(d *draft.Draft) { d.Swatches = d.Swatches[:1] },
		"motif":  func(d *draft.Draft) { d.Motifs = append([]draft.Motif{}, d.Motifs...); d.Motifs[0].ID = "other" },
	} {
		t.Run(name, func(t *testing.T) {
			d := was
			change(&d)
			if one, other := d.CheckAfter(was), d.Check(); one == nil || other == nil || one.Error() != other.Error() {
				t.Errorf("%v, and alone %v", one, other)
			}
		})
	}
}

func TestPaintsFileIsStrict(t *testing.T) {
	r := rand.New(rand.NewPCG(154, 0))
	file := string(patterntest.Draft(r, "p1").Encode())
	for text, want := range map[string]string{
		`"paint": {"of": {"m0": 0, "m0": 1}}`:             "the id is there twice",
		`"paint": {"of": {"m0": 0.5}}`:                    "paint.of.\"m0\": not a whole number, but 0.5",
		`"paint": {"perms": {"a": [0], "b": [0]}}`:        "paint.perms.ops: missing",
		`"paint": {"byHand": {"cells": [1, 1]}}`:          "paint.byHand.copies: missing",
		`"paint": {"thickness": 1}`:                       "paint.thickness: not a key of a draft",
		`"swatches": [{"id": "c1"}]`:                      "swatches[0].colour: missing",
		`"swatches": [{"id": "c1", "colour": "#12345"}]`:  "swatches[0].colour: \"#12345\" is not a colour",
		`"swatches": [{"id": "c1", "colour": "#ABCDEF"}]`: "",
	} {
		t.Run(text, func(t *testing.T) {
			_, err := draft.DecodeBytes([]byte(strings.Replace(file, `"title"`, text+`, "title"`, 1)))
			if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
				t.Errorf("%v, want %q", err, want)
			}
		})
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
