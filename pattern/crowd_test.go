package pattern_test

import (
	"cmp"
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// A draft of which thousands of copies or ties would lie over each other is a valid one, but it is not laid out, and
// the sentence says why.
func TestCrowdsAreNotLaidOut(t *testing.T) {
	square := func(size float64) orb.MultiPolygon {
		return orb.MultiPolygon{{orb.Ring{{0, 0}, {size, 0}, {size, size}, {0, size}, {0, 0}}}}
	}
	for _, c := range []struct {
		place, text string // of the refusal; both empty for a draft that is laid out
		change      func(d *draft.Draft)
	}{
		{"", "", func(d *draft.Draft) { d.Motifs[0].Scale, d.Motifs[1].Scale = 0.001, 1000 }},
		{"repeat", "at every place about 810000 copies would lie over each other, and the limit is 150000; make the " +
			"cell larger or the motifs smaller", func(d *draft.Draft) {
			d.Motifs[0].Scale, d.Motifs[1].Scale, d.Repeat.A, d.Repeat.B = 0.001, 1000, 20, 10
		}},
		{"ties[1]", "the tie is 1000000 mm long, and with its images about 5555", func(d *draft.Draft) {
			d.Repeat.A, d.Repeat.B = 180, 100
			d.Ties = []draft.Tie{{To: [2]float64{5, 0}, Width: 3}, {To: [2]float64{1e6, 0}, Width: 3}}
		}},
		{"ties[781]", "the tie is 77 mm long, and with its images about 5005 ties", func(d *draft.Draft) {
			d.Repeat.A, d.Repeat.B = 50, 20
			d.Ties = slices.Repeat([]draft.Tie{{To: [2]float64{77, 0}, Width: 3}}, 900)
		}},
		{"", "", func(d *draft.Draft) { d.Ties = []draft.Tie{{To: [2]float64{900, 0}, Width: 30}} }},
		// a silhouette's tie makes its copies as long
		{"repeat", "at every place about 201641 copies", func(d *draft.Draft) {
			d.Ties = []draft.Tie{{Silhouette: "carp", From: [2]float64{10, -14100}, To: [2]float64{10, 100}, Width: 3}}
			d.Repeat.A, d.Repeat.B = 100, 10
		}},
	} {
		t.Run(cmp.Or(c.text, "a good draft"), func(t *testing.T) {
			d := draft.Default()
			d.Silhouettes = []draft.Silhouette{{ID: "carp", Name: "Carp", Outline: square(20)},
				{ID: "leaf", Outline: square(9)}}
			d.Motifs = []draft.Motif{{ID: "m1", Silhouette: "carp", Scale: 1}, {ID: "m2", Silhouette: "leaf", Scale: 2}}
			c.change(&d)
			if err := d.Check(); err != nil {
				t.Errorf("%s: the draft is not valid: %v", c.text, err)
				return
			}
			_, err := pattern.NewLayout(d, nil)
			var e *draft.PlaceError
			switch {
			case c.text == "":
				if err != nil {
					t.Errorf("a good draft: %v", err)
				}
			case !errors.As(err, &e) || e.Place != c.place || !strings.HasPrefix(e.Text, c.text):
				t.Errorf("got %v\nwant %s: %s", err, c.place, c.text)
			}
		})
	}
}

// However small the cells and however large the window, so many places are visited and no more, and whoever asked is
// told that there are others.
func TestCellsEnd(t *testing.T) {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p1", A: 0.5, B: 0.5, Gamma: 5}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	for name, window := range map[string]orb.Bound{
		"a wall":      {Max: orb.Point{20000, 20000}},
		"a landscape": {Min: orb.Point{-1e9, -1e9}, Max: orb.Point{1e9, 1e9}},
		"no window":   {Min: orb.Point{-1e300, -1e300}, Max: orb.Point{1e300, 1e300}},
		"a line":      {Min: orb.Point{0, -1e9}, Max: orb.Point{0, 1e9}},
	} {
		t.Run(name, func(t *testing.T) {
			n := 0
			whole := l.Cells(window, orb.Bound{}, func(int, int) bool { n++; return true })
			if whole || n > 40*pattern.MaxCopies {
				t.Errorf("%d places were visited, all of them: %v", n, whole)
			}
		})
	}
	n := 0
	if whole := l.Cells(orb.Bound{Max: orb.Point{10, 10}}, orb.Bound{},
		func(int, int) bool { n++; return true }); !whole || n < 4000 {
		t.Errorf("a small window: %d places were visited, all of them: %v", n, whole)
	}
}
