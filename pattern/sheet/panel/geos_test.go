package panel

import (
	"encoding/json"
	"flag"
	"math"
	"math/rand/v2"
	"runtime"
	"sort"
	"strings"
	"testing"

	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/symmetry"
)

// geosAnswer is what testdata/oracle.py finds with GEOS for one draft, by its own layout and its own overlay.
type geosAnswer struct {
	Copies    int          `json:"copies"`
	Openings  int          `json:"openings"`
	Islands   int          `json:"islands"`
	Island    []float64    `json:"islandAreas"`
	OpenArea  float64      `json:"openArea"`
	SheetArea float64      `json:"sheetArea"`
	Narrowest *float64     `json:"narrowestBetween"`
	Overlaps  [][3]float64 `json:"overlaps"` // x, y and area, of copies by the centre of each pair
	Unclear   string       `json:"unclear"`  // a figure so near its limit that rounding decides
	Wrong     string       `json:"wrong"`    // a room that GEOS has elsewhere
}

// geosCase is what the oracle gets: the draft, and the operations as GAP confirms them for the group.
type geosCase struct {
	Draft json.RawMessage `json:"draft"`
	Ops   [][6]float64    `json:"ops"` // w11 w12 w21 w22 t1 t2
	Rooms []any           `json:"rooms"`
}

// askGEOS runs the oracle once over all cases. GEOS is reached by Debian's python3-shapely.
func askGEOS(t *testing.T, drafts []draft.Draft) []geosAnswer {
	t.Helper()
	var cases []geosCase
	for _, d := range drafts {
		g, err := symmetry.Find(d.Repeat.Group)
		if err != nil {
			t.Fatal(err)
		}
		c := geosCase{Draft: json.RawMessage(d.Encode())}
		c.Ops = patterntest.Operations(g)
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range l.Rooms {
			c.Rooms = append(c.Rooms, r.Shape.Outline())
		}
		cases = append(cases, c)
	}
	// One process for each processor, each with a stretch of the cases.
	answers := make([]geosAnswer, len(cases))
	parts := min(runtime.NumCPU(), len(cases))
	failed := make(chan error, parts)
	for p := range parts {
		from, to := p*len(cases)/parts, (p+1)*len(cases)/parts
		go func() {
			got, err := patterntest.Ask[geosAnswer]("testdata/oracle.py", cases[from:to])
			copy(answers[from:to], got)
			failed <- err
		}()
	}
	for range parts {
		if err := <-failed; err != nil {
			t.Fatal(err)
		}
	}
	return answers
}

// usual is how many drafts in each group are made every day; half of them are held against GEOS.
const usual = 4

// perGroup drafts in each of the seventeen groups are held against GEOS: 34 of 68 usually, and 2,006 with -drafts 118.
var perGroup = flag.Int("drafts", usual, "random drafts in each plane group to hold against GEOS")

// TestCheckAgainstGEOS compares random drafts over all seventeen groups with GEOS: the same overlaps, the narrowest
// bridge to 1e-6 mm, areas to 1e-6 of themselves, the same number of openings and islands.
func TestCheckAgainstGEOS(t *testing.T) {
	const seed = 2026
	t.Logf("seed %d, %d drafts in each group", seed, *perGroup)
	r := rand.New(rand.NewPCG(seed, 0))
	var drafts []draft.Draft
	for _, g := range symmetry.Groups() {
		for range *perGroup {
			d := patterntest.Draft(r, g.Symbol)
			if *perGroup <= usual && len(drafts)%4 > 0 {
				// Three of four panels are smaller, so that more drafts go into the time.
				d.Panel.Width, d.Panel.Height = math.Min(d.Panel.Width, 70), math.Min(d.Panel.Height, 70)
			}
			drafts = append(drafts, d)
		}
	}
	if *perGroup <= usual {
		drafts = geometrytest.Share(t, drafts, len(drafts)/3)
	}
	answers := askGEOS(t, drafts)
	tally := map[string]int{}
	for i, d := range drafts {
		got := checked(t, d)
		want := answers[i]
		if want.Unclear != "" {
			tally["unclear"]++
			t.Logf("draft %d (%s): %s", i, d.Title, want.Unclear)
			continue
		}
		tally[string(d.Field.Edge)]++
		if compare(t, got, want) {
			t.Errorf("draft %d differs: %s", i, d.Encode())
		}
		if want.Islands > 0 {
			tally["with islands"]++
		}
		if len(want.Overlaps) > 0 {
			tally["with overlaps"]++
		}
	}
	t.Logf("%d drafts: %v", len(drafts), tally)
	if tally["unclear"] > max(1, len(drafts)/50) {
		t.Errorf("%d drafts were too near a limit to be compared", tally["unclear"])
	}
	for _, kind := range []string{"with islands", "with overlaps", "crop", "whole", "touching"} {
		if tally[kind] < len(drafts)/len(symmetry.Groups()) {
			t.Errorf("only %d drafts %s: the comparison says little about them", tally[kind], kind)
		}
	}
}

