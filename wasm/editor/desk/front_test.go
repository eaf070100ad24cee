package desk

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// Several pieces of a picture are set in front as one subject, or apart, one each, as they were drawn: either way their
// outlines lie on the panel as in the picture, the middle of all on the panel's.
func TestPiecesInFront(t *testing.T) {
	square := func(x, y, side float64) orb.MultiPolygon {
		return orb.MultiPolygon{{{{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}, {x, y}}}}
	}
	list := []draft.Silhouette{{Name: "Head", Outline: square(0, 60, 20)}, {Name: "Body", Outline: square(30, 0, 40)},
		{Name: "Crumb", Outline: square(90, 90, 1)}}
	traced, err := json.Marshal(list)
	if err != nil {
		t.Fatal(err)
	}
	k := demo(t)
	panel := k.Session.Draft().PanelBound().Center()
	// The box of the two is 70 × 80 mm.
	move := geometry.Translate(panel[0]-35, panel[1]-40)
	lies := func(got, want orb.MultiPolygon) bool {
		a, b := got.Bound(), geometry.Transform(want, move).Bound()
		return math.Abs(a.Min[0]-b.Min[0])+math.Abs(a.Min[1]-b.Min[1])+math.Abs(a.Max[0]-b.Max[0])+
			math.Abs(a.Max[1]-b.Max[1]) < 1e-3
	}
	for _, apart := range []bool{false, true} {
		was := len(k.Session.Draft().Subjects)
		if err := k.Pieces(string(traced), []int{0, 1}, "subject:", apart); err != nil {
			t.Fatal(err)
		}
		added := k.Session.Draft().Subjects[was:]
		if apart && (len(added) != 2 || !lies(added[0].Placed(), list[0].Outline) ||
			!lies(added[1].Placed(), list[1].Outline) || added[1].Name != "Body") {
			t.Errorf("apart they are %+v", added)
		}
		if !apart && (len(added) != 1 || len(added[0].Outline) != 2 ||
			!lies(added[0].Placed(), append(square(0, 60, 20), square(30, 0, 40)...))) {
			t.Errorf("as one they are %+v", added)
		}
		if !apart { // several pieces in the place of one
			if err := k.Pieces(string(traced), []int{0, 1, 2}, "subject:"+added[0].ID, true); err != nil {
				t.Fatal(err)
			}
			if now := k.Session.Draft().Subjects[was]; len(now.Outline) != 3 {
				t.Errorf("in its place there are %d pieces", len(now.Outline))
			}
			if err := k.Undo(); err != nil {
				t.Fatal(err)
			}
		}
		if err := k.Undo(); err != nil || len(k.Session.Draft().Subjects) != was {
			t.Errorf("bringing them in is not one entry: %v", err)
		}
	}
}
