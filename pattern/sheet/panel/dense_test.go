package panel

import (
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"sort"
	"testing"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/symmetry"
)

// inEach drafts in each group are gone through in every way that there is: 17 in all usually, 510 with -ways 30.
var inEach = flag.Int("ways", 1, "random drafts in each plane group to go through as loose, crowded and dense")

// crowds are held against GEOS: 1 of 2 usually, and 60 with -crowds 60.
var crowds = flag.Int("crowds", 2, "random crowded drafts to hold against GEOS")

// However dense a field is taken to be, the answer is the same; what is only counted is no more than there is.
func TestDensitiesAgree(t *testing.T) {
	const seed = 1111
	t.Logf("seed %d, %d drafts in each group", seed, *inEach)
	r := rand.New(rand.NewPCG(seed, 0))
	islands, overlaps, partial := 0, 0, 0
	var drafts []draft.Draft
	for _, g := range symmetry.Groups() {
		for range *inEach {
			d := patterntest.Draft(r, g.Symbol)
			if r.IntN(2) == 0 {
				d.Ties = fieldTies(r, d)
			}
			drafts = append(drafts, d)
		}
	}
	if *inEach == 1 {
		drafts = geometrytest.Share(t, drafts, 6)
	}
	for n, d := range drafts {
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}

		var reports [3]sheet.Report
		for k := range reports {
			c := &panelCheck{united: united{l: l}}
			if c.copies, err = l.Copies(); err != nil {
				t.Fatal(err)
			}
			if reports[k], err = c.measureAs(density(k)); err != nil {
				t.Fatalf("draft %d (%s) as %d: %v", n, d.Title, k, err)
			}
		}
		for k := range reports[1:] {
			if !sameReport(t, reports[0], reports[k+1]) {
				t.Errorf("draft %d (%s), as %d and as loose, differs: %s", n, d.Title, k+1, d.Encode())
			}
		}
		islands += reports[0].Counts.Islands
		overlaps += reports[0].Of(sheet.Overlap, sheet.Fault).Count
		if reports[2].Of(sheet.Overlap, sheet.Fault).AtLeast {
			partial++
		}
	}
	t.Logf("%d islands, %d overlaps, %d counted in part", islands, overlaps, partial)
	if islands == 0 || overlaps == 0 || partial == 0 && len(drafts) >= len(symmetry.Groups()) {
		t.Error("the comparison says little")
	}
}

// fieldTies returns a few ties of the field at random places.
func fieldTies(r *rand.Rand, d draft.Draft) (out []draft.Tie) {
	for range 1 + r.IntN(2) {
		x, y := d.Repeat.A*r.Float64(), d.Repeat.B*r.Float64()
		a, l := 2*math.Pi*r.Float64(), 4+6*r.Float64()
		out = append(out, draft.Tie{From: [2]float64{x, y},
			To: [2]float64{x + l*math.Cos(a), y + l*math.Sin(a)}, Width: 1 + r.Float64()})
	}
	return out
}

