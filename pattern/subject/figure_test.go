package subject_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/appearance"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/subject"
	"openwork/pattern/symmetry"
)

// beside is one bar 60 mm high and 10 wide on a panel of 200 × 200 mm, its left edge gap mm to the right of a square
// subject of 80 mm.
func beside(gap float64) draft.Draft {
	d := draft.Default()
	d.Panel, d.Field.Origin, d.Field.Margin = draft.Panel{Width: 200, Height: 200}, [2]float64{0, 0}, 5
	d.Repeat = draft.Repeat{Group: "p1", A: 500, B: 500, Gamma: 90}
	bar := orb.MultiPolygon{{{{0, 0}, {10, 0}, {10, 60}, {0, 60}, {0, 0}}}}
	d.Silhouettes = []draft.Silhouette{{ID: "bar", Name: "Bar", Outline: bar}}
	d.Motifs = []draft.Motif{{ID: "m1", Silhouette: "bar", At: [2]float64{130 + gap, 60}, Scale: 1}}
	d.Subjects = []draft.Subject{{ID: "subject1", Name: "Stone", At: [2]float64{50, 50}, Scale: 1, Edge: draft.Behind,
		Outline: orb.MultiPolygon{{{{0, 0}, {80, 0}, {80, 80}, {0, 80}, {0, 0}}}}}}
	return d
}

func read(t *testing.T, d draft.Draft) []subject.Reading {
	t.Helper()
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	out, err := subject.Read(l, subject.UsualSubject)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// A bar beside a square runs along it for its own height and what its corners reach; from 2 mm off it does not; lying
// under the square's edge it is seen beside that edge for as long, and nothing of it confuses that crosses squarely.
func TestReadingOfABar(t *testing.T) {
	for name, c := range map[string]struct {
		gap      float64
		along    float64
		tangents int
	}{
		"beside, 1 mm off": {1, 60 + 2*math.Sqrt(3), 1},
		"beside, touching": {0, 60 + 2*2, 1},
		"3 mm off":         {3, 0, 0},
		"half under":       {-5, 60 + 2*2, 0},
		"right under":      {-30, 0, 0},
	} {
		t.Run(name, func(t *testing.T) {
			r := read(t, beside(c.gap))[0]
			if math.Abs(r.Edge-320) > 1e-9 || math.Abs(r.Along-c.along) > 1e-6 || len(r.Tangents) != c.tangents {
				t.Errorf("the edge is %g mm long, %g of it along openings, with %d tangents, not 320, %g and %d",
					r.Edge,
					r.Along, len(r.Tangents), c.along, c.tangents)
			}
			if len(r.Tangents) == 1 {
				g := r.Tangents[0]
				if math.Abs(g.Length-c.along) > 1e-6 || math.Abs(g.At[0]-130) > 1e-6 || math.Abs(g.At[1]-90) > 1e-6 {
					t.Errorf("the tangent is %+v", g)
				}
			}
		})
	}
}

// The value of the field is that of the swatches beside the edge.
func TestContrast(t *testing.T) {
	d := beside(3) // the bar lies 3 to 13 mm beside the right side, along 60 of 320 mm
	r := read(t, d)[0]
	ground, paste, own := 83.36, 35.33, appearance.Value(appearance.Parse(subject.UsualSubject))
	share := 60.0 / 320
	if want := ground + share*(paste-ground); math.Abs(r.Field-want) > 0.6 {
		t.Errorf("the field's value is %g, not about %g", r.Field, want)
	}
	if want := (1-share)*(ground-own) + share*math.Abs(paste-own); math.Abs(r.Contrast-want) > 0.6 {
		t.Errorf("the contrast is %g, not about %g", r.Contrast, want)
	}

	d.Swatches = []draft.Swatch{{ID: "night", Name: "Night", Colour: subject.UsualSubject}}
	d.Paint = draft.NewPaint()
	d.Paint.Ground = "night"
	if r := read(t, d)[0]; math.Abs(r.Lost-260) > 4 || r.Least > 0.1 {
		t.Errorf("before a ground of its own colour %g mm of the edge are lost, the least difference is %g", r.Lost,
			r.Least)
	}
}

// figureCase is what testdata/figure.py gets.
type figureCase struct {
	Subjects []orb.MultiPolygon `json:"subjects"`
	Openings []orb.MultiPolygon `json:"openings"`
	Box      [4]float64         `json:"box"`
}

type figureAnswer struct {
	Edge     float64   `json:"edge"`
	Along    float64   `json:"along"`
	Tangents []float64 `json:"tangents"`
}

// On random drafts GEOS finds the same lengths, and the same tangents but for those that are 10 mm long to within
// rounding.
func TestReadingAgainstGEOS(t *testing.T) {
	const seed = 72
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var cases []figureCase
	var got [][]subject.Reading
	for i, g := range symmetry.Groups() {
		d := patterntest.Draft(r, g.Symbol)
		d.Panel.Width, d.Panel.Height = math.Min(d.Panel.Width, 110), math.Min(d.Panel.Height, 110)
		d = patterntest.Subjects(r, d, draft.Behind, draft.Behind, draft.Crop)
		if i%2 == 0 { // smooth silhouettes run beside edges for longer
			for k := range d.Silhouettes {
				d.Silhouettes[k].Outline = patterntest.Smooth(r, 14, 60)
			}
		}
		if d.Check() != nil {
			continue
		}
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		reading, err := subject.Read(l, subject.UsualSubject)
		if err != nil {
			t.Logf("%s: %v", d.Title, err)
			continue
		}
		open, err := panel.Openings(l)
		if err != nil {
			t.Fatal(err)
		}
		c := figureCase{Box: [4]float64{0, 0, d.Panel.Width, d.Panel.Height}}
		for _, s := range d.Subjects {
			c.Subjects = append(c.Subjects, s.Placed())
		}
		for _, o := range open {
			c.Openings = append(c.Openings, o.Shape.Place(geometry.Translate(o.Shift[0], o.Shift[1]), nil).Outline())
		}
		cases, got = append(cases, c), append(got, reading)
	}

	want, err := patterntest.Ask[[]figureAnswer]("testdata/figure.py", cases)
	if err != nil {
		t.Fatal(err)
	}
	tangents := 0
	for i := range got {
		for k, a := range got[i] {
			b := want[i][k]
			if math.Abs(a.Edge-b.Edge) > 1e-6 || math.Abs(a.Along-b.Along) > 0.02*float64(1+len(cases[i].Openings)) {
				t.Errorf("draft %d, %s: edge %g, %g of it along openings; GEOS %g and %g", i, a.Subject, a.Edge,
					a.Along, b.Edge,
					b.Along)
			}
			tangents += len(b.Tangents)
			if len(a.Tangents) != len(b.Tangents) {
				t.Errorf("draft %d, %s: tangents %v, GEOS %v", i, a.Subject, a.Tangents, b.Tangents)
				continue
			}
			for n := range b.Tangents {
				if math.Abs(a.Tangents[n].Length-b.Tangents[n]) > 0.02 {
					t.Errorf("draft %d, %s: tangent %d is %g mm long, GEOS %g", i, a.Subject, n, a.Tangents[n].Length,
						b.Tangents[n])
				}
			}
		}
	}
	if t.Logf("%d drafts, %d tangents", len(got), tangents); tangents < 8 || len(got) < 12 {
		t.Errorf("%d drafts with %d tangents say little", len(got), tangents)
	}
}
