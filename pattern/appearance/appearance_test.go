package appearance

import (
	"image/color"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"openwork/pattern/draft"
)

func TestValuesThatAreKnown(t *testing.T) {
	for _, c := range []struct {
		hex  string
		want float64 // L*, by the definition, to two places
	}{{"#000000", 0}, {"#ffffff", 100}, {"#777777", 50.03}, {"#ff0000", 53.23}, {"#00ff00", 87.74},
		{"#0000ff", 32.30}} {
		if got := Value(Parse(c.hex)); math.Abs(got-c.want) > 0.02 {
			t.Errorf("%s has L* %.3f, not %.2f", c.hex, got, c.want)
		}
	}
	for l := range 101 {
		if got := Value(Grey(float64(l))); math.Abs(got-float64(l)) > 0.25 { // half a step of eight bits
			t.Errorf("the grey of L* %d has %.3f", l, got)
		}
	}
}

// In n steps there are n greys, and none is further from a colour's value than half a step.
func TestStepsOfValue(t *testing.T) {
	r := rand.New(rand.NewPCG(172, 0))
	for view, n := range map[View]float64{Two: 2, Three: 3, Five: 5, Nine: 9} {
		greys := map[color.RGBA]bool{}
		for range 5000 {
			c := color.RGBA{uint8(r.IntN(256)), uint8(r.IntN(256)), uint8(r.IntN(256)), 255}
			g := view.Of(c)
			greys[g] = true
			if off := math.Abs(Value(g) - Value(c)); off > 50/(n-1)+0.3 || g.R != g.G || g.G != g.B {
				t.Fatalf("%v becomes %v in %g steps, %.2f off", c, g, n, off)
			}
		}
		greys[view.Of(Parse("#000000"))], greys[view.Of(Parse("#ffffff"))] = true, true
		if len(greys) != int(n) {
			t.Errorf("%d greys in %g steps", len(greys), n)
		}
	}
}

// Greys look alike to everybody; colours that differ by the missing cone alone fall together.
func TestColourBlindness(t *testing.T) {
	for _, v := range []View{Protan, Deutan, Tritan} {
		for g := range 256 {
			c := color.RGBA{uint8(g), uint8(g), uint8(g), 255}
			if s := v.Of(c); math.Abs(float64(s.R)-float64(g)) > 1 || math.Abs(float64(s.B)-float64(g)) > 1 {
				t.Fatalf("%s sees %v as %v", v, c, s)
			}
		}
	}
	// A red and a green that the model's protanope cannot tell apart keep their difference for the tritanope.
	red, green := Parse("#b05a3c"), Parse("#6f6f3c")
	apart := func(v View) float64 {
		a, b := v.Of(red), v.Of(green)
		return math.Abs(float64(a.R)-float64(b.R)) + math.Abs(float64(a.G)-float64(b.G)) +
			math.Abs(float64(a.B)-float64(b.B))
	}
	if apart(Deutan) > apart(Tritan)/2 || apart(Plain) != 65+21 {
		t.Errorf("apart by %g, as %s %g, as %s %g, as %s %g", apart(Plain), Protan, apart(Protan), Deutan,
			apart(Deutan),
			Tritan, apart(Tritan))
	}
}

func TestCloseValues(t *testing.T) {
	d := draft.Default()
	d.Swatches = []draft.Swatch{{ID: "g", Colour: "#808080"}, {ID: "a", Colour: "#8a8a8a"},
		{ID: "b", Colour: "#202020"},
		{ID: "unused", Colour: "#818181"}}
	if CloseOf(d) != nil {
		t.Error("pairs without paint")
	}
	d.Paint = &draft.Paint{Ground: "g", Colours: []string{"a", "b", "g"}}
	got := CloseOf(d)
	if len(got) != 1 || got[0].One != "a" || got[0].Other != "g" || math.Abs(got[0].Apart-3.87) > 0.1 {
		t.Errorf("%+v", got)
	}
	if d.Paint.Colours = d.Paint.Colours[:2]; len(CloseOf(d)) != 1 || CloseOf(d)[0].One != "g" {
		t.Errorf("%+v", CloseOf(d))
	}
	// With a subject, what is about as dark as it is drawn is named too: #202020 has an L* of 12, the subject of 23.
	d.Subjects = []draft.Subject{{ID: "s"}}
	if got := CloseOf(d); len(got) != 1 {
		t.Errorf("far from the subject: %+v", got)
	}
	d.Swatches[2].Colour, d.Swatches[2].Name = "#333333", "Soot"
	got = CloseOf(d)
	if len(got) != 2 || got[1].One != "b" || got[1].Other != "" || got[1].Apart > 3 ||
		!strings.HasPrefix(got[1].Text(d), "Soot and the subject lie ") {
		t.Errorf("beside the subject: %+v", got)
	}
	for _, v := range []View{Plain, Values, Two, Three, Five, Nine, Protan, Deutan, Tritan} {
		if v.Check() != nil {
			t.Error(v)
		}
	}
	if View("4").Check() == nil {
		t.Error("four steps are known")
	}
}
