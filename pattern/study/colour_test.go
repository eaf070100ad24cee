package study

import (
	"bytes"
	"image/color"
	"image/png"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/appearance"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// chequer is discs in p1 coloured by a perfect colouring of four colours, on a ground.
func chequer(t *testing.T) draft.Draft {
	t.Helper()
	d := patterntest.One(draft.Repeat{Group: "p1", A: 20, B: 20, Gamma: 90}, patterntest.Regular(40, 8))
	d.Panel = draft.Panel{Width: 200, Height: 100}
	d.Field.Margin, d.Field.Origin = 5, [2]float64{10, 10}
	g, err := symmetry.Find("p1")
	if err != nil {
		t.Fatal(err)
	}
	perms := patterntest.Perms(g, 2, [2]symmetry.Fraction{symmetry.Frac(0, 1), symmetry.Frac(0, 1)})
	d.Swatches = []draft.Swatch{{ID: "g", Colour: "#e8e0cf"}, {ID: "a", Colour: "#17564a"},
		{ID: "b", Colour: "#8a3b1c"},
		{ID: "c", Colour: "#c9962f"}, {ID: "d", Colour: "#26231f"}}
	d.Paint = draft.NewPaint()
	d.Paint.Ground, d.Paint.Colours, d.Paint.Perms = "g", []string{"a", "b", "c", "d"}, &perms
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	return d
}

// Every copy lies in the picture in its own swatch on the ground's colour, flat or raised, in colours or in values.
func TestPictureInColours(t *testing.T) {
	l, err := pattern.NewLayout(chequer(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range []Options{{Flat: true}, {}, {View: "values"}, {View: "3", Flat: true}, {View: "deutan"}} {
		o.Width = 800
		var b bytes.Buffer
		if err := Picture(l, o, &b); err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(&b)
		if err != nil {
			t.Fatal(err)
		}
		palette, numbers := appearance.PaletteOf(l.Draft, appearance.View(o.View)), map[int]bool{}
		at := func(p orb.Point) color.RGBA {
			return color.RGBAModel.Convert(img.At(int(4*p[0]), int(4*(100-p[1])))).(color.RGBA)
		}
		for _, c := range copies {
			numbers[c.Colour] = true
			middle := c.Map.Apply(orb.Point{})
			if !l.Draft.FieldBound().Pad(-10).Contains(middle) {
				continue
			}
			if got, want := at(middle), palette.Colours[c.Colour]; got != want {
				t.Fatalf("%+v: the copy at %v is %v, not %v", o, middle, got, want)
			}
			// Up and to the left of a disc no shadow falls.
			if got := at(orb.Point{middle[0] - 9, middle[1] + 9}); o.Flat && got != palette.Ground {
				t.Fatalf("%+v: the ground beside %v is %v", o, middle, got)
			}
		}
		if len(numbers) != 4 {
			t.Errorf("%d colours", len(numbers))
		}
	}
	if err := Picture(l, Options{View: "7"}, &bytes.Buffer{}); err == nil {
		t.Error("a picture in seven steps is drawn")
	}
}

func TestSVGInColours(t *testing.T) {
	l, err := pattern.NewLayout(chequer(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]int{"#e8e0cf": 1}
	for _, c := range copies {
		want[l.Draft.Swatches[1+c.Colour].Colour]++
	}
	var b bytes.Buffer
	if err := SVG(l, &b); err != nil {
		t.Fatal(err)
	}
	for colour, n := range want {
		if got := strings.Count(b.String(), `fill="`+colour+`"`); got != n {
			t.Errorf("%s is there %d times, not %d", colour, got, n)
		}
	}
}

// A small picture of another group keeps the colours of the motifs.
func TestSmallPictureInColours(t *testing.T) {
	d := patterntest.Draft(rand.New(rand.NewPCG(173, 0)), "p2gg")
	d.Swatches = []draft.Swatch{{ID: "a", Colour: "#ff0000"}}
	d.Paint = draft.NewPaint()
	d.Paint.Colours = []string{"a"}
	img, err := Small(d, "p4", 80, 80, nil)
	if err != nil {
		t.Fatal(err)
	}
	red := 0
	for y := range 80 {
		for x := range 80 {
			if c := color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA); c.A > 0 {
				if c.R < 250 || c.G > 5 {
					t.Fatalf("%v at %d, %d", c, x, y)
				}
				red++
			}
		}
	}
	if red == 0 {
		t.Error("nothing is drawn")
	}
}
