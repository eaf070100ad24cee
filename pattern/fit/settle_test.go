package fit

import (
	"errors"
	"math"
	"testing"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// A motif let go over its own copies comes to rest where all keep the bridge, not far away, as GEOS finds it too.
func TestSettle(t *testing.T) {
	r := randomSource(t)
	var answers []Answer
	settled := 0
	for _, g := range symmetry.Groups() {
		mp, _ := randomTile(r, "p1", 3)
		d := draftWith(g.Symbol, 3, mp)
		// Anywhere in a roomy cell: often on a mirror or a rotation point.
		d.Motifs[0].At = [2]float64{d.Repeat.A * r.Float64(), d.Repeat.B * r.Float64()}
		m, err := Settle(d, "m1")
		if err != nil {
			if !errors.Is(err, ErrNoPlace) {
				t.Fatal(g.Symbol, err)
			}
			continue
		}
		settled++
		if m.Turn != d.Motifs[0].Turn || m.Scale != 1 || m.Mirrored {
			t.Errorf("%s: more than the place changed: %+v", g.Symbol, m)
		}
		if far := math.Hypot(m.At[0]-d.Motifs[0].At[0], m.At[1]-d.Motifs[0].At[1]); far > d.Repeat.A/2 {
			t.Errorf("%s: moved %.1f mm in a cell of %.1f mm", g.Symbol, far, d.Repeat.A)
		}
		d.Motifs = []draft.Motif{m}
		narrowest, cut, l, err := judge(d, everyMotif, nil)
		if err != nil || cut {
			t.Fatalf("%s: copies meet (%v)", g.Symbol, err)
		}
		answers = append(answers, Answer{Group: g.Symbol, Find: nearby, Draft: d, Narrowest: narrowest.D,
			Cover: geometry.Area(mp) * float64(len(g.Ops)) / l.Cell.Area()})
	}
	if settled < 12 {
		t.Errorf("only %d of 17 settled", settled)
	}
	judged(t, answers)
}
