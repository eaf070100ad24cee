package stepping

import (
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

type plateCase struct {
	Copies  orb.MultiPolygon   `json:"copies"`
	Ties    orb.MultiPolygon   `json:"ties"`
	Sheet   []orb.MultiPolygon `json:"sheet"`
	Numbers []int              `json:"numbers"`
	Turn    float64            `json:"turn"`
	Crop    []float64          `json:"crop"`
	Places  []Place            `json:"places"`
}

// Random coloured drafts of all groups, stepped as plates and laid with GEOS: each colour's sheets together are that
// colour's openings, none laid twice; and every plate has its registration holes where the others have theirs.
func TestPlatesLaidWithGEOS(t *testing.T) {
	const seed = 515
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var cases []plateCase
	var names []string
	finer := 0
	for i, g := range symmetry.Groups() {
		if *perGroup <= 2 && i%2 > 0 {
			continue // the everyday run takes every second group
		}
		for range max(1, *perGroup/2) {
			d := patterntest.Coloured(r, loose(r, g.Symbol))
			if r.IntN(3) == 0 && len(d.Paint.Colours) > 1 {
				chequer(&d, len(g.Ops))
			}
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			s, err := Steps(l, Options{Plates: true}, nil)
			if err != nil {
				if len(d.Paint.Colours) > 1 && !errors.Is(err, errEndless) &&
					!strings.Contains(err.Error(), "repeat after") && !errors.Is(err, errOneColour) &&
					!strings.Contains(err.Error(), "no copy") && !strings.Contains(err.Error(), "limit is") {
					t.Errorf("%s: %v", d.Title, err)
				}
				continue
			}
			if s.sheet.f.a != (cell{1, 0}) || s.sheet.f.b != (cell{0, 1}) {
				finer++
			}
			var holes [][2]float64
			for k, p := range s.Plates {
				cases = append(cases, plateCaseOf(t, l, s, p))
				names = append(names, d.Title+", "+p.Name)
				plan, err := cutplan.New(s.SheetOf(p), cutplan.Options{Polygons: true,
					Holes: cutplan.Holes{Diameter: max(s.Diameter, minHole), Layer: cutplan.Cut}}, curve.Line)
				if err != nil {
					t.Errorf("%s, plate %d: %v", d.Title, p.Number, err)
					continue
				}
				at := holesOf(plan)
				if k == 0 {
					holes = at
				}
				if !slices.Equal(at, holes) || len(at) != len(s.Holes)+len(s.More) {
					t.Errorf("%s: plate %d has holes at %v, the first at %v, asked at %v", d.Title, p.Number, at, holes,
						s.Holes)
				}
			}
		}
	}

	laid, err := patterntest.Ask[struct{ Field, Apart, Twice float64 }]("testdata/plates.py", cases)
	if err != nil {
		t.Fatal(err)
	}
	for i, a := range laid {
		if slack := 1e-5 * (1 + a.Field); a.Apart > slack || a.Twice > slack || a.Field == 0 {
			t.Errorf("%s: of %.6g mm² GEOS finds %.3g laid otherwise and %.3g twice", names[i], a.Field, a.Apart,
				a.Twice)
		}
	}
	t.Logf("%d plates, %d drafts whose colours repeat within a block", len(cases), finer)
	if len(cases) < 8 || finer == 0 {
		t.Errorf("this says little: %d plates, %d within a block", len(cases), finer)
	}
}

// chequer colours every copy by its cell, in two colours as a chequer.
func chequer(d *draft.Draft, ops int) {
	p := *d.Paint
	p.Perms, p.Of, p.ByHand = nil, map[string]int{}, &draft.ByHand{Cells: [2]int{2, 2}}
	for _, m := range d.Motifs {
		for op := range ops {
			for _, c := range [][2]int{{1, 0}, {0, 1}} {
				p.ByHand.Copies = append(p.ByHand.Copies, draft.HandColour{Motif: m.ID, Op: op, Cell: c, Colour: 1})
			}
		}
	}
	d.Paint = &p
}

// plateCaseOf is what the oracle is told of a plate. Copies come from the draft's own layout.
func plateCaseOf(t *testing.T, l *pattern.Layout, s *Stepping, p Plate) plateCase {
	t.Helper()
	c := plateCase{Turn: s.Turn, Places: s.Places, Numbers: p.Openings}
	if b := l.Draft.FieldBound(); l.Draft.Field.Edge == draft.Crop {
		c.Crop = []float64{b.Min[0], b.Min[1], b.Max[0], b.Max[1]}
	}
	copies, err := l.Only(p.colour).Copies()
	if err != nil {
		t.Fatal(err)
	}
	c.Ties = orb.MultiPolygon{}
	for _, one := range copies {
		rects, err := l.TiesIn(one.Bound())
		if err != nil {
			t.Fatal(err)
		}
		c.Ties = append(c.Ties, rects...)
	}
	for _, one := range copies {
		c.Copies = append(c.Copies, one.Shape().Outline()...)
	}
	for _, o := range s.SheetOf(p).Openings {
		c.Sheet = append(c.Sheet, o.Shape.Place(geometry.Translate(o.Shift[0], o.Shift[1]), nil).Outline())
	}
	return c
}

// holesOf are the middles of a plan's registration holes, to a millionth of a millimetre.
func holesOf(p *cutplan.Plan) (out [][2]float64) {
	for _, c := range p.Contours {
		if c.Class != cutplan.ClassRegistration {
			continue
		}
		m := c.Map.Apply(c.Path.Bound().Center())
		out = append(out, [2]float64{geometry.Snap(m[0]), geometry.Snap(m[1])})
	}
	slices.SortFunc(out, func(a, b [2]float64) int { return slices.Compare(a[:], b[:]) })
	return out
}

// A counterchange in two colours along a row repeats after two cells: two plates of one opening each, laid at half as
// many places as there are cells, by the same marks; the map and the job sheet say which plate has which openings.
func TestCounterchangeInSteps(t *testing.T) {
	d := patterntest.One(draft.Repeat{Group: "p1", A: 40, B: 40, Gamma: 90}, patterntest.Regular(30, 12))
	d.Panel, d.Field.Origin = draft.Panel{Width: 240, Height: 160}, [2]float64{0, 0}
	d.Field.Margin, d.Field.Edge = 20, draft.Whole
	d.Motifs[0].At = [2]float64{0, 0}
	d.Swatches = []draft.Swatch{{ID: "c1", Name: "Bone", Colour: "#eeeeee"},
		{ID: "c2", Name: "Rust", Colour: "#8a3b1c"}}
	d.Paint = draft.NewPaint()
	d.Paint.Colours = []string{"c1", "c2"}
	d.Paint.ByHand = &draft.ByHand{Cells: [2]int{2, 2}, Copies: []draft.HandColour{
		{Motif: "m1", Cell: [2]int{1, 0}, Colour: 1}, {Motif: "m1", Cell: [2]int{0, 1}, Colour: 1}}}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}

	s, err := Steps(l, Options{Plates: true}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Plates) != 2 || len(s.Openings) != 2 || len(s.Plates[0].Openings) != 1 || s.Plates[1].Name != "Rust" {
		t.Errorf("%d openings, plates %+v", len(s.Openings), s.Plates)
	}
	if 2*len(s.Places) < len(copies) || len(s.Places) >= len(copies) {
		t.Errorf("%d places for %d copies", len(s.Places), len(copies))
	}
	if area := s.Steps[0][0]*s.Steps[1][1] - s.Steps[0][1]*s.Steps[1][0]; area < 3199 || area > 3201 {
		t.Errorf("the colours of a chequer of 40 mm repeat on 3200 mm², the steps %v on %.1f", s.Steps, area)
	}
	if words := strings.Join(s.Chosen, " "); !strings.Contains(words, "2 stepping sheets") ||
		!strings.Contains(words, "Rust: opening ") {
		t.Errorf("the job sheet is told %q", words)
	}

	// As one sheet each opening is laid in both colours, at places of its own: the key says where.
	if s, err = Steps(l, Options{}, nil); err != nil {
		t.Fatal(err)
	}
	sum := map[string]int{}
	for _, k := range s.Key {
		sum[k.Name] += len(k.Openings) * len(k.Places)
	}
	want := map[string]int{}
	for _, c := range copies {
		want[d.Swatches[c.Colour].Name]++
	}
	if len(sum) != 2 || sum["Bone"] != want["Bone"] || sum["Rust"] != want["Rust"] || len(s.Plates) != 0 {
		t.Errorf("the key is %+v, of %v", s.Key, want)
	}

	d.Paint = nil
	if l, err = pattern.NewLayout(d, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := Steps(l, Options{Plates: true}, nil); !errors.Is(err, errOneColour) {
		t.Errorf("plates of one colour: %v", err)
	}
}
