package pattern_test

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

// tiedDraft is a square of 20 mm with a hole, laid once, with a tie of its own and one of the field.
func tiedDraft() draft.Draft {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p2", A: 100, B: 80, Gamma: 75}
	d.Silhouettes = []draft.Silhouette{
		{ID: "frame", Name: "Frame", Outline: geometry.Orient(orb.MultiPolygon{{
			{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}, {-10, -10}},
			{{-4, -4}, {-4, 4}, {4, 4}, {4, -4}, {-4, -4}}}})},
		{ID: "leaf", Name: "Leaf", Outline: orb.MultiPolygon{{{{0, 0}, {9, 0}, {0, 5}, {0, 0}}}}},
	}
	d.Motifs = []draft.Motif{{ID: "m1", Silhouette: "frame", At: [2]float64{20, 30}, Scale: 1},
		{ID: "m2", Silhouette: "leaf", At: [2]float64{60, 10}, Scale: 1}}
	d.Ties = []draft.Tie{{Silhouette: "frame", From: [2]float64{0, 3}, To: [2]float64{0, 11}, Width: 3},
		{From: [2]float64{55, 5}, To: [2]float64{62, 14}, Width: 2.5}}
	return d
}

func TestTiesInTheFile(t *testing.T) {
	d := tiedDraft()
	text := d.Encode()
	if !strings.Contains(string(text), `"ties": [
    {"silhouette": "frame", "from": [0, 3], "to": [0, 11], "width": 3},
    {"silhouette": null, "from": [55, 5], "to": [62, 14], "width": 2.5}
  ],`) {
		t.Errorf("written as %s", text)
	}
	back, err := draft.DecodeBytes(text)
	if err != nil || !reflect.DeepEqual(back.Ties, d.Ties) || string(back.Encode()) != string(text) {
		t.Errorf("%v, %v", back.Ties, err)
	}
	d.Ties = nil
	if strings.Contains(string(d.Encode()), "ties") {
		t.Error("a draft without ties speaks of ties")
	}
	for _, c := range []struct{ old, new, want string }{
		{`"silhouette": null, "from"`, `"from"`, "ties[1].silhouette: missing"},
		{`"silhouette": null`, `"silhouette": ""`,
			"ties[1].silhouette: an id must not be empty; null stands for the field"},
		{`"silhouette": null`, `"silhouette": nullo`, "ties[1].silhouette: not a text in quotes"},
		{`"silhouette": null`, `"silhouette": 7`, "ties[1].silhouette: not a text in quotes, but the number 7"},
		{`"silhouette": null`, `"silhouette": "heron"`,
			`ties[1].silhouette: no silhouette is called "heron"; there are "frame", "leaf"`},
		{`"from": [55, 5]`, `"from": [55]`, "ties[1].from: a point has two numbers"},
		{`"from": [55, 5]`, `"from": [55, NaN]`, "ties[1].from[1]: not a number"},
		{`"from": [55, 5]`, `"from": [55, 2000000]`, "ties[1].from[1]: 2e+06 is out of range"},
		{`"to": [62, 14]`, `"to": [55, 5]`, "ties[1].to: the tie's ends lie on one place"},
		{`"to": [62, 14], `, ``, "ties[1].to: missing"},
		{`"width": 2.5`, `"width": 0`, "ties[1].width: 0 is out of range; it may be from 0.0001 to 100000 mm"},
		{`"width": 2.5`, `"width": -1`, "ties[1].width: -1 is out of range"},
		{`"width": 2.5`, `"width": 1e9`, "ties[1].width: 1e+09 is out of range"},
		{`"width": 2.5`, `"width": "wide"`, "ties[1].width: not a number"},
		{`"width": 2.5`, `"breadth": 2.5`, "ties[1].breadth: not a key of a draft"},
		{`"to": [0, 11], "width": 3`, `"to": [0, 11], "width": 90`, ""},
		{`"from": [0, 3], "to": [0, 11], "width": 3`, `"from": [0, -30], "to": [0, 30], "width": 90`,
			"ties[0]: the ties leave nothing of their silhouette"},
	} {
		t.Run(cmp.Or(c.want, "as it is read"), func(t *testing.T) {
			_, err := draft.DecodeBytes([]byte(strings.Replace(string(text), c.old, c.new, 1)))
			var place *draft.PlaceError
			if c.want == "" {
				if err != nil {
					t.Errorf("%s: %v", c.new, err)
				}
			} else if !errors.As(err, &place) || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("%s: got %v, want %s", c.new, err, c.want)
			}
		})
	}
	many := tiedDraft()
	for len(many.Ties) <= draft.MaxTies {
		many.Ties = append(many.Ties, many.Ties[1])
	}
	if err := many.Check(); err == nil || !strings.HasPrefix(err.Error(),
		"ties: there are 2001; a draft holds up to 2000") {
		t.Error(err)
	}
	if _, err := draft.DecodeBytes(many.Encode()); err == nil ||
		!strings.HasPrefix(err.Error(), "ties: there are more than 2000 ties") {
		t.Error(err)
	}
}

