package panel

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// tied adds random ties to a draft: of its silhouettes, across or beside them, and of the field, long and short.
func tied(r *rand.Rand, d draft.Draft) draft.Draft {
	for range 1 + r.IntN(3) {
		a := 2 * math.Pi * r.Float64()
		s, c := math.Sincos(a)
		t := draft.Tie{Width: geometry.Snap(0.3 + 2*r.Float64())}
		mid, long := orb.Point{}, 1+8*r.Float64()
		if r.IntN(2) == 0 {
			t.Silhouette = d.Silhouettes[r.IntN(len(d.Silhouettes))].ID
			mid = orb.Point{4 * (r.Float64() - 0.5), 4 * (r.Float64() - 0.5)}
		} else {
			mid = d.Repeat.Cell().Basis().Apply(orb.Point{r.Float64(), r.Float64()})
			long *= 2
		}
		for k, u := range [2]float64{c, s} {
			t.From[k], t.To[k] = geometry.Snap(mid[k]-long/2*u), geometry.Snap(mid[k]+long/2*u)
		}
		d.Ties = append(d.Ties, t)
		if d.Check() != nil { // it would leave nothing of its silhouette
			d.Ties = d.Ties[:len(d.Ties)-1]
		}
	}
	return d
}

// TestTiesAgainstGEOS is TestCheckAgainstGEOS for drafts with ties: O is what the openings cover less the ties.
func TestTiesAgainstGEOS(t *testing.T) {
	const seed, perGroup = 404, 1
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var drafts []draft.Draft
	for _, g := range symmetry.Groups() {
		for range perGroup {
			d := patterntest.Draft(r, g.Symbol)
			if r.IntN(3) == 0 {
				d = specialDraft(r, g.Symbol)
			}
			d.Panel.Width, d.Panel.Height = math.Min(d.Panel.Width, 90), math.Min(d.Panel.Height, 90)
			drafts = append(drafts, tied(r, d))
		}
	}
	drafts = geometrytest.Share(t, drafts, 6)
	unclear, ofField, ofSilhouettes := 0, 0, 0
	for i, want := range askGEOS(t, drafts) {
		for _, tie := range drafts[i].Ties {
			if tie.Silhouette == "" {
				ofField++
			} else {
				ofSilhouettes++
			}
		}
		if want.Unclear != "" {
			unclear++
			continue
		}
		l, err := pattern.NewLayout(drafts[i], nil)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Check(l)
		if err != nil {
			t.Errorf("draft %d (%s): %v", i, drafts[i].Title, err)
			continue
		}
		if compare(t, got, want) {
			t.Errorf("draft %d (%s) differs: %s", i, drafts[i].Title, drafts[i].Encode())
		}
	}
	t.Logf("%d drafts, %d unclear, %d ties of the field, %d of silhouettes", len(drafts), unclear, ofField,
		ofSilhouettes)
	if least := geometrytest.Count(1, 10); unclear > len(drafts)/8 || ofField < least || ofSilhouettes < least {
		t.Error("the comparison says little")
	}
}

// A disc of 20 mm radius with a tie of the field across it is two openings; where its silhouette has the tie, the same.
func TestTieDividesAnOpening(t *testing.T) {
	disc := orb.Ring{}
	for k := range 360 {
		s, c := math.Sincos(float64(k) * math.Pi / 180)
		disc = append(disc, orb.Point{20 * c, 20 * s})
	}
	disc = append(disc, disc[0])
	d := draft.Default()
	d.Panel, d.Field.Origin = draft.Panel{Width: 200, Height: 200}, [2]float64{100, 100}
	d.Repeat = draft.Repeat{Group: "p1", A: 500, B: 500, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Disc", Outline: orb.MultiPolygon{{disc}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{10, 0}, Scale: 2}}
	whole := geometry.Area(d.Silhouettes[0].Outline) * 4
	for name, tie := range map[string]draft.Tie{
		"of the field":      {From: [2]float64{10, -50}, To: [2]float64{10, 50}, Width: 4},
		"of the silhouette": {Silhouette: "s", From: [2]float64{0, -25}, To: [2]float64{0, 25}, Width: 2},
	} {
		d.Ties = []draft.Tie{tie}
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		r, err := Check(l)
		if err != nil {
			t.Fatal(err)
		}
		// A strip of 4 mm across the middle of a disc of 40 mm radius.
		strip := 2 * (2*math.Sqrt(40*40-4) + 40*40*math.Asin(2.0/40))
		if r.Counts.Openings != 2 || r.NarrowestBetween == nil || math.Abs(*r.NarrowestBetween-4) > 1e-9 ||
			math.Abs(whole-r.OpenArea-strip) > 0.05 {
			t.Errorf("%s: %d openings, narrowest %v, %.3f mm² less, want %.3f", name, r.Counts.Openings,
				r.NarrowestBetween, whole-r.OpenArea, strip)
		}
		openings, err := Openings(l)
		if err != nil || len(openings) != 2 {
			t.Errorf("%s: %d openings to cut (%v)", name, len(openings), err)
		}
	}
}
