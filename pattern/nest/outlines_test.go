package nest

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Outlines whose place in each other is known lie on one sheet where their boxes take two or more: exactly where they
// meet along rows, and otherwise with the height of a row more.
func TestPackByOutlinesKnown(t *testing.T) {
	var cases []laidCase
	for _, c := range []struct {
		name          string
		stock         Stock
		pieces        []Piece
		boxes, sheets int
	}{
		{"two triangles", Stock{Width: 301, Height: 201}, []Piece{triangle.times(2)}, 2, 1},
		{"and a space between, from the edge", Stock{Width: 322, Height: 219, Edge: 5, Space: 3},
			[]Piece{triangle.times(2)}, 2, 1},
		// On 312 × 209 mm they can be at most (12 · 200 + 9 · 300) / √(200² + 300²) = 14.14 mm apart.
		{"as wide a space as there may be", Stock{Width: 322, Height: 219, Edge: 5, Space: 13},
			[]Piece{triangle.times(2)}, 2, 1},
		{"too wide a space", Stock{Width: 322, Height: 219, Edge: 5, Space: 15}, []Piece{triangle.times(2)}, 2, 2},
		{"not to be turned", Stock{Width: 322, Height: 219, Edge: 5, Space: 3},
			[]Piece{{Width: 300, Height: 200, Count: 2, Upright: true, Outline: triangle.Outline}}, 2, 2},
		{"two corners", Stock{Width: 400, Height: 200}, []Piece{corner.times(2)}, 2, 1},
		{"two corners, upright stock", Stock{Width: 200, Height: 400}, []Piece{corner.times(2)}, 2, 1},
		{"a corner and its block", Stock{Width: 301, Height: 201},
			[]Piece{corner, {Width: 200, Height: 100, Count: 1}}, 2, 1},
		{"four tees", Stock{Width: 404, Height: 404}, []Piece{tee.times(4)}, 2, 1},
		{"corners and tees", Stock{Width: 405, Height: 606}, []Piece{corner.times(2), tee.times(4)}, 2, 1},
		{"no more stock", Stock{Width: 301, Height: 201, Count: 1}, []Piece{triangle.times(4)}, 1, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			n, err := Pack(c.stock, c.pieces)
			if err != nil || len(n.Sheets) != c.sheets || n.Bound > len(n.Sheets) && c.stock.Count == 0 {
				t.Fatalf("%d sheets, want %d, %d at least: %v", len(n.Sheets), c.sheets, n.Bound, err)
			}
			cases = append(cases, laidCase{c.stock, c.pieces, n.Sheets})
			for i, p := range c.pieces {
				got := n.Left[i]
				for _, s := range n.Sheets {
					for _, q := range s {
						if q.Piece != i {
							continue
						}
						got++
						if q.Turned != (q.Turns()%2 == 1) || q.Turns() < 0 || q.Turns() > 3 || q.Quarters == 1 ||
							p.Upright && q.Turns() != 0 {
							t.Errorf("it lies as %+v", q)
						}
					}
				}
				if got != p.Count {
					t.Errorf("%d of piece %d are laid or left, of %d", got, i, p.Count)
				}
			}

			boxes := make([]Piece, len(c.pieces))
			for i, p := range c.pieces {
				boxes[i] = p
				boxes[i].Outline = nil
			}
			if n, err := Pack(c.stock, boxes); err != nil || len(n.Sheets) != c.boxes {
				t.Errorf("%d sheets by boxes, want %d: %v", len(n.Sheets), c.boxes, err)
			}
		})
	}
	geosSays(t, cases)
}

// A sheet cut into parts along lines that wave is put together again on stock a little larger, where the parts' boxes
// take two sheets.
func TestPackFindsWhatWasCutAlongWaves(t *testing.T) {
	const seed = 17
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var cases []laidCase
	one, all := 0, 8
	for k := range all {
		s := Stock{Width: 914, Height: 614, Edge: 2, Space: 1}
		pieces := wavy(r, 900, 600, 2+k%2, 2)
		n, err := Pack(s, pieces)
		if err != nil {
			t.Fatal(err)
		}
		if len(n.Sheets) == 1 {
			one++
		}
		cases = append(cases, laidCase{s, pieces, n.Sheets})
	}
	t.Logf("%d of %d are put together again", one, all)
	if one < all/2 {
		t.Errorf("only %d of %d are put together again", one, all)
	}
	geosSays(t, cases)
}

