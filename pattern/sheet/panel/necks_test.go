package panel

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/symmetry"
)

// one returns a panel with one motif of the outline in p1, in cells of 60.
func one(mp orb.MultiPolygon, bridge, opening float64) draft.Draft {
	d := draft.Default()
	d.Panel, d.Field = draft.Panel{Width: 200, Height: 200}, draft.Field{Margin: 5, Origin: [2]float64{10, 10},
		Edge: draft.Whole}
	d.Repeat = draft.Repeat{Group: "p1", A: 60, B: 60, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Shape", Outline: mp}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	d.Sheet.Bridge, d.Sheet.Opening = bridge, opening
	return d
}

// checked returns what the check says of a draft.
func checked(t *testing.T, d draft.Draft) sheet.Report {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatalf("%s: %v", d.Title, err)
	}
	r, err := Check(l)
	if err != nil {
		t.Fatalf("%s: %v", d.Title, err)
	}
	return r
}

// Narrow places as the report tells them, on every copy, with ends that are as far apart as it says.
func TestNarrowPlacesInTheReport(t *testing.T) {
	// A C with a mouth of plane 2 wide, a slot of plane 1 wide and 10 deep, and a tongue of opening 1 wide.
	mp := geometry.Orient(orb.MultiPolygon{{orb.Ring{{0, 0}, {40, 0}, {40, 40}, {21, 40}, {21, 34}, {30, 34}, {30, 12},
		{10, 12}, {10, 34}, {19, 34}, {19, 40}, {5.5, 40}, {5.5, 30}, {4.5, 30}, {4.5, 40}, {0, 40}, {0, 20},
		{-10, 20}, {-10, 19}, {0, 19}, {0, 0}}}})
	// The disc of 3 in the slot's mouth lies √2 before it, that of 1.5 before the tongue's root √5/4.
	slot, tail := math.Hypot(10+math.Sqrt2, 0.5)-1.5, math.Hypot(10+math.Sqrt(5)/4, 0.5)-0.75
	r := checked(t, one(mp, 3, 1.5))
	type place struct {
		kind     sheet.Kind
		severity sheet.Severity
		measured float64
		text     string
	}
	tally := map[place]int{}
	for _, p := range r.Problems {
		if p.Kind == sheet.Size || p.Kind == sheet.Edge || p.Ends == nil {
			continue
		}
		tally[place{p.Kind, p.Severity, math.Round(p.Measured*1e6) / 1e6, p.Text}]++
		if d := math.Hypot(p.Ends[0][0]-p.Ends[1][0], p.Ends[0][1]-p.Ends[1][1]); math.Abs(d-p.Measured) > 1e-9 {
			t.Errorf("%s: ends %g apart", p.Text, d)
		}
	}
	want := []place{
		{sheet.Bridge, sheet.Fault, 2, "A strip of sheet within one opening is 2 mm wide; this sheet needs 3."},
		{sheet.Tip, sheet.Warning, 1, fmt.Sprintf("A tongue of sheet 1 mm wide and %s mm long "+
			"is held at one end only; the knife may lift it.", short(slot))},
		{sheet.Opening, sheet.Warning, 1,
			fmt.Sprintf("An opening runs out in a tail 1 mm wide and %s mm long; paste needs 1.5.", short(tail))},
	}
	for _, w := range want {
		if tally[w] != r.Counts.Copies {
			t.Errorf("%d of %d copies show %+v", tally[w], r.Counts.Copies, w)
		}
	}
	if len(tally) != len(want) || r.Sound || r.NarrowestWithin == nil || *r.NarrowestWithin != 2 {
		t.Errorf("sound %v, narrowest within %v, %v", r.Sound, r.NarrowestWithin, tally)
	}
	// With less asked the mouth is wide enough, and still the narrowest bridge within.
	if r = checked(t, one(mp, 1.8, 0.5)); r.NarrowestWithin == nil || *r.NarrowestWithin != 2 {
		t.Errorf("narrowest within %v, want the mouth of 2", r.NarrowestWithin)
	}
	// A slot is no bridge, however wide.
	comb := geometry.Orient(orb.MultiPolygon{{orb.Ring{{0, 0}, {20, 0}, {20, 20}, {12, 20}, {12, 10}, {8, 10}, {8, 20},
		{0, 20}, {0, 0}}}})
	if r = checked(t, one(comb, 3, 1.5)); r.NarrowestWithin != nil {
		t.Errorf("a slot is told as a bridge of %g", *r.NarrowestWithin)
	}
}

