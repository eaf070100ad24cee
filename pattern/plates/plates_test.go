package plates

import (
	"bytes"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/paint"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/panel"
)

// Plates together have every opening of their copies once, each in its colour's plate, the area that the paste is
// reckoned for, and registration at the same three places or more.
func TestPlatesFallTogether(t *testing.T) {
	const seed = 191
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	tried := 0
	for _, group := range []string{"p1", "p2mg", "p3", "p4gm", "p6"} {
		d := patterntest.Coloured(r, patterntest.Draft(r, group))
		d.Field.Margin, d.Sheet.Kerf = 14, 0.1
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		copies, err := l.Copies()
		if err != nil {
			t.Fatal(err)
		}
		used := map[int]bool{}
		for _, c := range copies {
			used[c.Colour] = true
		}
		found, err := Of(l, Options{}, nil)
		if len(used) < 2 {
			if err == nil {
				t.Errorf("%s: plates of one colour", group)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		tried++
		if len(found) != len(used) {
			t.Errorf("%s: %d plates for %d colours", group, len(found), len(used))
		}
		reckoned, err := paint.Reckon(l, 1, nil)
		if err != nil {
			t.Fatal(err)
		}

		var holes []orb.Point
		lays := []int{}
		for i, p := range found {
			number := slices.Index(d.Paint.Colours, p.Swatch)
			open, err := panel.Openings(l.Only(number))
			if err != nil || len(open) != p.Openings || reckoned.Swatches[i].Swatch != p.Swatch ||
				reckoned.Swatches[i].Openings != p.Openings {
				t.Errorf("%s, plate %d: %d openings, %d of the colour (%v)", group, p.Number, p.Openings, len(open),
					err)
			}
			lays = append(lays, p.Lay)
			o := cutplan.Defaults()
			o.Polygons = true
			plan, err := cutplan.New(p.Sheet, o, curve.Line)
			if err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(plan.Title, p.Name) {
				t.Errorf("the plate is called %q", plan.Title)
			}
			at := marks(plan)
			if i == 0 {
				holes = at
			}
			if !slices.Equal(at, holes) {
				t.Errorf("%s: plate %d has its marks at %v, the first at %v", group, p.Number, at, holes)
			}
		}
		slices.Sort(lays)
		for i, lay := range lays {
			if lay != i+1 {
				t.Errorf("%s: laid as %v", group, lays)
			}
		}
	}
	if tried < 3 {
		t.Errorf("only %d drafts had several colours", tried)
	}
}

// marks are the middles of a plan's registration marks.
func marks(p *cutplan.Plan) []orb.Point {
	var out []orb.Point
	for _, c := range p.Contours {
		if c.Class != cutplan.ClassRegistration {
			continue
		}
		b := c.Path.Bound()
		m := c.Map.Apply(b.Center())
		m = orb.Point{math.Round(1e6*m[0]) / 1e6, math.Round(1e6*m[1]) / 1e6}
		if !slices.Contains(out, m) {
			out = append(out, m)
		}
	}
	return out
}

// Two openings that run into each other fail as one sheet, and hold as plates; what lies on top is laid later.
func TestOverlapsAreApartOnPlates(t *testing.T) {
	d := patterntest.One(draft.Repeat{Group: "p1", A: 40, B: 40, Gamma: 90}, patterntest.Regular(30, 12))
	d.Panel, d.Field.Origin = draft.Panel{Width: 200, Height: 200}, [2]float64{100, 100}
	d.Motifs = append(d.Motifs, d.Motifs[0])
	d.Motifs[1].ID, d.Motifs[1].At = "m2", [2]float64{d.Motifs[0].At[0] + 15, d.Motifs[0].At[1]}
	d.Swatches = []draft.Swatch{{ID: "c1", Name: "Light", Colour: "#eeeeee"},
		{ID: "c2", Name: "Dark", Colour: "#222222"}}
	d.Paint = draft.NewPaint()
	d.Paint.Colours, d.Paint.Of = []string{"c1", "c2"}, map[string]int{"m2": 1}
	d.Field.Edge = draft.Whole
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if r, err := panel.Check(l); err != nil || r.Sound {
		t.Fatalf("as one sheet it holds (%v)", err)
	}
	found, err := Of(l, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range found {
		if !p.Sound || len(p.Reasons) > 0 {
			t.Errorf("plate %d: %v", p.Number, p.Reasons)
		}
		var file bytes.Buffer
		if _, err := cutfile.WriteSheet(p.Sheet, &file, cutfile.FormatDXF, cutplan.Defaults()); err != nil {
			t.Error(err)
		}
	}
	if found[0].Lay != 1 || found[1].Lay != 2 { // the dark ones lie on the light ones
		t.Errorf("the light one is laid as %d, the dark one as %d", found[0].Lay, found[1].Lay)
	}
	d.Paint = nil
	if l, err = pattern.NewLayout(d, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := Of(l, Options{}, nil); err == nil {
		t.Error("plates without colours")
	}
}
