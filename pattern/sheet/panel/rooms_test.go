package panel

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"openwork/geometry/geometrytest"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// withSubjects drafts in each of the seventeen groups are held against GEOS with subjects before them: 21 of 34
// usually.
var withSubjects = flag.Int("subjects", 2, "random drafts with subjects in each plane group to hold against GEOS")

// TestRoomsAgainstGEOS compares random drafts with one to three subjects of all three edges with GEOS: where the rooms
// lie, and then what TestCheckAgainstGEOS compares.
func TestRoomsAgainstGEOS(t *testing.T) {
	const seed = 2027
	t.Logf("seed %d, %d drafts in each group", seed, *withSubjects)
	r := rand.New(rand.NewPCG(seed, 0))
	var drafts, cropped []draft.Draft
	for _, g := range symmetry.Groups() {
		for k := range *withSubjects {
			d := patterntest.Draft(r, g.Symbol)
			d.Panel.Width, d.Panel.Height = math.Min(d.Panel.Width, 75), math.Min(d.Panel.Height, 75)
			if k%2 == 0 {
				cropped = append(cropped, patterntest.Subjects(r, d, draft.Crop))
			} else {
				drafts = append(drafts, patterntest.Subjects(r, d, draft.Crop, draft.Whole, draft.Behind))
			}
		}
	}

	if *withSubjects == 2 {
		cropped = geometrytest.Share(t, cropped, 4)
	}
	drafts = append(drafts, cropped...)
	answers := askGEOS(t, drafts)
	tally := map[string]int{}
	for i, d := range drafts {
		got := checked(t, d)
		if answers[i].Wrong != "" {
			t.Errorf("draft %d: %s", i, answers[i].Wrong)
		}
		if answers[i].Unclear != "" {
			tally["unclear"]++
			continue
		}
		if compare(t, got, answers[i]) {
			t.Errorf("draft %d differs: %s", i, d.Encode())
		}
		for _, s := range d.Subjects {
			tally["subjects "+string(s.Edge)]++
		}
		bare := d
		bare.Subjects = nil
		if was := checked(t, bare); was.OpenArea > got.OpenArea*1.001 {
			tally["with less cut away"]++
		}
		if got.Counts.Islands > 0 {
			tally["with islands"]++
		}
	}
	t.Logf("%d drafts: %v", len(drafts), tally)
	if tally["with less cut away"] < len(drafts)/2 || tally["unclear"] > len(drafts)/10 {
		t.Errorf("the comparison says little: %v", tally)
	}
	for _, edge := range []string{"crop", "whole", "behind"} {
		if tally["subjects "+edge] < len(drafts)/9 {
			t.Errorf("only %d subjects have the edge %s", tally["subjects "+edge], edge)
		}
	}
}