// Going through any groups and returning gives back the same ties, to the last digit; one that was moved on the way is
// carried.
func TestTiesThroughGroups(t *testing.T) {
	const seed = 37
	r := rand.New(rand.NewPCG(seed, 0))
	all := symmetry.Groups()
	for n := range 170 {
		from := all[n%17].Symbol
		d := patterntest.Draft(r, from)
		for range 3 {
			p := d.Repeat.Cell().Basis().Apply(orb.Point{3*r.Float64() - 1, 3*r.Float64() - 1})
			d.Ties = append(d.Ties, draft.Tie{From: [2]float64{geometry.Snap(p[0]), geometry.Snap(p[1])},
				To: [2]float64{geometry.Snap(p[0] + 8), geometry.Snap(p[1] + 5*r.Float64())}, Width: 2})
		}
		d.Ties[1].Silhouette, d.Ties[1].From, d.Ties[1].To, d.Ties[1].Width = d.Silhouettes[0].ID, [2]float64{0, 0},
			[2]float64{9, 1}, 0.5
		was := string(d.Encode())
		through := d
		groups := []string{}
		for range 1 + r.IntN(4) {
			groups = append(groups, all[r.IntN(17)].Symbol)
			through = do(t, through, pattern.Command{Name: "group", Text: groups[len(groups)-1]})
		}
		// Cell fractions are kept on the way, to the draft's grid.
		for _, end := range []func(draft.Draft) [2]float64{func(d draft.Draft) [2]float64 { return d.Ties[0].From },
			func(d draft.Draft) [2]float64 { return d.Ties[2].To }} {
			a, b := inCell(d, end(d)), inCell(through, end(through))
			if math.Hypot(a[0]-b[0], a[1]-b[1]) > 1e-4 {
				t.Fatalf("seed %d, draft %d through %v: an end at %v of the cell came to %v", seed, n, groups, a, b)
			}
		}
		if through.Ties[1] != d.Ties[1] {
			t.Fatalf("a silhouette's tie moved with the cell")
		}
		back := do(t, through, pattern.Command{Name: "group", Text: from})
		if string(back.Encode()) != was {
			t.Errorf("seed %d, draft %d: from %s through %v and back it is another", seed, n, from, groups)
		}
		// One tie moved, one taken away: the rest comes back all the same.
		moved := do(t, through, pattern.Command{Name: "retie", Values: value("index", 2.0, "fromX", 1.0, "fromY", 2.0)})
		moved = do(t, moved, pattern.Command{Name: "untie", Values: value("index", 1.0)})
		back = do(t, moved, pattern.Command{Name: "group", Text: from})
		if through.Repeat.Group != from && (back.Ties[0] != d.Ties[0] || back.Ties[1] == d.Ties[2]) {
			t.Errorf("seed %d, draft %d through %v: ties %v, were %v", seed, n, groups, back.Ties, d.Ties)
		}
	}
}

func inCell(d draft.Draft, p [2]float64) orb.Point {
	inv, _ := d.Repeat.Cell().Basis().Inverse()
	return inv.Apply(p)
}

