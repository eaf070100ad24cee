package ties_test

import (
	"encoding/binary"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/symmetry"
)

// areaSlack in mm² for each opening: the overlay's grid of 1e-8 mm along an outline of some 100 mm, and its sums.
const areaSlack = 1e-5

// leastSide in mm is how narrow and how short a tie is here at the least. A draft may have narrower ones, down to
// MinTie; beside a hairline the search for room for a disc (geometry.Shape.NarrowestJoin) takes as many squares as the
// hairline is longer than wide, two thousandfold, and the check has no bound worth the name.
const leastSide = 0.3

// FuzzTiesOnThePanel lays random drafts with ties of the field and of silhouettes: small, long, outside, along an edge,
// across many copies. A draft that is valid with them is laid out and checked without an error. Nothing more is open
// for them, but for copies that the edge rule keeps only less a tie of their silhouette. With ties of the field alone
// the open area is that of all openings less all ties, taken off in one go.
func FuzzTiesOnThePanel(f *testing.F) {
	for seed := range uint64(8) {
		f.Add(seed, uint8(seed*5), binary.LittleEndian.AppendUint64(nil, seed*0x9e3779b97f4a7c15))
	}
	f.Fuzz(func(t *testing.T, seed uint64, group uint8, data []byte) {
		groups := symmetry.Groups()
		d := patterntest.Draft(rand.New(rand.NewPCG(seed, 7)), groups[int(group)%len(groups)].Symbol)
		d.Panel.Width, d.Panel.Height = math.Min(d.Panel.Width, 40), math.Min(d.Panel.Height, 40)
		if err := d.Check(); err != nil {
			t.Fatal(err)
		}
		before := measured(t, d)
		d.Ties = tiesOf(d, data)
		if err := d.Check(); err != nil {
			if !strings.HasPrefix(err.Error(), "ties[") {
				t.Fatalf("ties make the draft invalid elsewhere: %v", err)
			}
			return
		}
		l := laid(t, d)
		after, err := panel.Measure(l)
		if err != nil {
			t.Fatalf("%+v: %v", d.Ties, err)
		}
		if d.Field.Edge == draft.Crop && after.OpenArea > before.OpenArea+areaSlack {
			t.Errorf("%+v: %g mm² are open, and were %g", d.Ties, after.OpenArea, before.OpenArea)
		}
		for _, tie := range d.Ties {
			if tie.Silhouette != "" {
				return
			}
		}
		bare := d
		bare.Ties = nil
		openings, err := panel.Openings(laid(t, bare))
		if err != nil {
			t.Fatal(err)
		}
		var all orb.MultiPolygon
		for _, o := range openings {
			all = append(all, geometry.Transform(o.Shape.Outline(), geometry.Translate(o.Shift[0], o.Shift[1]))...)
		}
		if len(all) == 0 {
			return
		}
		rects, err := l.TiesIn(all.Bound())
		if err != nil {
			return // too many to lay, and said so
		}
		rest, err := overlay.Difference(all, rects)
		if err != nil {
			t.Fatal(err)
		}
		if want, slack := geometry.Area(rest), areaSlack*float64(1+len(all)); math.Abs(after.OpenArea-want) > slack {
			t.Errorf("%+v: %.9g mm² are open, and all openings less all ties are %.9g", d.Ties, after.OpenArea, want)
		}
	})
}

// tiesOf makes up to four ties of a draft from bytes: eight for each.
func tiesOf(d draft.Draft, data []byte) (out []draft.Tie) {
	for ; len(data) >= 8 && len(out) < 4; data = data[8:] {
		r := rand.New(rand.NewPCG(binary.LittleEndian.Uint64(data), 3))
		tie := draft.Tie{From: [2]float64{30*r.Float64() - 5, 30*r.Float64() - 5}}
		if data[0]%2 == 1 {
			tie.Silhouette = d.Silhouettes[int(data[1])%len(d.Silhouettes)].ID
			tie.From = [2]float64{10*r.Float64() - 5, 10*r.Float64() - 5}
			ring := d.Silhouettes[int(data[1])%len(d.Silhouettes)].Outline[0][0]
			if data[2]%4 == 0 { // from a corner of its outline
				tie.From = ring[int(data[3])%len(ring)]
			}
		}
		length := []float64{leastSide, 0.7, 1, 4, 12, 60}[int(data[4])%6]
		s, c := math.Sincos(2 * math.Pi * r.Float64())
		if data[5]%3 == 0 {
			s, c = 0, 1
		}
		tie.To = [2]float64{tie.From[0] + length*c, tie.From[1] + length*s}
		tie.Width = []float64{leastSide, 0.5, 0.7, 1, 3, 20}[int(data[6])%6]
		for k := range 2 {
			tie.From[k], tie.To[k] = geometry.Snap(tie.From[k]), geometry.Snap(tie.To[k])
		}
		out = append(out, tie)
	}
	return out
}

func laid(t *testing.T, d draft.Draft) *pattern.Layout {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatalf("%+v: %v", d.Ties, err)
	}
	return l
}

func measured(t *testing.T, d draft.Draft) (r struct{ OpenArea float64 }) {
	t.Helper()
	got, err := panel.Measure(laid(t, d))
	if err != nil {
		t.Fatal(err)
	}
	r.OpenArea = got.OpenArea
	return r
}
