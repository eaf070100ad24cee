package ties_test

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/sheet/ties"
)

// ellipse returns a ring of n corners about (x, y), counter-clockwise.
func ellipse(x, y, a, b float64, n int) orb.Ring {
	var r orb.Ring
	for k := range n {
		s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		r = append(r, orb.Point{geometry.Snap(x + a*c), geometry.Snap(y + b*s)})
	}
	return append(r, r[0])
}

func box(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
}

// outline makes a silhouette of polygons, each a list of rings.
func outline(polygons ...orb.Polygon) orb.MultiPolygon {
	return geometry.Orient(orb.MultiPolygon(polygons))
}

// one is a draft of one motif of a silhouette in the middle of a panel of 240 mm.
func one(mp orb.MultiPolygon, group string, cell float64) draft.Draft {
	d := draft.Default()
	d.Panel, d.Field.Origin = draft.Panel{Width: 240, Height: 240}, [2]float64{120, 120}
	d.Repeat = draft.Repeat{Group: group, A: cell, B: cell, Gamma: 90}
	if group[1] == '3' || group[1] == '6' {
		d.Repeat.Gamma = 120
	}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "S", Outline: mp}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	return d
}

func report(t *testing.T, d draft.Draft) (*pattern.Layout, sheet.Report) {
	t.Helper()
	if err := d.Check(); err != nil {
		t.Fatal(err)
	}
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

// faults counts the faults that are no islands.
func faults(r sheet.Report) int {
	n, _ := r.Count(sheet.Fault)
	return n - ofKind(r, sheet.Island)
}

func TestProposeKnown(t *testing.T) {
	ring := func(r, hole float64) orb.Polygon {
		return orb.Polygon{ellipse(0, 0, r, r, 120), ellipse(0, 0, hole, hole, 96)}
	}
	// The letters are drawn here, of plain strokes.
	letterO := outline(orb.Polygon{ellipse(0, 0, 22, 32, 90), ellipse(0, 0, 12, 22, 90)})
	letterB := outline(orb.Polygon{box(-18, -32, 20, 32), box(-8, 5, 10, 24), box(-8, -24, 10, -5)})
	eight := outline(orb.Polygon{ellipse(0, 0, 20, 34, 60),
		ellipse(0, 15, 9, 9, 40), ellipse(0, -15, 10, 10, 40)})
	arc := func() orb.MultiPolygon { // a third of a ring about the origin and a little more, so that three close it
		var out, in orb.Ring
		for k := range 41 {
			s, c := math.Sincos((-65 + 130*float64(k)/40) * math.Pi / 180)
			out = append(out, orb.Point{30 * c, 30 * s})
			in = append(in, orb.Point{20 * c, 20 * s})
		}
		slices.Reverse(in)
		r := append(out, in...)
		return geometry.SnapOutline(outline(orb.Polygon{append(r, r[0])}))
	}
	two := one(outline(ring(20, 10)), "p1", 120)
	two.Motifs = append(two.Motifs, draft.Motif{ID: "small", Silhouette: "s", At: [2]float64{60, 0}, Turn: 30,
		Scale: 0.5, Mirrored: true})
	onTurn := func(group string) draft.Draft { return one(outline(ring(26, 14)), group, 110) }
	tiny := one(outline(orb.Polygon{box(-15, -15, 15, 15), ellipse(0, 0, 1, 1.5, 12)}), "p1", 120)
	long := one(outline(orb.Polygon{box(-50, -12, 50, 12), box(-40, -4, 40, 4)}), "p1", 150)
	large := one(outline(orb.Polygon{box(-50, -50, 50, 50), box(-40, -40, 40, 40)}), "p1", 150)
	eightOff := one(eight, "p2gg", 200)
	eightOff.Motifs[0].At = [2]float64{50, 30}
	within := one(outline(ring(44, 36), ring(26, 18)), "p1", 120)
	for _, c := range []struct {
		name              string
		d                 draft.Draft
		least, most       int // ties
		silhouette, field bool
	}{
		{"a ring", one(outline(ring(20, 10)), "p1", 100), 2, 3, true, false},
		{"a ring at two scales", two, 2, 3, true, false},
		{"a large frame", large, 3, 6, true, false},
		{"a tiny island", tiny, 1, 1, true, false},
		{"a long island", long, 2, 2, true, false},
		{"nested rings", within, 4, 7, true, false},
		{"O", one(letterO, "p2mg", 110), 2, 3, true, false},
		{"B", one(letterB, "pg", 180), 4, 6, true, false},
		{"8", eightOff, 4, 6, true, false},
		{"three arcs about a point of three", one(arc(), "p3", 90), 1, 2, false, true},
		{"a ring on a point of two", onTurn("p2"), 1, 3, true, false},
		{"a ring on a point of four", onTurn("p4"), 1, 3, true, false},
		{"a ring on a point of four and mirrors", onTurn("p4mm"), 1, 3, true, false},
		{"a ring on a point of six and mirrors", onTurn("p6mm"), 1, 3, true, false},
	} {
		l, before := report(t, c.d)
		if before.Counts.Islands == 0 {
			t.Errorf("%s: there is no island to begin with", c.name)
			continue
		}
		got, err := ties.Propose(l)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		again, _ := ties.Propose(l)
		if !slices.Equal(got, again) {
			t.Errorf("%s: asked twice, it proposes %v and %v", c.name, got, again)
		}
		d := c.d
		d.Ties = got
		_, after := report(t, d)
		if after.Counts.Islands != 0 || faults(after) > faults(before) {
			t.Errorf("%s: %d islands are left, faults %d and were %d", c.name, after.Counts.Islands, faults(after),
				faults(before))
		}
		if len(got) < c.least || len(got) > c.most {
			t.Errorf("%s: %d ties, want %d to %d", c.name, len(got), c.least, c.most)
		}
		for _, tie := range got {
			scale := 1.0
			if tie.Silhouette != "" {
				for _, m := range d.Motifs {
					scale = math.Min(scale, m.Scale)
				}
			}
			if tie.Width*scale < d.Sheet.Bridge || tie.Width*scale > d.Sheet.Bridge+0.1 {
				t.Errorf("%s: a tie is %g mm wide at scale %g", c.name, tie.Width, scale)
			}
			if (tie.Silhouette != "" && !c.silhouette) || (tie.Silhouette == "" && !c.field) {
				t.Errorf("%s: %+v belongs to the wrong one", c.name, tie)
			}
			endsInSheet(t, c.name, l, before, tie)
		}
		next := ties.Propose
		l, _ = pattern.NewLayout(d, nil)
		if more, err := next(l); err != nil || !slices.Equal(more, got) {
			t.Errorf("%s: tied, it asks for more: %v (%v)", c.name, more, err)
		}
	}
}

// endsInSheet makes sure that both ends of every image of a tie lie in sheet and its middle in an opening, by the
// openings without the ties.
func endsInSheet(t *testing.T, name string, l *pattern.Layout, _ sheet.Report, tie draft.Tie) {
	t.Helper()
	openings, err := panel.Openings(l)
	if err != nil {
		t.Fatal(err)
	}
	open := func(p orb.Point) bool {
		return slices.ContainsFunc(openings, func(o panel.Opening) bool {
			return o.Shape.Contains(orb.Point{p[0] - o.Shift[0], p[1] - o.Shift[1]})
		})
	}
	field := l.Draft.FieldBound()
	for _, i := range l.TieImages(tie, l.Draft.PanelBound()) {
		r := i.Rect()[0]
		if !field.Contains(r[0]) || !field.Contains(r[1]) || !field.Contains(r[2]) || !field.Contains(r[3]) {
			continue // cropped there
		}
		for k, p := range []orb.Point{i.From, i.To, r[0], r[1], r[2], r[3]} {
			if k >= 2 && l.Draft.Silhouettes[0].Outline[0][0][0] == (orb.Point{-15, -15}) {
				continue // the island is smaller than its tie
			}
			if open(p) {
				t.Errorf("%s: an end of the tie at %v lies in an opening", name, p)
				return
			}
		}
		if !open(orb.Point{(i.From[0] + i.To[0]) / 2, (i.From[1] + i.To[1]) / 2}) {
			t.Errorf("%s: the tie about (%.1f, %.1f) crosses nothing", name, i.From[0], i.From[1])
		}
	}
}

// Ties that are there already stay, first and in their order, and count.
func TestProposeKeepsWhatIsThere(t *testing.T) {
	d := one(outline(orb.Polygon{ellipse(0, 0, 20, 20, 60), ellipse(0, 0, 10, 10, 60)}), "p1", 100)
	d.Ties = []draft.Tie{{From: [2]float64{200, 200}, To: [2]float64{201, 200}, Width: 1}}
	l, _ := report(t, d)
	got, err := ties.Propose(l)
	if err != nil || len(got) < 3 || got[0] != d.Ties[0] {
		t.Errorf("%v (%v)", got, err)
	}
	d.Ties = []draft.Tie{{Silhouette: "s", From: [2]float64{5, 0}, To: [2]float64{25, 0}, Width: 4}}
	l, _ = report(t, d)
	if got, err = ties.Propose(l); err != nil || !slices.Equal(got, d.Ties) {
		t.Errorf("a ring that is tied gets %v (%v)", got, err)
	}
}

// The ties of a large island are spread round it: no two of a square's stand within a quarter of an even share.
func TestTiesAreSpread(t *testing.T) {
	d := one(outline(orb.Polygon{box(-50, -50, 50, 50), box(-40, -40, 40, 40)}), "p1", 150)
	l, _ := report(t, d)
	got, err := ties.Propose(l)
	if err != nil {
		t.Fatal(err)
	}
	var angles []float64
	for _, tie := range got {
		angles = append(angles, math.Atan2(tie.From[1]+tie.To[1], tie.From[0]+tie.To[0]))
		if tie.Length() > 10+4 || tie.Length() < 10 {
			t.Errorf("a tie across 10 mm is %g mm long", tie.Length())
		}
	}
	slices.Sort(angles)
	for k, a := range angles {
		next := angles[(k+1)%len(angles)]
		if gap := math.Mod(next-a+4*math.Pi, 2*math.Pi); gap < 2*math.Pi/float64(len(angles))/3 {
			t.Errorf("ties at %v stand too close", angles)
		}
	}
}

// An island round which there is no sheet that is held has no tie, and the error says where it is.
func TestProposeSaysWhatCannotBeTied(t *testing.T) {
	d := one(outline(orb.Polygon{box(-300, -300, 300, 300), ellipse(0, 0, 10, 10, 40)}), "p1", 1000)
	d.Field.Edge = draft.Touching
	l, before := report(t, d)
	if before.Counts.Islands != 1 {
		t.Fatalf("%d islands", before.Counts.Islands)
	}
	if got, err := ties.Propose(l); err == nil ||
		err.Error()[:48] != "the piece of sheet at (120.0, 120.0) mm, which w" {
		t.Errorf("%v, %v", got, err)
	}
}