// A silhouette's tie is in every copy, whatever its place and scale; on a rotation point and on mirrors one place has
// the ties of all copies that coincide there.
func TestSilhouetteTies(t *testing.T) {
	ring := orb.MultiPolygon{{circle(20, 120), circle(10, 120)}}
	for _, c := range []struct {
		group  string
		at     [2]float64
		images int // of the motif in a cell
		ties   int // on each
	}{
		{"p1", [2]float64{10, 20}, 1, 1}, {"p2", [2]float64{0, 0}, 1, 2}, {"p2", [2]float64{25, 20}, 2, 1},
		{"p2mm", [2]float64{0, 0}, 1, 4},
		{"p2mm", [2]float64{0, 25}, 2, 2}, {"pm", [2]float64{0, 13}, 1, 2}, {"p4", [2]float64{0, 0}, 1, 4},
		{"p4mm", [2]float64{0, 0}, 1, 8},
		{"p4mm", [2]float64{50, 0}, 2, 4}, {"p3", [2]float64{0, 0}, 1, 3}, {"p6mm", [2]float64{0, 0}, 1, 12},
		{"cm", [2]float64{0, 7}, 2, 2},
	} {
		t.Run(fmt.Sprintf("%+v", c), func(t *testing.T) {
			d := draft.Default()
			d.Repeat = draft.Repeat{Group: c.group, A: 100, B: 100, Gamma: 90}
			if c.group[1] == '3' || c.group[1] == '6' {
				d.Repeat.Gamma = 120
			}
			d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "S", Outline: geometry.Orient(ring)}}
			d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: c.at, Scale: 0.75}}
			s, cos := math.Sincos(13 * math.Pi / 180) // on no mirror
			d.Ties = []draft.Tie{{Silhouette: "s", From: [2]float64{9 * cos, 9 * s}, To: [2]float64{22 * cos, 22 * s},
				Width: 1}}
			shapes := pattern.NewShapes()
			l, err := pattern.NewLayout(d, shapes)
			if err != nil {
				t.Fatal(err)
			}
			o := l.Orbits[0]
			if len(o.Images) != c.images {
				t.Errorf("%s at %v: %d images, want %d", c.group, c.at, len(o.Images), c.images)
			}
			bare := geometry.Area(d.Silhouettes[0].Outline)
			if math.Abs(o.Bare.Area()-bare) > 1e-9 {
				t.Errorf("the bare silhouette has %g mm², want %g", o.Bare.Area(), bare)
			}
			// A tie covers 10 mm of 1 mm, but for the bends of the circles.
			if gone := bare - o.Shape.Area(); math.Abs(gone-10*float64(c.ties)) > 0.03*float64(c.ties) {
				t.Errorf("%s at %v: %.3f mm² are tied, want %d ties of 10", c.group, c.at, gone, c.ties)
			}
			for _, i := range o.Images {
				if math.Abs(i.Shape.Area()-o.Shape.Area()*0.75*0.75) > 1e-6 {
					t.Errorf("an image has %g mm² open", i.Shape.Area())
				}
			}
			again, _ := pattern.NewLayout(d, shapes)
			if again.Orbits[0].Shape != o.Shape {
				t.Errorf("the outline is cut twice")
			}
		})
	}
	// Nothing of it is left where it has all ties.
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p4", A: 100, B: 100, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "S", Outline: orb.MultiPolygon{{circle(20, 40)}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	d.Ties = []draft.Tie{{Silhouette: "s", From: [2]float64{-1, 0}, To: [2]float64{30, 0}, Width: 60}}
	var place *draft.PlaceError
	if _, err := pattern.NewLayout(d, nil); !errors.As(err, &place) || place.Place != "ties[0]" {
		t.Errorf("got %v", err)
	}
}

func circle(radius float64, n int) orb.Ring {
	var r orb.Ring
	for k := range n {
		s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		r = append(r, orb.Point{radius * c, radius * s})
	}
	return append(r, r[0])
}

// TiesIn gives every image of the field's ties once: as many in a window of many cells as the operations say, fewer
// where a tie lies on a mirror or a rotation point.
func TestTiesInTheField(t *testing.T) {
	for _, c := range []struct {
		group   string
		from    [2]float64
		to      [2]float64
		perCell float64
	}{
		{"p1", [2]float64{3, 4}, [2]float64{9, 5}, 1}, {"p2", [2]float64{3, 4}, [2]float64{9, 5}, 2},
		{"p2", [2]float64{-3, -1}, [2]float64{3, 1}, 1},
		{"p4mm", [2]float64{3, 4}, [2]float64{9, 5}, 8}, {"p4mm", [2]float64{3, 0}, [2]float64{9, 0}, 4},
		{"p4mm", [2]float64{-3, 0}, [2]float64{3, 0}, 2},
		{"p6mm", [2]float64{3, 4}, [2]float64{9, 5}, 12}, {"cm", [2]float64{3, 4}, [2]float64{9, 5}, 4},
		{"pm", [2]float64{-2, 6}, [2]float64{2, 6}, 1},
	} {
		t.Run(fmt.Sprintf("%+v", c), func(t *testing.T) {
			d := draft.Default()
			d.Repeat = draft.Repeat{Group: c.group, A: 40, B: 40, Gamma: 90}
			if c.group[1] == '6' {
				d.Repeat.Gamma = 120
			}
			d.Field.Turn = 30
			d.Ties = []draft.Tie{{From: c.from, To: c.to, Width: 1.5}}
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			const side = 1500.0
			got, err := l.TiesIn(orb.Bound{Max: orb.Point{side, side}})
			if err != nil {
				t.Fatal(err)
			}
			want := side * side / l.Cell.Area() * c.perCell
			if n := float64(len(got)); math.Abs(n-want) > 0.06*want {
				t.Errorf("%g images, want about %g", n, want)
			}
			area := d.Ties[0].Length() * 1.5
			for _, p := range got {
				if a := geometry.RingArea(p[0]); math.Abs(a-area) > 1e-6 {
					t.Fatalf("an image has %g mm², the tie %g", a, area)
				}
			}
			one, err := l.TiesIn(orb.Bound{Min: got[0][0][0], Max: got[0][0][0]}.Pad(0.01))
			if err != nil || len(one) == 0 {
				t.Errorf("none at the corner of one (%v)", err)
			}
		})
	}
	d := tiedDraft()
	d.Repeat = draft.Repeat{Group: "p6mm", A: 1, B: 1, Gamma: 120}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := l.TiesIn(d.PanelBound()); err == nil ||
		!strings.HasPrefix(err.Error(), "ties[1]: the panel would need more than 40000 ties") {
		t.Errorf("got %v", err)
	}
}