func compare(t *testing.T, got sheet.Report, want geosAnswer) (differs bool) {
	t.Helper()
	bad := func(format string, a ...any) { t.Errorf(format, a...); differs = true }
	if got.Counts.Copies != want.Copies || got.Counts.Openings != want.Openings || got.Counts.Islands != want.Islands {
		bad("counts %+v, GEOS %d copies, %d openings, %d islands", got.Counts, want.Copies, want.Openings, want.Islands)
	}
	if math.Abs(got.OpenArea-want.OpenArea) > 1e-6*want.OpenArea {
		bad("open area %.9g, GEOS %.9g", got.OpenArea, want.OpenArea)
	}
	if math.Abs(got.SheetArea-want.SheetArea) > 1e-6*want.SheetArea {
		bad("sheet area %.9g, GEOS %.9g", got.SheetArea, want.SheetArea)
	}
	switch {
	case (got.NarrowestBetween == nil) != (want.Narrowest == nil):
		bad("narrowest %v, GEOS %v", got.NarrowestBetween, want.Narrowest)
	case want.Narrowest != nil && math.Abs(*got.NarrowestBetween-*want.Narrowest) > 1e-6:
		bad("narrowest %.9g, GEOS %.9g", *got.NarrowestBetween, *want.Narrowest)
	}
	var areas, islands []float64
	for _, p := range got.Problems {
		if p.Kind == sheet.Overlap && p.Severity == sheet.Fault {
			areas = append(areas, p.Measured)
		}
		if p.Kind == sheet.Island {
			islands = append(islands, p.Measured)
		}
	}
	var wantAreas []float64
	for _, o := range want.Overlaps {
		wantAreas = append(wantAreas, o[2])
	}
	// The worst are listed, all are counted.
	sameList := func(what string, total sheet.Total, a, b []float64) {
		sort.Sort(sort.Reverse(sort.Float64Slice(a)))
		sort.Sort(sort.Reverse(sort.Float64Slice(b)))
		if total.Count != len(b) || total.AtLeast || len(a) != min(len(b), sheet.MaxListed) {
			bad("%d %s, of which %d are listed, GEOS %d", total.Count, what, len(a), len(b))
			return
		}
		for i := range a {
			if math.Abs(a[i]-b[i]) > 1e-6*(1+b[i]) {
				bad("%s %d: %.9g, GEOS %.9g", what, i, a[i], b[i])
				return
			}
		}
	}
	sameList("overlaps", got.Of(sheet.Overlap, sheet.Fault), areas, wantAreas)
	sameList("islands", got.Of(sheet.Island, sheet.Fault), islands, want.Island)
	return differs
}

// TestOracleSeesAFault makes sure that the comparison can fail: a draft changed after the oracle has seen it differs.
func TestOracleSeesAFault(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	d := patterntest.Draft(r, "p4mm")
	want := askGEOS(t, []draft.Draft{d})[0]
	d.Motifs[0].At[0] += 0.5
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Check(l)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(got.OpenArea-want.OpenArea) <= 1e-6*want.OpenArea && strings.TrimSpace(want.Unclear) == "" {
		t.Errorf("a motif moved by 0.5 mm leaves the open area at %.9g", got.OpenArea)
	}
}
