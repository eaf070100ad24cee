package paint

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

var drafts = flag.Int("drafts", 1, "random drafts of each plane group whose paste is reckoned")

func layout(t *testing.T, d draft.Draft) *pattern.Layout {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// An opening of a square metre under a sheet of 1 mm takes a litre.
func TestASquareMetreTakesALitre(t *testing.T) {
	d := patterntest.One(draft.Repeat{Group: "p1", A: 3000, B: 3000, Gamma: 90},
		orb.MultiPolygon{{{{-500, -500}, {500, -500}, {500, 500}, {-500, 500}, {-500, -500}}}})
	d.Panel, d.Field.Origin = draft.Panel{Width: 2000, Height: 2000}, [2]float64{1000, 1000}
	d.Motifs[0].At = [2]float64{}
	d.Sheet.Thickness, d.Sheet.Kerf = 1, 0
	d.Paint = draft.NewPaint()
	d.Paint.Waste, d.Paint.DryOfWet, d.Paint.Density, d.Paint.Tub = 0, 0.5, 1.4, 500
	r, err := Reckon(layout(t, d), 3, nil)
	if err != nil {
		t.Fatal(err)
	}
	want := Row{Openings: 1, Area: 1e6, Amount: Amount{1000, 2000, 2800, 4}, All: Amount{3000, 6000, 8400, 12},
		number: -1}
	if len(r.Swatches) != 1 || r.Swatches[0] != want {
		t.Errorf("%+v, want %+v", r.Swatches, want)
	}

	// The beam leaves its roundness in the corners.
	d.Sheet.Kerf = 2
	if r, err = Reckon(layout(t, d), 1, nil); err != nil {
		t.Fatal(err)
	}
	if got, want := r.Swatches[0].Area, 1e6-(4-math.Pi); math.Abs(got-want) > 0.05 {
		t.Errorf("%.4f mm², by the formula %.4f", got, want)
	}
	d.Sheet.Cut = draft.Knife
	if r, _ = Reckon(layout(t, d), 1, nil); r.Swatches[0].Area != 1e6 {
		t.Errorf("a knife leaves %.4f mm²", r.Swatches[0].Area)
	}
	for _, n := range []int{0, -1, MaxPanels + 1} {
		if _, err := Reckon(layout(t, d), n, nil); err == nil {
			t.Errorf("%d panels are reckoned", n)
		}
	}
}

// Areas by colour agree with GEOS's to a thousandth on random drafts, coloured in every way, with ties and a kerf.
func TestAreasAgainstGEOS(t *testing.T) {
	const seed = 181
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	type question struct {
		Crop    []float64            `json:"crop"`
		Half    float64              `json:"half"`
		Colours [][]orb.MultiPolygon `json:"colours"`
		Ties    []orb.Ring           `json:"ties"`
	}
	var asked []question
	var ours [][]float64
	var layouts []*pattern.Layout
	for i, g := range symmetry.Groups() {
		if *drafts == 1 && i%4 > 0 {
			continue // the everyday run takes every fourth group
		}
		for range *drafts {
			d := patterntest.Coloured(r, patterntest.Draft(r, g.Symbol))
			d.Sheet.Kerf = 0.4 * r.Float64()
			if r.IntN(2) == 0 {
				d.Ties = []draft.Tie{{From: [2]float64{3, 2}, To: [2]float64{14, 9}, Width: 1.3}}
			}
			layouts = append(layouts, layout(t, d))
		}
	}
	if *drafts == 1 {
		layouts = geometrytest.Share(t, layouts, 2)
	}
	for _, l := range layouts {
		d := l.Draft
		q := question{Half: d.Sheet.Kerf / 2, Colours: make([][]orb.MultiPolygon, len(d.Paint.Colours))}
		if b := d.FieldBound(); d.Field.Edge == draft.Crop {
			q.Crop = []float64{b.Min[0], b.Min[1], b.Max[0], b.Max[1]}
		}
		for i := range q.Colours {
			q.Colours[i] = []orb.MultiPolygon{}
		}
		copies, err := l.Copies()
		if err != nil {
			t.Fatal(err)
		}
		all := d.PanelBound()
		for _, c := range copies {
			q.Colours[c.Colour] = append(q.Colours[c.Colour], c.Shape().Outline())
			all = all.Union(c.Bound())
		}
		ties, err := l.TiesIn(all)
		if err != nil {
			t.Fatal(err)
		}
		q.Ties = []orb.Ring{}
		for _, tie := range ties {
			q.Ties = append(q.Ties, tie[0])
		}
		reckoned, err := Reckon(l, 1, nil)
		if err != nil {
			t.Fatal(err)
		}
		areas := make([]float64, len(d.Paint.Colours))
		for _, row := range reckoned.Swatches {
			areas[row.number] = row.Area
		}
		asked, ours = append(asked, q), append(ours, areas)
	}

	geos, err := patterntest.Ask[[]float64]("testdata/areas.py", asked)
	if err != nil {
		t.Fatal(err)
	}
	compared, worst := 0, 0.0
	for i := range geos {
		for k, want := range geos[i] {
			if want > 10 {
				compared++
				worst = max(worst, math.Abs(ours[i][k]-want)/want)
			}
			if math.Abs(ours[i][k]-want) > 1e-3*want+1e-3 {
				t.Errorf("draft %d, colour %d: %.4f mm², by GEOS %.4f", i, k, ours[i][k], want)
			}
		}
	}
	t.Logf("%d areas, at most %.2g of them off", compared, worst)
	if compared < geometrytest.Count(1, 10) {
		t.Errorf("only %d areas were compared", compared)
	}
}