// Openings that share what is found in one of their kin, also where several copies run together, show what each shows
// by itself.
func TestKinShareTheirNarrowPlaces(t *testing.T) {
	const seed = 8
	t.Logf("seed %d", seed)
	rnd := rand.New(rand.NewPCG(seed, 0))
	shared, places, moved := 0, 0, 0
	var drafts []draft.Draft
	for _, g := range symmetry.Groups() {
		drafts = append(drafts, patterntest.Draft(rnd, g.Symbol))
	}
	for _, d := range geometrytest.Share(t, drafts, 6) {
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Check(l)
		if err != nil {
			t.Fatal(err)
		}
		c := &panelCheck{united: united{l: l}}
		if _, err = c.unite(l.Draft.Sheet.Bridge, nil); err != nil {
			t.Fatal(err)
		}
		// Opening by opening, because a report lists no more than the worst of each kind.
		var alone, together []sheet.Problem
		take := func(from *panelCheck, to *[]sheet.Problem) {
			found, _ := from.listing.Result()
			*to, from.listing = append(*to, found...), sheet.Listing{}
		}
		kin, known, here := map[string]int{}, map[string]narrowPlaces{}, geometry.Translate(0, 0)
		c.order = c.openingsByPlace()
		sharing := *c
		least, leastTogether := math.Inf(1), math.Inf(1)
		for i := range c.openings {
			if err := sharing.withinOne(i, known, &leastTogether); err != nil {
				t.Fatal(err)
			}
			take(&sharing, &together)
			k, _ := c.congruenceKey(i)
			if kin[k]++; k != "" && kin[k] == 2 && len(c.openings[i].pieces) > 1 {
				shared++
			}
			n, err := c.placesOf(i, here, least)
			if err != nil {
				t.Fatal(err)
			}
			c.closest(i, here, n, &least)
			c.fit(i, n.lost)
			for _, p := range n.sheet {
				c.neck(i, here, p)
			}
			for _, p := range n.opening {
				c.narrow(i, here, p)
			}
			take(c, &alone)
		}
		missing := unmatched(together, alone) + unmatched(alone, together)
		places += len(alone)
		moved += missing
		if missing > 0 {
			t.Logf("%s: %d of %d narrow places elsewhere when shared", l.Draft.Title, missing, len(alone))
		}
		if (got.NarrowestWithin == nil) != (c.report.NarrowestWithin == nil) ||
			(got.NarrowestWithin != nil && math.Abs(*got.NarrowestWithin-*c.report.NarrowestWithin) > 1e-9) {
			t.Errorf("%s: narrowest within %v, one by one %v", l.Draft.Title, got.NarrowestWithin,
				c.report.NarrowestWithin)
		}
	}
	// A piece that lies on a mirror of its opening is as narrow in two places, and rounding picks one; another opening
	// may lie across the one and not across the other.
	if moved*100 > 3*places {
		t.Errorf("%d of %d narrow places are elsewhere when shared", moved, places)
	}
	if shared < geometrytest.Count(1, 3) {
		t.Errorf("only %d kinds of united openings were shared: the comparison says little about them", shared)
	}
}

// unmatched counts the narrow places within openings of one list that have none of their kind, as wide and at the same
// place, in the other.
func unmatched(one, two []sheet.Problem) int {
	isWithin := func(p sheet.Problem) bool {
		return p.Kind == sheet.Tip || p.Kind == sheet.Opening || strings.HasPrefix(p.Text, "A strip of sheet within")
	}
	byPlace := map[[2]int][]sheet.Problem{}
	for _, p := range two {
		if isWithin(p) {
			k := [2]int{int(math.Floor(p.At[0])), int(math.Floor(p.At[1]))}
			byPlace[k] = append(byPlace[k], p)
		}
	}
	n := 0
	for _, p := range one {
		if !isWithin(p) {
			continue
		}
		slack := 1e-3
		if p.Severity == sheet.Warning {
			// Of a tail or tongue halfway along, where it is as wide in more than one place.
			slack = 0.2
		}
		found := false
		for i := -1; i <= 1; i++ {
			for j := -1; j <= 1; j++ {
				for _, q := range byPlace[[2]int{int(math.Floor(p.At[0])) + i, int(math.Floor(p.At[1])) + j}] {
					found = found || (q.Kind == p.Kind && q.Severity == p.Severity &&
						math.Abs(q.Measured-p.Measured) < 1e-5 && math.Hypot(q.At[0]-p.At[0], q.At[1]-p.At[1]) < slack)
				}
			}
		}
		if !found {
			n++
		}
	}
	return n
}
