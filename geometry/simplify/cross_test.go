package simplify

import (
	"errors"
	"math"
	"math/rand"
	"testing"

	"openwork/geometry"

	"github.com/paulmach/orb"
)

// meets counts pairs of edges that cross, touch or fold back, by looking at all pairs.
func meets(mp orb.MultiPolygon) int {
	var edges []edge
	n := 0
	for _, p := range mp {
		for _, r := range p {
			for k := 0; k+1 < len(r); k++ {
				g := func(v orb.Point) corner {
					return corner{x: int64(math.Round(v[0] / geometry.Grid)),
						y: int64(math.Round(v[1] / geometry.Grid))}
				}
				edges = append(edges, edge{g(r[k]), g(r[k+1]), n, k, len(r) - 1})
			}
			n++
		}
	}
	bad := 0
	for i, e := range edges {
		for _, g := range edges[:i] {
			switch {
			case e.ring == g.ring && (e.k+1)%e.of == g.k:
				if folds(e.a, e.b, g.b) {
					bad++
				}
			case e.ring == g.ring && (g.k+1)%g.of == e.k:
				if folds(g.a, g.b, e.b) {
					bad++
				}
			case meet(e.a, e.b, g.a, g.b):
				bad++
			}
		}
	}
	return bad
}

func TestBadOutlines(t *testing.T) {
	bow := closed(orb.Point{0, 0}, orb.Point{4, 4}, orb.Point{4, 1}, orb.Point{0, 6})
	if _, err := Ring(bow, Options{Tolerance: 0.01}); !errors.Is(err, ErrCrossing) {
		t.Errorf("a bow: %v", err)
	}
	a := closed(orb.Point{0, 0}, orb.Point{4, 0}, orb.Point{4, 4}, orb.Point{0, 4})
	b := closed(orb.Point{2, 2}, orb.Point{6, 2}, orb.Point{6, 6}, orb.Point{2, 6})
	if _, err := Outline(orb.MultiPolygon{{a}, {b}}, Options{Tolerance: 0.01}); !errors.Is(err, ErrCrossing) {
		t.Errorf("two squares that overlap: %v", err)
	}
	for name, r := range map[string]orb.Ring{
		"no points": {}, "one point": {{1, 1}}, "the same point": {{1, 1}, {1, 1}, {1, 1}, {1, 1}},
		"smaller than the grid": closed(orb.Point{0, 0}, orb.Point{1e-5, 0}, orb.Point{0, 1e-5}),
	} {
		t.Run(name, func(t *testing.T) {
			if got, err := Ring(r, Options{Tolerance: 0.01}); len(got) != 0 {
				t.Errorf("%v, %v", got, err)
			}
		})
	}
	for name, v := range map[string]orb.Point{"NaN": {math.NaN(), 0}, "infinite": {0, math.Inf(1)}, "far": {1e7, 0}} {
		t.Run(name, func(t *testing.T) {
			if _, err := Ring(append(closed(orb.Point{0, 0}, orb.Point{4, 0}, orb.Point{4, 4}), v),
				Options{Tolerance: 0.01}); err == nil {
				t.Errorf("no error")
			}
		})
	}
	for _, o := range []Options{{}, {Tolerance: -1}, {Tolerance: math.NaN()}, {Tolerance: 1, Blur: -1},
		{Tolerance: 1, Blur: math.NaN()}, {Tolerance: math.Inf(1)}} {
		if _, err := Ring(a, o); err == nil {
			t.Errorf("%+v: no error", o)
		}
	}
	// A ring smaller than the tolerance keeps its side and about its area.
	small := ringOf(60, func(a float64) orb.Point { return orb.Point{0.02 * math.Cos(a), 0.02 * math.Sin(a)} })
	if got, err := Ring(small, Options{Tolerance: 0.05}); err != nil ||
		geometry.RingArea(got) < 0.5*geometry.RingArea(small) {
		t.Errorf("a small ring: %v, %v", got, err)
	}
}

// The tree of boxes finds what looking at all pairs finds.
func TestCrossingsAgainstAllPairs(t *testing.T) {
	for seed := range int64(200) {
		rng := rand.New(rand.NewSource(seed))
		var fits []*fit
		var mp orb.MultiPolygon
		for range 1 + rng.Intn(4) {
			f := &fit{}
			var r orb.Ring
			for k := range 3 + rng.Intn(30) {
				c := corner{x: int64(rng.Intn(40)), y: int64(rng.Intn(40)), span: k}
				if n := len(f.drawn); n > 0 && f.drawn[n-1].x == c.x && f.drawn[n-1].y == c.y {
					continue
				}
				f.drawn = append(f.drawn, c)
				r = append(r, c.point())
			}
			if f.closeDrawn(); len(r) > len(f.drawn) {
				r = r[:len(f.drawn)]
			}
			fits = append(fits, f)
			mp = append(mp, orb.Polygon{append(r, r[0])})
		}
		if got, want := len(crossings(fits)) > 0, meets(mp) > 0; got != want {
			t.Errorf("seed %d: crossings found: %v, by all pairs: %v", seed, got, want)
		}
		var rings []orb.Ring
		small := 0 // rings of fewer than three corners, of which each edge counts half
		for _, p := range mp {
			rings = append(rings, p[0])
			if len(p[0]) < 4 {
				small += len(p[0])
			}
		}
		got, want := Crossings(rings, 1e6), meets(mp)
		if small == 0 && got != want {
			t.Errorf("seed %d: %d crossings, by all pairs %d", seed, got, want)
		}
		if want > 10 && Crossings(rings, 5) <= 5 {
			t.Errorf("seed %d: %d crossings when asked for more than 5", seed, Crossings(rings, 5))
		}
	}
}
