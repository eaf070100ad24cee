package mends

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/symmetry"
)

func checked(t *testing.T, d draft.Draft) (*pattern.Layout, sheet.Report) {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	r, err := panel.Check(l)
	if err != nil {
		t.Fatal(err)
	}
	return l, r
}

// What is offered does what it says: carried out on the draft, the panel has what was announced, and what is wrong is
// less.
func TestOffersKeepTheirWord(t *testing.T) {
	seed := uint64(808)
	r := rand.New(rand.NewPCG(seed, 1))
	offered := map[string]int{}
	var drafts []draft.Draft
	for _, g := range symmetry.Groups() {
		drafts = append(drafts, patterntest.Draft(r, g.Symbol))
	}
	drafts = geometrytest.Share(t, drafts, 8)
	for _, d := range drafts {
		l, report := checked(t, d)
		mends, err := Offer(l, report, nil)
		if err != nil {
			t.Fatalf("seed %d, %s: %v", seed, d.Repeat.Group, err)
		}
		for i, m := range mends {
			offered[m.Command.Name]++
			next, err := pattern.Apply(d, m.Command)
			if err != nil {
				t.Fatalf("seed %d, %s: %+v: %v", seed, d.Repeat.Group, m.Command, err)
			}
			_, then := checked(t, next)
			want := sheet.NewMend(m.Command, report, then)
			want.Changed = m.Changed
			if !reflect.DeepEqual(m, want) || !sheet.Lessens(report, then) {
				t.Errorf("seed %d, %s, %s: announced %+v; it is %+v", seed, d.Repeat.Group, m.Command.Name, m, want)
			}
			if i > 0 && better(mends[i-1], m) > 0 {
				t.Errorf("seed %d, %s: %s stands before %s", seed, d.Repeat.Group, mends[i-1].Command.Name,
					m.Command.Name)
			}
		}
	}
	t.Logf("seed %d: offered %v", seed, offered)
	var missing []string
	for _, name := range []string{"size", "place", "cell", "edge", "redraw", "ties"} {
		if offered[name] == 0 {
			missing = append(missing, name)
		}
	}
	if len(missing) > geometrytest.Count(2, 0) { // some of the drafts may have no use for two of them
		t.Errorf("%q are never offered", missing)
	}
}

func TestASoundSheetIsOfferedNothing(t *testing.T) {
	l, r := checked(t, patternDemo(t))
	mends, err := Offer(l, r, nil)
	if err != nil || len(mends) != 0 || !r.Sound {
		t.Errorf("%v, %v, sound %v", mends, err, r.Sound)
	}
}

func patternDemo(t *testing.T) draft.Draft {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p2", A: 100, B: 100, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s",
		Outline: orb.MultiPolygon{{{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}, {-10, -10}}}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{25, 25}, Scale: 1}}
	d.Field.Edge = draft.Whole
	return d
}

// Two squares of 20 mm, 1 mm apart along x, bridges from 3: moving one by 2 mm is enough, and so is making both
// smaller.
func TestSquaresAreMovedApart(t *testing.T) {
	d := patternDemo(t)
	d.Repeat.Group = "p1"
	d.Motifs = append(d.Motifs, draft.Motif{ID: "n", Silhouette: "s", At: [2]float64{46, 25}, Scale: 1})
	l, r := checked(t, d)
	mends, err := Offer(l, r, nil)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(mends, func(m sheet.Mend) bool { return m.Command.Name == "place" })
	if i < 0 || !mends[i].Sound {
		t.Fatalf("no move is offered that makes it hold: %+v", mends)
	}
	c := mends[i].Command
	x := c.Values["x"]
	if c.ID == "n" {
		x = 71 - x // the other square's way
	}
	if x > 23.01 || x < 22.8 {
		t.Errorf("moved to %v, want 2 mm and hardly more", c)
	}
	j := slices.IndexFunc(mends, func(m sheet.Mend) bool { return m.Command.Name == "size" })
	// 21 between centres, 3 of bridge: squares of 18.
	if j < 0 || mends[j].Command.Values["factor"] < 0.895 || mends[j].Command.Values["factor"] > 0.9 {
		t.Errorf("sizes: %+v", mends)
	}
}
