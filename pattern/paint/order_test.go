package paint

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// rows is a draft of squares of 20 mm, one for each given place along x, each in a colour of its own; values are the
// colours' greys. The squares are drawn in their order.
func rows(at []float64, greys ...int) draft.Draft {
	d := patterntest.One(draft.Repeat{Group: "p1", A: 300, B: 300, Gamma: 90}, orb.MultiPolygon{
		{{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}, {-10, -10}}}})
	d.Panel, d.Field.Origin, d.Field.Edge = draft.Panel{Width: 300, Height: 300}, [2]float64{50, 150}, draft.Whole
	m := d.Motifs[0]
	d.Motifs, d.Paint = nil, draft.NewPaint()
	d.Paint.Of = map[string]int{}
	for i, x := range at {
		m.ID, m.At = fmt.Sprintf("m%d", i), [2]float64{x, 0}
		d.Motifs = append(d.Motifs, m)
		id := fmt.Sprintf("c%d", i)
		d.Swatches = append(d.Swatches, draft.Swatch{ID: id, Name: id,
			Colour: fmt.Sprintf("#%02[1]x%02[1]x%02[1]x", greys[i])})
		d.Paint.Colours = append(d.Paint.Colours, id)
		if i > 0 {
			d.Paint.Of[m.ID] = i
		}
	}
	return d
}

func TestOrderOfLaying(t *testing.T) {
	for _, c := range []struct {
		name  string
		at    []float64
		greys []int
		by    By
		want  []int
		pairs []Pair
	}{
		{"apart, from dark to light", []float64{0, 40, 80}, []int{200, 20, 90}, DarkFirst, []int{1, 2, 0}, nil},
		{"apart, from light to dark", []float64{0, 40, 80}, []int{200, 20, 90}, LightFirst, []int{0, 2, 1}, nil},
		{"the dark one on the light one", []float64{0, 15}, []int{200, 20}, DarkFirst, []int{0, 1},
			[]Pair{{0, 1, 100, 0}}},
		{"as listed, whatever lies on what", []float64{15, 0, 60}, []int{20, 200, 3}, AsListed, []int{0, 1, 2},
			[]Pair{{0, 1, 100, 0}}},
		{"a touch leaves it to the values", []float64{0, 20}, []int{200, 20}, DarkFirst, []int{1, 0},
			[]Pair{{1, 0, 0, 0}}},
		{"one on another, the third by value between", []float64{0, 10, 60}, []int{200, 20, 90}, DarkFirst,
			[]int{2, 0, 1}, []Pair{{0, 1, 200, 0}}},
		{"a stair, light at its foot", []float64{0, 12, 24}, []int{220, 120, 20}, DarkFirst, []int{0, 1, 2},
			[]Pair{{0, 1, 160, 0}, {1, 2, 160, 0}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Order(layout(t, rows(c.at, c.greys...)), c.by)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(got.Order, c.want) || len(got.Pairs) != len(c.pairs) {
				t.Fatalf("%+v, want %v with %v", got, c.want, c.pairs)
			}
			for i, p := range c.pairs {
				q := got.Pairs[i]
				if q.First != p.First || q.Then != p.Then || math.Abs(q.On-p.On) > 1e-6 || q.Under != p.Under {
					t.Errorf("pair %+v, want %+v", q, p)
				}
			}
		})
	}
}

// A circle of three colours that lie on each other is broken where least lies on the others.
func TestOrderInACircle(t *testing.T) {
	lies := map[[2]int]met{{0, 1}: {higherOn: 50}, {1, 2}: {higherOn: 40}, {0, 2}: {lowerOn: 9}}
	for _, numbers := range [][]int{{0, 1, 2}, {2, 1, 0}, {1, 0, 2}} {
		if got := sorted(numbers, lies); !slices.Equal(got, []int{0, 1, 2}) {
			t.Errorf("of %v: %v", numbers, got)
		}
	}
}