// Random pieces, jagged ones and rectangles: GEOS finds that none overlap, and that they keep space and edge; they take
// no more sheets than by their boxes, and no fewer than their bound.
func TestPackByOutlinesWithGEOS(t *testing.T) {
	const seed = 23
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var cases []laidCase
	fewer, byBoxes, taken := 0, 0, 0
	for range 7 {
		s := Stock{Width: 500 + 500*r.Float64(), Height: 400 + 400*r.Float64(), Edge: float64(r.IntN(9)),
			Space: float64(r.IntN(6))}
		if r.IntN(4) == 0 {
			s.Count = 1 + r.IntN(2)
		}
		var pieces, boxes []Piece
		for range 2 + r.IntN(4) {
			corners := 3 + r.IntN(9)
			var points []orb.Point
			for k := range corners {
				a := 2 * math.Pi * (float64(k) + 0.6*r.Float64()) / float64(corners)
				d := 60 + 110*r.Float64()
				points = append(points, orb.Point{d * math.Cos(a), d * math.Sin(a)})
			}
			p := piece(points...).times(1 + r.IntN(4))
			if r.IntN(4) == 0 {
				p.Outline = nil
			}
			p.Upright = r.IntN(4) == 0
			pieces = append(pieces, p)
			p.Outline = nil
			boxes = append(boxes, p)
		}
		n, err := Pack(s, pieces)
		if err != nil {
			t.Fatal(err)
		}
		m, err := Pack(s, boxes)
		if err != nil {
			t.Fatal(err)
		}
		left, leftByBoxes := 0, 0
		for i := range n.Left {
			left, leftByBoxes = left+n.Left[i], leftByBoxes+m.Left[i]
		}
		if left > leftByBoxes || left == leftByBoxes && len(n.Sheets) > len(m.Sheets) ||
			left == 0 && len(n.Sheets) < n.Bound || n.Bound > m.Bound || n.Share > 1 {
			t.Errorf("%+v: %d sheets and %d left, by boxes %d and %d; bound %d", s, len(n.Sheets), left, len(m.Sheets),
				leftByBoxes, n.Bound)
		}
		if len(n.Sheets) < len(m.Sheets) || left < leftByBoxes {
			fewer++
		}
		byBoxes, taken = byBoxes+len(m.Sheets), taken+len(n.Sheets)
		cases = append(cases, laidCase{s, pieces, n.Sheets})
	}
	t.Logf("%d sheets, by boxes %d; better %d times of %d", taken, byBoxes, fewer, len(cases))
	if fewer == 0 {
		t.Error("outlines are never of use")
	}
	geosSays(t, cases)
}

// An outline that is its box, or nearly, changes nothing.
func TestPackBoxesAsBoxes(t *testing.T) {
	const seed = 29
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for range 6 {
		s, pieces := random(r)
		want, err := Pack(s, pieces)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range pieces {
			pieces[i].Outline = piece(orb.Point{0, 0}, orb.Point{p.Width, 0}, orb.Point{p.Width, p.Height},
				orb.Point{0, p.Height}).Outline
		}
		got, err := Pack(s, pieces)
		got.Share = want.Share // a ring's area is rounded otherwise
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%+v: %v", s, err)
		}
	}
}

func TestPackRefusesOutlines(t *testing.T) {
	for want, ring := range map[string]orb.Ring{
		"is not closed":                      {{0, 0}, {10, 0}, {0, 10}, {0, 5}},
		"leaves its box of 10 × 10 mm at (1": {{0, 0}, {12, 0}, {0, 10}, {0, 0}},
		"(NaN":                               {{0, 0}, {math.NaN(), 0}, {0, 10}, {0, 0}},
	} {
		p := Piece{Name: "Heron", Width: 10, Height: 10, Count: 1, Outline: []orb.Ring{ring}}
		_, err := Pack(Stock{Width: 50, Height: 50}, []Piece{p})
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v: %v", ring, err)
		}
	}
}

// Rows hold all of what an outline covers, grown, and at most the height of a row more: points drawn at random, and
// their distance from the outline by trying every edge.
func TestRowsHoldTheGrownOutline(t *testing.T) {
	const seed = 31
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for _, p := range []Piece{triangle, corner, tee, wavy(r, 400, 300, 2, 2)[1]} {
		const step, space = 2.5, 6.0
		f := newForm(p, 0, false, space, step)
		ring := p.Outline[0]
		mp := geometry.NewShape(orb.MultiPolygon{{ring}})
		more := 0.0
		for range 4000 {
			v := orb.Point{(p.Width+space)*r.Float64() - space/2, (p.Height+space)*r.Float64() - space/2}
			away := math.Inf(1)
			for i := range ring[1:] {
				a, d := ring[i], geometry.Sub(ring[i+1], ring[i])
				s := math.Max(0, math.Min(1, geometry.Dot(geometry.Sub(v, a), d)/geometry.Dot(d, d)))
				away = math.Min(away, geometry.PointDistance(v, geometry.Add(a, geometry.Times(d, s))))
			}
			if mp.Contains(v) {
				away = 0
			}
			row := f.rows[int((v[1]+space/2)/step)]
			in := false
			for _, s := range row {
				in = in || v[0]+space/2 >= s.from && v[0]+space/2 <= s.to
			}
			if !in && away < space/2-1e-6 {
				t.Fatalf("%v, %g mm from the outline, is not in its row", v, away)
			}
			if in {
				more = math.Max(more, away-space/2)
			}
		}
		if more > step {
			t.Errorf("rows reach %g mm beyond the grown outline, and are %g high", more, step)
		}
	}
}
