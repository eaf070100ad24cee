package ties_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/ties"
	"openwork/pattern/symmetry"
)

// Islands of panels with subjects are tied as others are, and every tie added has an image that holds something: one
// that crosses an opening of the panel outside all rooms, with both ends in sheet, and no room lies across its way.
func TestTiesKeepOutOfRooms(t *testing.T) {
	const seed = 4243
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	islands, added := 0, 0
	for i, g := range symmetry.Groups() {
		if i%5 != 2 {
			continue
		}
		d := patterntest.Draft(r, g.Symbol)
		d.Panel.Width, d.Panel.Height = math.Min(d.Panel.Width, 60), math.Min(d.Panel.Height, 60)
		d.Sheet.Bridge = 0.5
		d = patterntest.Subjects(r, d, draft.Crop)
		l, before := report(t, d)
		proposal, err := ties.For(l, before, math.MaxInt)
		if err != nil {
			t.Errorf("%s: %v", d.Title, err)
			continue
		}
		islands += before.Counts.Islands
		added += proposal.Added
		d.Ties = proposal.Ties
		tied, after := report(t, d)
		if after.Counts.Islands > 0 {
			t.Errorf("%s: %d islands of %d are left", d.Title, after.Counts.Islands, before.Counts.Islands)
		}
		for _, tie := range proposal.Ties {
			holds := false
			for _, at := range tied.TieImages(tie, d.PanelBound()) {
				holds = holds || !slices.ContainsFunc(tied.Rooms,
					func(r pattern.Room) bool { return acrossRoom(r.Shape, at) })
			}
			if !holds {
				t.Errorf("%s: every image of the tie %v lies across a room", d.Title, tie)
			}
		}
	}
	if t.Logf("%d islands, %d ties", islands, added); islands < 8 || added < 3 {
		t.Error("this says little about ties")
	}
}

// acrossRoom reports whether a room lies across the middle of a tie with both of its ends outside.
func acrossRoom(room *geometry.Shape, tie draft.Tie) bool {
	from, to := orb.Point(tie.From), orb.Point(tie.To)
	return !room.Contains(from) && !room.Contains(to) && room.Crosses(from, to)
}
