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

// What the overlay leaves outside another outline is the same area, in as many pieces with as many holes; also of
// mirrored shapes, of several polygons, and where corners lie on the other boundary.
func TestWithoutAgainstTheOverlay(t *testing.T) {
	const seed, tries = 89, 3000
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	outline := func(i int, size, grid float64) orb.MultiPolygon {
		mp := orb.MultiPolygon{{star(r, 8+r.IntN(60), size/4, size, grid)}}
		if i%3 == 0 {
			mp[0] = append(mp[0], star(r, 5+r.IntN(20), size/20, size/5, grid))
		}
		if i%7 == 0 {
			mp = append(mp, orb.Polygon{star(r, 9, size/8, size/3, grid)})
			mp[len(mp)-1] = geometry.Transform(mp[len(mp)-1:], geometry.Translate(2*size, 3))[0]
		}
		return geometry.Orient(mp)
	}
	unsure, several, holes, inside := 0, 0, 0, 0
	for i := range tries {
		grid := []float64{1e-4, 1e-4, 0.5}[i%3] // a coarse grid lays corners on the other boundary
		a, b := outline(i, 20, grid), outline(i/2, []float64{10 + 25*r.Float64(), 3, 90}[i%5%3], grid)
		if geometry.CheckOutline(a) != nil || geometry.CheckOutline(b) != nil {
			continue
		}
		shift := orb.Point{grid * math.Round(40*(r.Float64()-0.5)/grid), grid * math.Round(40*(r.Float64()-0.5)/grid)}
		s := geometry.NewShape(a)
		if i%2 == 0 {
			s = s.Place(geometry.MirrorX, nil)
			a = s.Outline()
		}
		got, ok := clip.Without(s, geometry.NewShape(b), shift)
		if !ok {
			unsure++
			continue
		}
		want, err := overlay.Difference(a, geometry.Transform(b, geometry.Translate(shift[0], shift[1])))
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(geometry.Area(got)-geometry.Area(want)) > 1e-5 {
			t.Fatalf("case %d: %.9g mm² where the overlay leaves %.9g", i, geometry.Area(got), geometry.Area(want))
		}
		if grid < 0.1 && (len(got) != len(want) || len(geometry.Rings(got)) != len(geometry.Rings(want))) {
			t.Errorf("case %d: %d pieces of %d rings, the overlay %d of %d", i, len(got), len(geometry.Rings(got)),
				len(want), len(geometry.Rings(want)))
		}
		for _, p := range got {
			if geometry.RingArea(p[0]) <= 0 {
				t.Errorf("case %d: an outer ring runs clockwise", i)
			}
		}
		if len(want) > 1 {
			several++
		}
		if len(want) > 0 && len(want[0]) > len(a[0]) {
			holes++
		}
		if len(want) == 0 {
			inside++
		}
	}
	t.Logf("%d in several pieces, %d with a new hole, %d gone, %d unsure", several, holes, inside, unsure)
	if several < tries/5 || holes < 50 || inside < 20 || unsure > tries/50 {
		t.Errorf("%d in several pieces, %d with a new hole, %d gone, %d unsure", several, holes, inside, unsure)
	}
}

// Where a shape lies with respect to another is what areas say.
func TestInShape(t *testing.T) {
	const seed = 90
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	seen := map[geometry.Place]int{}
	for i := range 1500 {
		a := orb.MultiPolygon{{star(r, 8+r.IntN(30), 2, 8, 1e-4)}}
		b := orb.MultiPolygon{{star(r, 8+r.IntN(30), 20, 25, 1e-4), star(r, 6+r.IntN(30), 8, 18, 1e-4)}}
		if i%3 == 0 { // the one holds the other, or has it in its hole
			a, b = b, a
		}
		a, b = geometry.Orient(a), geometry.Orient(b)
		shift := orb.Point{40 * (r.Float64() - 0.5), 40 * (r.Float64() - 0.5)}
		s, other := geometry.NewShape(a), geometry.NewShape(b)
		common := geometry.OverlapArea(other, s, shift)
		want := geometry.Across
		switch {
		case common < 1e-9:
			want = geometry.Outside
		case common > s.Area()-1e-9:
			want = geometry.Within
		}
		if got := s.InShape(other, shift); got != want {
			t.Errorf("case %d: %v where areas say %v", i, got, want)
		}
		seen[want]++
	}
	if t.Logf("%v", seen); len(seen) < 3 {
		t.Errorf("only %v", seen)
	}
}
