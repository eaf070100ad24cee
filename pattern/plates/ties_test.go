package plates

import (
	"flag"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/symmetry"
)

var tiedDrafts = flag.Int("drafts", 1, "random drafts with ties in each plane group to hold against GEOS")

// tiedDraft is a random coloured draft with ties across its silhouettes, in some with ties of the field and subjects.
func tiedDraft(r *rand.Rand, group string) draft.Draft {
	d := patterntest.Draft(r, group)
	if r.IntN(3) > 0 { // discs lie over some copies, in another colour if it so happens
		at := d.Motifs[0].At
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: "disc", Name: "Disc",
			Outline: patterntest.Regular(20, 5)})
		d.Motifs = append(d.Motifs, draft.Motif{ID: "over", Silhouette: "disc", Scale: 1,
			At: [2]float64{at[0] + float64(r.IntN(6)), at[1] + float64(r.IntN(3))}})
	}
	d = patterntest.Coloured(r, d)
	for _, s := range d.Silhouettes {
		if s.ID == "disc" {
			continue
		}
		b := s.Outline.Bound()
		c := b.Center()
		for range 1 + r.IntN(2) {
			across := geometry.TurnDegrees(360 * r.Float64()).Vector(orb.Point{b.Max[0] - b.Min[0], 0})
			d.Ties = append(d.Ties, draft.Tie{Silhouette: s.ID, Width: 1 + 2*r.Float64(),
				From: [2]float64{c[0] - across[0], c[1] - across[1]},
				To:   [2]float64{c[0] + across[0], c[1] + across[1]}})
		}
	}
	if r.IntN(3) == 0 {
		d.Ties = append(d.Ties, draft.Tie{From: [2]float64{3, 2}, To: [2]float64{14, 9}, Width: 1.3})
	}
	if r.IntN(2) == 0 {
		d = patterntest.Subjects(r, d, draft.Crop, draft.Whole, draft.Behind)
	}
	for i := range d.Ties {
		d.Ties[i] = d.Ties[i].Snapped()
	}
	return d
}

func openedBy(open []panel.Opening) orb.MultiPolygon {
	out := orb.MultiPolygon{}
	for _, o := range open {
		out = append(out, o.Shape.Place(geometry.Translate(o.Shift[0], o.Shift[1]), nil).Outline()...)
	}
	return out
}

type tieQuestion struct {
	Crop   []float64        `json:"crop"`
	Rooms  orb.MultiPolygon `json:"rooms"`
	Copies orb.MultiPolygon `json:"copies"`
	Opened orb.MultiPolygon `json:"opened"`
	Later  orb.MultiPolygon `json:"later"`
	Over   orb.MultiPolygon `json:"over"`
	Lap    float64          `json:"lap"`
	Strips orb.MultiPolygon `json:"strips"`
}

// On random drafts the strips that ties leave, which of them lie under plates laid later, and what a plate over ties
// opens, agree with GEOS: a plate and the one over its ties open all that the colour's copies are, but for what other
// plates lie over, and nothing beside it.
func TestTiesAgainstGEOS(t *testing.T) {
	const seed, lap = 734, 0.8
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var asked []tieQuestion
	var ours []Tied
	var names []string
	for i, g := range symmetry.Groups() {
		if *tiedDrafts == 1 && i%3 > 0 {
			continue // the everyday run takes every third group
		}
		for range *tiedDrafts {
			d := tiedDraft(r, g.Symbol)
			d.Panel.Width, d.Panel.Height = min(d.Panel.Width, 70), min(d.Panel.Height, 70)
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				continue // its ties leave nothing of a silhouette
			}
			found, err := Of(l, Options{OverTies: true, Lap: lap}, nil)
			if err != nil {
				if !strings.Contains(err.Error(), "plates are for several") {
					t.Errorf("%s: %v", g.Symbol, err)
				}
				continue
			}
			for _, p := range found {
				if p.Over > 0 {
					continue
				}
				q := question(t, l, found, p)
				q.Lap = lap
				asked, ours = append(asked, q), append(ours, p.Ties)
				names = append(names, g.Symbol+", "+p.Name)
			}
		}
	}

	counts := Tied{}
	answers, err := patterntest.Ask[tieAnswer]("testdata/ties.py", asked)
	if err != nil {
		t.Fatal(err)
	}
	for i, got := range answers {
		counts.Number += ours[i].Number
		counts.Under += ours[i].Under
		counts.Over += ours[i].Over
		small := float64(ours[i].Number+1) * enough
		if got.Lacking > small || got.Extra > 1e-3 || got.Beside > 1e-3 || got.Beyond > 1e-3 {
			t.Errorf("%s: of %.3f mm² of strips %.4g are not told, %.4g are none; the plate over them opens %.4g "+
				"beside the copies and %.4g beyond the lap", names[i], got.Area, got.Lacking, got.Extra, got.Beside,
				got.Beyond)
		}
		if got.Under != ours[i].Under || got.Over != ours[i].Over || ours[i].Bare == 0 && got.Open > small {
			t.Errorf("%s: %+v, by GEOS %d under and %d over, %.4g mm² open", names[i], ours[i], got.Under, got.Over,
				got.Open)
		}
		if ours[i].Number != ours[i].Under+ours[i].Over+ours[i].Bare {
			t.Errorf("%s: %+v do not sum up", names[i], ours[i])
		}
	}
	t.Logf("%d plates: %+v", len(asked), counts)
	if len(asked) < 8 || counts.Under == 0 || counts.Over < counts.Number/2 {
		t.Errorf("this says little: %d plates, %+v", len(asked), counts)
	}
}

