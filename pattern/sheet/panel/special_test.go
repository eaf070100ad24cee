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

// specialDraft is a random draft whose motifs stand on or near what symmetry makes special: rotation points, mirrors,
// the middle of the cell, turned by multiples of 15 degrees, so that copies meet along mirrors and at shared corners.
func specialDraft(r *rand.Rand, group string) draft.Draft {
	d := patterntest.Draft(r, group)
	places := []float64{0, 0.5, 1.0 / 3, 2.0 / 3, 0.25, 0.2}
	for i := range d.Motifs {
		p := d.Repeat.Cell().Basis().Apply(orb.Point{places[r.IntN(len(places))], places[r.IntN(len(places))]})
		d.Motifs[i].At = [2]float64{geometry.Snap(p[0]), geometry.Snap(p[1])}
		d.Motifs[i].Turn = float64(15 * (r.IntN(24) - 12))
	}
	d.Field.Turn = float64(30 * r.IntN(3))
	return d
}

// TestSpecialPositionsAgainstGEOS is TestCheckAgainstGEOS where copies meet on mirrors and at rotation points.
func TestSpecialPositionsAgainstGEOS(t *testing.T) {
	const seed, perGroup = 77, 1
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var drafts []draft.Draft
	for _, g := range symmetry.Groups() {
		for range perGroup {
			d := specialDraft(r, g.Symbol)
			d.Panel.Width, d.Panel.Height = math.Min(d.Panel.Width, 90), math.Min(d.Panel.Height, 90)
			drafts = append(drafts, d)
		}
	}
	drafts = geometrytest.Share(t, drafts, 6)
	unclear := 0
	for i, want := range askGEOS(t, drafts) {
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
			t.Errorf("draft %d (%s) differs", i, drafts[i].Title)
		}
	}
	t.Logf("%d drafts, %d unclear", len(drafts), unclear)
	if unclear > len(drafts)/3 {
		t.Errorf("%d drafts were too near a limit to be compared", unclear)
	}
}

// tile returns a field of squares of 20 mm on a panel whose field is 100 × 100 mm.
func tile(group string, a, b float64) draft.Draft {
	d := draft.Default()
	d.Panel, d.Field.Margin = draft.Panel{Width: 130, Height: 130}, 15
	d.Field.Origin = [2]float64{25, 25}
	d.Repeat = draft.Repeat{Group: group, A: a, B: b, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Square", Outline: orb.MultiPolygon{{orb.Ring{
		{-10, -10}, {10, -10}, {10, 10}, {-10, 10}, {-10, -10}}}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	return d
}

// Squares edge to edge are one opening; squares corner to corner are openings at no distance from one another, and what
// they enclose between them drops out.
func TestTilesThatTouch(t *testing.T) {
	for _, c := range []struct {
		name                      string
		d                         draft.Draft
		copies, openings, islands int
		openArea                  float64
		narrowest                 float64
		narrowestIsAskedOf        bool
	}{
		{name: "edge to edge", d: tile("p1", 20, 20), copies: 25, openings: 1, openArea: 10000},
		{name: "edge to edge, in rows", d: tile("p1", 20, 40), copies: 15, openings: 3, openArea: 6000, narrowest: 20,
			narrowestIsAskedOf: true},
		// 5 × 5 squares of a chequerboard, 13 of one colour; of the other 12 four by four meet the field's edge.
		{name: "corner to corner", d: tile("c2mm", 40, 40), copies: 13, openings: 13, islands: 4, openArea: 5200,
			narrowest: 0, narrowestIsAskedOf: true},
	} {
		l, err := pattern.NewLayout(c.d, nil)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Check(l)
		if err != nil {
			t.Fatal(err)
		}
		if got.Counts.Copies != c.copies || got.Counts.Openings != c.openings || got.Counts.Islands != c.islands ||
			got.OpenArea != c.openArea {
			t.Errorf("%s: %+v, open %g; want %d copies, %d openings, %d islands, %g", c.name, got.Counts, got.OpenArea,
				c.copies, c.openings, c.islands, c.openArea)
		}
		if c.narrowestIsAskedOf && (got.NarrowestBetween == nil || *got.NarrowestBetween != c.narrowest) {
			t.Errorf("%s: narrowest %v, want %g", c.name, got.NarrowestBetween, c.narrowest)
		}
	}
}