// Where no circle is, every colour comes after all that it lies on, whatever the values are.
func TestOrderFollowsWhatLiesOnTop(t *testing.T) {
	const seed = 77
	r := rand.New(rand.NewPCG(seed, 0))
	for range 300 {
		n := 2 + r.IntN(9)
		top := r.Perm(n) // what comes later in it lies on what comes before
		lies := map[[2]int]met{}
		for i, a := range top {
			for _, b := range top[i+1:] {
				if r.IntN(3) > 0 {
					continue
				}
				if m := (met{higherOn: 1 + 9*r.Float64()}); b > a {
					lies[[2]int{a, b}] = m
				} else {
					lies[[2]int{b, a}] = met{lowerOn: m.higherOn}
				}
			}
		}
		got := sorted(r.Perm(n), lies)
		for pair, m := range lies {
			lower, higher := slices.Index(got, pair[0]), slices.Index(got, pair[1])
			if m.higherOn > 0 && higher < lower || m.lowerOn > 0 && lower < higher {
				t.Fatalf("seed %d: %v although %v", seed, got, lies)
			}
		}
	}
}

// How much of each other's openings colours lie on agrees with GEOS on random drafts, cropped and with rooms.
func TestWhatLiesOnWhatAgainstGEOS(t *testing.T) {
	const seed = 311
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	type drawn struct {
		Colour   int              `json:"colour"`
		Polygons orb.MultiPolygon `json:"polygons"`
	}
	type question struct {
		Crop   []float64        `json:"crop"`
		Rooms  orb.MultiPolygon `json:"rooms"`
		Copies []drawn          `json:"copies"`
	}
	var asked []question
	var ours []map[[2]int]met
	for i, g := range symmetry.Groups() {
		if *drafts == 1 && i%2 > 0 {
			continue
		}
		for range *drafts {
			d := patterntest.Draft(r, g.Symbol)
			for k := range d.Motifs {
				d.Motifs[k].Scale = geometry.Snap(d.Motifs[k].Scale * (1 + 0.8*r.Float64()))
			}
			d = patterntest.Coloured(r, d)
			if r.IntN(2) == 0 {
				d = patterntest.Subjects(r, d, draft.Crop, draft.Whole)
			}
			d.Panel.Width, d.Panel.Height = math.Min(d.Panel.Width, 80), math.Min(d.Panel.Height, 80)
			l := layout(t, d)
			copies, err := l.Copies()
			if err != nil {
				t.Fatal(err)
			}
			q := question{Rooms: orb.MultiPolygon{}, Copies: []drawn{}}
			if b := d.FieldBound(); d.Field.Edge == draft.Crop {
				q.Crop = []float64{b.Min[0], b.Min[1], b.Max[0], b.Max[1]}
			}
			for _, room := range l.Rooms {
				if room.Edge == draft.Crop {
					q.Rooms = append(q.Rooms, room.Shape.Outline()...)
				}
			}
			for _, c := range copies {
				q.Copies = append(q.Copies, drawn{c.Colour, c.Shape().Outline()})
			}
			lies, err := meetings(l)
			if err != nil {
				t.Fatal(err)
			}
			asked, ours = append(asked, q), append(ours, lies)
		}
	}

	geos, err := patterntest.Ask[[][3]float64]("testdata/over.py", asked)
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for i := range geos {
		want := map[[2]int]met{}
		for _, row := range geos[i] {
			below, above := int(row[0]), int(row[1])
			m := want[[2]int{min(below, above), max(below, above)}]
			if above > below {
				m.higherOn += row[2]
			} else {
				m.lowerOn += row[2]
			}
			want[[2]int{min(below, above), max(below, above)}] = m
		}
		for pair, m := range want {
			got := ours[i][pair]
			// pairs of copies near the limit below which they only touch may be counted by one and not by the other
			slack := 0.05 + 1e-4*(m.higherOn+m.lowerOn)
			if math.Abs(got.higherOn-m.higherOn) > slack || math.Abs(got.lowerOn-m.lowerOn) > slack {
				t.Errorf("draft %d, colours %v: %+v mm², by GEOS %+v", i, pair, got, m)
			}
			compared++
		}
		for pair, m := range ours[i] {
			if _, ok := want[pair]; !ok && m.higherOn+m.lowerOn > 0.05 {
				t.Errorf("draft %d, colours %v: %+v mm², by GEOS none", i, pair, m)
			}
		}
	}
	t.Logf("%d pairs of colours of %d drafts", compared, len(geos))
	if compared < 6 {
		t.Errorf("only %d pairs were compared", compared)
	}
}