func sameReport(t *testing.T, want, got sheet.Report) bool {
	t.Helper()
	ok := true
	bad := func(format string, a ...any) { t.Errorf(format, a...); ok = false }
	if got.Counts != want.Counts {
		bad("counts %+v, want %+v", got.Counts, want.Counts)
	}
	if math.Abs(got.OpenArea-want.OpenArea) > 1e-6*want.OpenArea {
		bad("open area %.9g, want %.9g", got.OpenArea, want.OpenArea)
	}
	for _, kind := range sheet.Kinds() {
		for _, s := range []sheet.Severity{sheet.Fault, sheet.Warning} {
			g, w := got.Of(kind, s), want.Of(kind, s)
			switch {
			case g.AtLeast && g.Count <= w.Count: // cropped copies are left out
				continue
			case kind == sheet.Bridge && got.Of(sheet.Overlap, sheet.Fault).Count > 0 && g.Count <= w.Count:
				continue // counted by pairs of openings, not of the pieces that they are made of
			case g.Count != w.Count:
				bad("%d %s %ss, want %d", g.Count, kind, s, w.Count)
				continue
			}
			if s == sheet.Warning { // the width halfway along a tongue depends on where the points of its outline lie
				continue
			}
			a, b := measures(got, kind, s), measures(want, kind, s)
			for i := range min(len(a), len(b)) {
				if math.Abs(a[i]-b[i]) > 1e-6*(1+math.Abs(b[i])) {
					bad("%s %s of %.9g, want %.9g", kind, s, a[i], b[i])
					break
				}
			}
		}
	}
	for _, pair := range [][2]*float64{{got.NarrowestBetween, want.NarrowestBetween},
		{got.NarrowestWithin, want.NarrowestWithin}} {
		if g, w := pair[0], pair[1]; (g == nil) != (w == nil) || g != nil && math.Abs(*g-*w) > 1e-6 {
			bad("narrowest %v, want %v", g, w)
		}
	}
	return ok
}

func measures(r sheet.Report, kind sheet.Kind, s sheet.Severity) (out []float64) {
	for _, p := range r.Problems {
		if p.Kind == kind && p.Severity == s {
			out = append(out, p.Measured)
		}
	}
	sort.Float64s(out)
	return out
}

// crowdedDraft returns a random draft in which each copy runs into many others.
func crowdedDraft(r *rand.Rand, group string) draft.Draft {
	d := patterntest.Draft(r, group)
	f := 0.25 + 0.15*r.Float64()
	d.Repeat.A, d.Repeat.B = geometry.Snap(d.Repeat.A*f), geometry.Snap(d.Repeat.B*f)
	d.Panel.Width, d.Panel.Height = 50+10*r.Float64(), 50+10*r.Float64()
	return d
}

// Fields in which copies run into each other by the thousand: openings, islands and areas are those of GEOS, and where
// all overlaps are counted they are too.
func TestCrowdedAgainstGEOS(t *testing.T) {
	const seed = 1212
	t.Logf("seed %d, %d drafts", seed, *crowds)
	r := rand.New(rand.NewPCG(seed, 0))
	groups := symmetry.Groups()
	var drafts []draft.Draft
	for n := range *crowds {
		drafts = append(drafts, crowdedDraft(r, groups[n*5%len(groups)].Symbol))
	}
	if *crowds == 2 {
		drafts = geometrytest.Share(t, drafts, 1)
	}
	answers := askGEOS(t, drafts)
	found := map[density]int{}
	for i, d := range drafts {
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Check(l)
		if err != nil {
			t.Fatalf("draft %d (%s): %v", i, d.Title, err)
		}
		copies, err := l.Copies()
		if err != nil {
			t.Fatal(err)
		}
		found[densityOf(l, copies)]++
		want := answers[i]
		if want.Unclear != "" {
			t.Logf("draft %d (%s): %s", i, d.Title, want.Unclear)
			continue
		}
		if total := got.Of(sheet.Overlap, sheet.Fault); total.AtLeast {
			if total.Count > len(want.Overlaps) {
				t.Errorf("draft %d: at least %d overlaps, GEOS %d", i, total.Count, len(want.Overlaps))
			}
			want.Overlaps = nil
			got.Totals = slices.DeleteFunc(got.Totals, func(t sheet.Total) bool { return t.Kind == sheet.Overlap })
			got.Problems = slices.DeleteFunc(got.Problems,
				func(p sheet.Problem) bool { return p.Kind == sheet.Overlap })
		}
		if compare(t, got, want) {
			t.Errorf("draft %d differs: %s", i, d.Encode())
		}
	}
	t.Logf("loose, crowded, dense: %d, %d, %d", found[loose], found[crowded], found[dense])
	if found[crowded] == 0 {
		t.Error("the comparison says little")
	}
}
