package mends

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/pattern/symmetry"
)

// circle is a circle of corners, clockwise where its radius is negative.
func circle(c orb.Point, radius float64) orb.Ring {
	const n = 36
	var out orb.Ring
	for i := range n {
		sin, cos := math.Sincos(math.Copysign(2*math.Pi*float64(i)/n, radius))
		out = append(out, orb.Point{c[0] + math.Abs(radius)*cos, c[1] + math.Abs(radius)*sin})
	}
	return append(out, out[0])
}

// pierced is a disc with one to three holes, now and then with a disc in a hole.
func pierced(r *rand.Rand) orb.MultiPolygon {
	polygon := orb.Polygon{circle(orb.Point{}, 28)}
	turn := r.Float64()
	n := 1 + r.IntN(3)
	out := orb.MultiPolygon{nil}
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * (turn + float64(i)/float64(n)))
		at := orb.Point{15 * cos, 15 * sin}
		size := 4 + 4*r.Float64()
		polygon = append(polygon, circle(at, -size))
		if size > 7 {
			out = append(out, orb.Polygon{circle(at, 2)})
		}
	}
	out[0] = polygon
	return geometry.SnapOutline(out)
}

// horseshoe is a ring with a slit through it, narrower or wider than a bridge of 3 mm.
func horseshoe(r *rand.Rand) orb.MultiPolygon {
	const outer, inner = 26.0, 12.0
	half := 0.3 + 1.6*r.Float64()
	var ring orb.Ring
	arc := func(radius float64, from, to float64) {
		for i := range 41 {
			sin, cos := math.Sincos(from + (to-from)*float64(i)/40)
			ring = append(ring, orb.Point{radius * cos, radius * sin})
		}
	}
	arc(outer, math.Asin(half/outer), 2*math.Pi-math.Asin(half/outer))
	arc(inner, 2*math.Pi-math.Asin(half/inner), math.Asin(half/inner))
	return geometry.SnapOutline(orb.MultiPolygon{{append(ring, ring[0])}})
}

// Holes that are filled and gaps that are closed do what was announced of them, on random drafts; the middle of what
// was filled is no island any more, and one step back undoes each.
func TestHolesAndGapsKeepTheirWord(t *testing.T) {
	const seed = 1616
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 9))
	groups := symmetry.Groups()
	offered := map[string]int{}
	for n := range 24 {
		d := draft.Default()
		d.Panel = draft.Panel{Width: 200 + 80*r.Float64(), Height: 200}
		size := 90 + 90*r.Float64()
		d.Repeat = draft.Repeat{Group: groups[n%len(groups)].Symbol, A: size, B: size, Gamma: 90}
		if g, err := symmetry.Find(d.Repeat.Group); err == nil && g.System == symmetry.Hexagonal {
			d.Repeat.Gamma = 120
		}
		d.Field.Edge = []draft.Edge{draft.Whole, draft.Crop}[n%4/3]
		outline := pierced(r)
		if n%2 == 1 {
			outline = horseshoe(r)
		}
		d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Seal", Outline: outline}}
		d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 0.5 + 0.4*r.Float64(), Turn: 360 * r.Float64(),
			At: [2]float64{size * r.Float64() / 2, size * r.Float64() / 2}}}

		l, report := checked(t, d)
		list, err := Offer(l, report, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range list {
			what := m.Command.Text
			if m.Command.Name != "redraw" || what != pattern.Filled && what != pattern.Closed {
				continue
			}
			offered[what]++
			h := pattern.NewHistory(d)
			if err := h.Do(m.Command); err != nil {
				t.Fatal(err)
			}
			next := h.Draft()
			_, then := checked(t, next)
			want := sheet.NewMend(m.Command, report, then)
			want.Changed = m.Changed
			if !reflect.DeepEqual(m, want) || !sheet.Lessens(report, then) {
				t.Errorf("draft %d, %s: announced %+v; it is %+v", n, what, m, want)
			}

			before, after := d.Silhouettes[0].Outline, next.Silhouettes[0].Outline
			if geometry.Area(after) <= geometry.Area(before) {
				t.Errorf("draft %d, %s: %.2f mm² became %.2f", n, what, geometry.Area(before), geometry.Area(after))
			}
			was, is := report.Of(sheet.Island, sheet.Fault).Count, then.Of(sheet.Island, sheet.Fault).Count
			if what == pattern.Filled && is >= was {
				t.Errorf("draft %d: %d islands, and none less with a hole filled", n, report.Counts.Islands)
			}
			if what == pattern.Closed && len(geometry.Rings(after)) > len(geometry.Rings(before)) {
				t.Errorf("draft %d: the gap that was closed left a middle that drops out", n)
			}
			if h.UndoLabel() == "outline" || !h.Undo() || !reflect.DeepEqual(h.Draft(), d) {
				t.Errorf("draft %d, %s: one step back does not undo it", n, what)
			}
		}
	}
	t.Logf("offered %v", offered)
	if offered[pattern.Filled] < 10 || offered[pattern.Closed] < 4 {
		t.Errorf("too little was offered to say much: %v", offered)
	}
}

// The middle of a ring drops out: beside ties it is offered to fill the hole, and of a ring whose slit is too narrow to
// close the gap, with what it closes in.
func TestFillsStandBesideTies(t *testing.T) {
	d := patternDemo(t)
	d.Silhouettes[0].Outline = orb.MultiPolygon{{circle(orb.Point{}, 20), circle(orb.Point{}, -9)}}
	l, report := checked(t, d)
	list, err := Offer(l, report, nil)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]sheet.Mend{}
	for _, m := range list {
		found[m.Command.Name+" "+m.Command.Text] = m
	}
	if _, ok := found["ties "]; !ok {
		t.Errorf("no ties are offered: %v", found)
	}
	if m, ok := found["redraw fill"]; !ok || !m.Sound || len(m.Command.Outline[0]) != 1 {
		t.Errorf("it is not offered to fill the hole, or it would not hold: %+v", m)
	}

	slit := rand.New(rand.NewPCG(1, 1))
	d.Silhouettes[0].Outline = horseshoe(slit)
	l, report = checked(t, d)
	if list, err = Offer(l, report, nil); err != nil {
		t.Fatal(err)
	}
	closes := 0
	for _, m := range list {
		if m.Command.Text != pattern.Closed {
			continue
		}
		closes++
		disc := math.Pi * 26 * 26
		if a := geometry.Area(m.Command.Outline); !m.Sound || math.Abs(a-disc) > 0.02*disc {
			t.Errorf("closed, the horseshoe has %.0f mm² of a disc's %.0f, and holds: %v", a, disc, m.Sound)
		}
	}
	if closes != 1 {
		t.Errorf("%d gaps are offered to be closed: %v", closes, report.Totals)
	}
}