// question is what the oracle is told of a colour's plate.
func question(t *testing.T, l *pattern.Layout, found []Plate, p Plate) tieQuestion {
	t.Helper()
	q := tieQuestion{Rooms: orb.MultiPolygon{}, Over: orb.MultiPolygon{}, Later: orb.MultiPolygon{}}
	if b := l.Draft.FieldBound(); l.Draft.Field.Edge != draft.Touching {
		q.Crop = []float64{b.Min[0], b.Min[1], b.Max[0], b.Max[1]}
	}
	for _, room := range l.Rooms {
		q.Rooms = append(q.Rooms, room.Shape.Outline()...)
	}
	copies, err := l.Only(p.number).Copies()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range copies {
		q.Copies = append(q.Copies, l.Orbits[c.Motif].Bare.Place(c.Map, nil).Outline()...)
	}
	q.Opened = openedBy(p.Sheet.Openings)
	for _, other := range found {
		switch {
		case other.Over == p.Number:
			q.Over = openedBy(other.Sheet.Openings)
		case other.Over == 0 && other.Lay > p.Lay:
			q.Later = append(q.Later, openedBy(other.Sheet.Openings)...)
		}
	}
	own, err := strips(l.Only(p.number), newOpenings(p.Sheet.Openings))
	if err != nil {
		t.Fatal(err)
	}
	q.Strips = append(orb.MultiPolygon{}, own...)
	return q
}

type tieAnswer struct {
	Area    float64 `json:"area"`
	Lacking float64 `json:"lacking"`
	Extra   float64 `json:"extra"`
	Under   int     `json:"under"`
	Over    int     `json:"over"`
	Open    float64 `json:"open"`
	Beside  float64 `json:"beside"`
	Beyond  float64 `json:"beyond"`
}

// A ring's two ties show; where a disc of a lighter colour lies over one of them, that one does not; and the plate over
// the ties opens them, as wide as the tie and a lap on either side.
func TestTiesOfARing(t *testing.T) {
	d := patterntest.One(draft.Repeat{Group: "p1", A: 300, B: 300, Gamma: 90},
		orb.MultiPolygon{{patterntest.Regular(72, 40)[0][0], geometry.Reversed(patterntest.Regular(72, 25)[0][0])}})
	d.Panel, d.Field.Origin = draft.Panel{Width: 200, Height: 200}, [2]float64{100, 100}
	d.Field.Edge = draft.Whole
	d.Motifs[0].At = [2]float64{}
	id := d.Silhouettes[0].ID
	for _, x := range []float64{-1, 1} {
		d.Ties = append(d.Ties, draft.Tie{Silhouette: id, Width: 3, From: [2]float64{20 * x, 0},
			To: [2]float64{45 * x, 0}})
	}
	d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: "disc", Name: "Disc",
		Outline: patterntest.Regular(24, 12)})
	d.Motifs = append(d.Motifs, draft.Motif{ID: "m2", Silhouette: "disc", At: [2]float64{33, 0}, Scale: 1})
	d.Swatches = []draft.Swatch{{ID: "c1", Name: "Dark", Colour: "#222222"},
		{ID: "c2", Name: "Light", Colour: "#eeeeee"}}
	d.Paint = draft.NewPaint()
	d.Paint.Colours, d.Paint.Of = []string{"c1", "c2"}, map[string]int{"m2": 1}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	found, err := Of(l, Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(found) != 2 || found[0].Ties != (Tied{Number: 2, Under: 1, Bare: 1}) || found[1].Ties != (Tied{}) {
		t.Errorf("%d plates, their ties are %+v and %+v", len(found), found[0].Ties, found[1].Ties)
	}

	if found, err = Of(l, Options{OverTies: true}, nil); err != nil {
		t.Fatal(err)
	}
	if len(found) != 3 || found[0].Ties != (Tied{Number: 2, Under: 1, Over: 1}) || found[2].Over != 1 ||
		found[2].Openings != 1 || !found[2].Sound ||
		!strings.Contains(found[2].Sheet.Title, "over the ties of plate 1") {
		t.Fatalf("%d plates, %+v", len(found), found)
	}
	if lays := [3]int{found[0].Lay, found[1].Lay, found[2].Lay}; lays != [3]int{1, 3, 2} {
		t.Errorf("laid as %v: the one over the ties follows its own", lays)
	}
	b := found[2].Sheet.Openings[0].Bound()
	if high := b.Max[1] - b.Min[1]; high < 3+2*UsualLap-0.01 || high > 3+2*UsualLap+0.01 || b.Max[0] > 100-24.8 {
		t.Errorf("it opens %v", b)
	}
	if _, err := Of(l, Options{OverTies: true, Lap: MaxLap + 1}, nil); err == nil {
		t.Error("a lap beyond all measure is taken")
	}
}
