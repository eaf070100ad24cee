package ties_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/ties"
	"openwork/pattern/symmetry"
)

var perGroup = flag.Int("drafts", 1, "random drafts in each plane group to tie")

// TestProposeLeavesNoIsland ties random drafts over all groups, with concave silhouettes, holes, overlaps and every
// edge rule. No island may be left, no tie may be narrower than the bridge, and no more may be closed than the ties
// cover. In every second draft the bridge is about a tenth of a silhouette, as it is in the trade; in the others it is
// up to half of one, and there a tie can hardly help to make a new fault. What is worse with the ties must be what was
// said, and how often the other faults grew in number is held.
func TestProposeLeavesNoIsland(t *testing.T) {
	const seed = 4242
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	drafts, withIslands, islands, added, ofSilhouettes, fewer := 0, 0, 0, 0, 0, 0
	grown := map[bool]int{} // by whether the bridge is narrow
	// Of these, where it is only that an opening that leaves the sheet in several places is now several.
	edges := 0
	of := map[bool]int{}
	said := map[bool]int{} // drafts in which some kind of fault grew, as was said
	for _, g := range symmetry.Groups() {
		for range *perGroup {
			d := patterntest.Draft(r, g.Symbol)
			// Smaller panels, so that more drafts go into the time.
			d.Panel.Width, d.Panel.Height = math.Min(d.Panel.Width, 60), math.Min(d.Panel.Height, 60)
			drafts++
			narrow := drafts%2 == 0
			if narrow {
				d.Sheet.Bridge = 0.5
			}
			l, before := report(t, d)
			proposal, err := ties.For(l, before, math.MaxInt)
			got := proposal.Ties
			if err != nil {
				t.Errorf("draft %d (%s): %v", drafts, d.Title, err)
				continue
			}
			if before.Counts.Islands == 0 {
				if len(got) > 0 {
					t.Errorf("draft %d (%s): ties for no island: %v", drafts, d.Title, got)
				}
				continue
			}
			withIslands++
			of[narrow]++
			islands += before.Counts.Islands
			added += len(got)
			d.Ties = got
			tied, after := report(t, d)
			if after.Counts.Islands > 0 {
				t.Errorf("draft %d (%s): %d islands of %d are left", drafts, d.Title, after.Counts.Islands,
					before.Counts.Islands)
			}
			covered := 0.0
			for _, tie := range got {
				if tie.Silhouette != "" {
					ofSilhouettes++
				}
				for _, i := range tied.TieImages(tie, d.PanelBound().Pad(100)) {
					covered += geometry.Area(orb.MultiPolygon{i.Rect()})
					if i.Width < d.Sheet.Bridge {
						t.Errorf("draft %d (%s): a tie %g mm wide on the panel, where the sheet needs %g", drafts,
							d.Title, i.Width, d.Sheet.Bridge)
					}
				}
			}
			if closed := before.OpenArea - after.OpenArea; closed > covered*(1+1e-9) || closed <= 0 {
				t.Errorf("draft %d (%s): %g mm² less are open, and the ties cover %g", drafts, d.Title, closed, covered)
			}
			// What is worse with the ties is what was said to be: nothing else.
			var worse []sheet.Total
			for _, k := range sheet.Kinds() {
				was, is := before.Of(k, sheet.Fault).Count, after.Of(k, sheet.Fault).Count
				if is > was {
					worse = append(worse, sheet.Total{Kind: k, Severity: sheet.Fault, Count: is - was})
				}
			}
			if !slices.Equal(worse, proposal.Grown) {
				t.Errorf("draft %d (%s): there are more faults by %v, and %v were said", drafts, d.Title, worse,
					proposal.Grown)
			}
			if len(worse) > 0 {
				said[narrow]++
			}
			switch b, a := faults(before), faults(after); {
			case a > b:
				grown[narrow]++
				if a-b <= ofKind(after, sheet.Edge)-ofKind(before, sheet.Edge) {
					edges++
				}
				t.Logf("draft %d (%s): %d faults besides the %d islands became %d", drafts, d.Title, b,
					before.Counts.Islands, a)
			case a < b:
				fewer++
			}
		}
	}
	t.Logf("%d drafts, %d with %d islands: %d ties, %d of them of silhouettes; other faults are fewer in %d drafts, "+
		"and grew in number in %d of %d with narrow bridges, %d of %d with wide ones "+
		"(%d times only those at the edge)",
		drafts, withIslands, islands, added, ofSilhouettes, fewer, grown[true], of[true], grown[false], of[false],
		edges)
	t.Logf("some kind of fault grew, and it was said, in %d drafts with narrow bridges and %d with wide ones",
		said[true], said[false])
	if withIslands < 6**perGroup || ofSilhouettes < 3**perGroup {
		t.Error("this says little about islands")
	}
	few := 0 // more than these may grow where chance has more to say
	if *perGroup < 6 {
		few = 1
	}
	if grown[true] > of[true]/6+few || grown[false] > of[false]/12+few {
		t.Errorf("ties made other faults grow in %v of %v drafts", grown, of)
	}
}

func ofKind(r sheet.Report, k sheet.Kind) int { return r.Of(k, sheet.Fault).Count }
