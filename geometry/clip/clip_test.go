package clip_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/clip"
	"openwork/geometry/overlay"
)

// star is a ring of n points about the origin, which never crosses itself; on a coarse grid, so that points lie on
// sides.
func star(r *rand.Rand, n int, low, high, grid float64) orb.Ring {
	var out orb.Ring
	for i := range n {
		a := 2 * math.Pi * (float64(i) + 0.6*r.Float64()) / float64(n)
		d := low + (high-low)*r.Float64()
		out = append(out, orb.Point{grid * math.Round(d*math.Cos(a)/grid), grid * math.Round(d*math.Sin(a)/grid)})
	}
	return append(out, out[0])
}

// What the overlay makes of the same rectangle is the same area, in as many pieces with as many holes.
func TestAgainstTheOverlay(t *testing.T) {
	const seed, tries = 88, 3000
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	pieces, holes := 0, 0
	for i := range tries {
		mp := orb.MultiPolygon{{star(r, 8+r.IntN(60), 5, 20, 1e-4)}}
		if i%3 == 0 {
			mp[0] = append(mp[0], star(r, 5+r.IntN(20), 1, 4, 1e-4))
		}
		mp = geometry.Orient(mp)
		x, y := -20+35*r.Float64(), -20+35*r.Float64()
		rect := orb.Bound{Min: orb.Point{x, y}, Max: orb.Point{x + 25*r.Float64(), y + 25*r.Float64()}}
		got := clip.ToRect(mp, rect)
		want, err := overlay.Intersection(mp, geometry.RectOutline(rect))
		if err != nil {
			t.Fatal(err)
		}
		same(t, i, got, want)
		pieces += len(got)
		for _, p := range got {
			holes += len(p) - 1
		}
	}
	if pieces < tries || holes < 30 {
		t.Errorf("only %d pieces and %d holes: the comparison says little", pieces, holes)
	}
}

func same(t *testing.T, i int, got, want orb.MultiPolygon) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%d: %d pieces, the overlay makes %d", i, len(got), len(want))
		return
	}
	rings := func(mp orb.MultiPolygon) (n int) {
		for _, p := range mp {
			n += len(p)
		}
		return n
	}
	if rings(got) != rings(want) {
		t.Errorf("%d: %d rings, the overlay makes %d", i, rings(got), rings(want))
	}
	a, b := geometry.NewShape(got), geometry.NewShape(want)
	if common := geometry.OverlapArea(a, b, orb.Point{}); math.Abs(common-b.Area()) > 1e-6 ||
		math.Abs(a.Area()-b.Area()) > 1e-6 {
		t.Errorf("%d: area %.9g, the overlay makes %.9g, in common %.9g", i, a.Area(), b.Area(), common)
	}
}

func TestSides(t *testing.T) {
	inf := math.Inf(1)
	square := orb.MultiPolygon{{orb.Ring{{0, 0}, {10, 0}, {10, 10}, {0, 10}, {0, 0}}}}
	comb := orb.MultiPolygon{{orb.Ring{{0, 0}, {9, 0}, {9, 5}, {8, 1}, {5, 5}, {4, 5}, {2, 1}, {1, 5}, {0, 5}, {0, 0}}}}
	for _, c := range []struct {
		name   string
		mp     orb.MultiPolygon
		rect   orb.Bound
		pieces int
		area   float64
	}{
		{"all inside", square, orb.Bound{Min: orb.Point{-1, -1}, Max: orb.Point{11, 11}}, 1, 100},
		{"the rectangle itself", square, orb.Bound{Max: orb.Point{10, 10}}, 1, 100},
		{"a side infinitely far", square, orb.Bound{Min: orb.Point{-inf, 4}, Max: orb.Point{inf, inf}}, 1, 60},
		{"the rectangle inside", square, orb.Bound{Min: orb.Point{2, 3}, Max: orb.Point{4, 7}}, 1, 8},
		{"beside", square, orb.Bound{Min: orb.Point{12, 0}, Max: orb.Point{20, 10}}, 0, 0},
		{"touching from outside", square, orb.Bound{Min: orb.Point{10, 0}, Max: orb.Point{20, 10}}, 0, 0},
		{"teeth that reach the side", comb, orb.Bound{Min: orb.Point{-inf, 5}, Max: orb.Point{inf, inf}}, 0, 0},
		{"teeth across the side", comb, orb.Bound{Min: orb.Point{-inf, 3}, Max: orb.Point{inf, inf}}, 3, 7.5},
		{"the side through the roots of the teeth", comb, orb.Bound{Min: orb.Point{-inf, 1}, Max: orb.Point{inf, inf}},
			3, 22},
		{"the back of the comb", comb, orb.Bound{Min: orb.Point{-inf, -inf}, Max: orb.Point{inf, 1}}, 1, 9},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := clip.ToRect(c.mp, c.rect)
			if len(got) != c.pieces || math.Abs(geometry.Area(got)-c.area) > 1e-9 {
				t.Errorf("%d pieces of %.6g mm², want %d of %.6g: %v", len(got), geometry.Area(got), c.pieces, c.area,
					got)
			}
		})
	}
}
