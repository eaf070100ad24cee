package offset

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

func rect(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
}

func reversed(r orb.Ring) orb.Ring {
	out := r.Clone()
	out.Reverse()
	return out
}

func holes(mp orb.MultiPolygon) int {
	n := 0
	for _, p := range mp {
		n += len(p) - 1
	}
	return n
}

func TestTables(t *testing.T) {
	plate := orb.MultiPolygon{{rect(0, 0, 10, 10), reversed(rect(4, 4, 6, 6))}}
	dumbbell := orb.MultiPolygon{{{{0, 0}, {4, 0}, {4, 1.5}, {8, 1.5}, {8, 0}, {12, 0}, {12, 4}, {8, 4}, {8, 2.5},
		{4, 2.5}, {4, 4}, {0, 4}, {0, 0}}}}
	gap := orb.MultiPolygon{{rect(0, 0, 4, 4)}, {rect(4.5, 0, 8, 4)}}
	for _, c := range []struct {
		name            string
		shape           orb.MultiPolygon
		distance        float64
		area            float64
		polygons, holes int
	}{
		{"nothing", nil, 3, 0, 0, 0},
		{"a polygon without rings", orb.MultiPolygon{{}}, 3, 0, 0, 0},
		{"a line", orb.MultiPolygon{{{{0, 0}, {5, 0}, {0, 0}}}}, 3, 0, 0, 0},
		{"a square grown", orb.MultiPolygon{{rect(0, 0, 4, 4)}}, 1, 16 + 16 + math.Pi, 1, 0},
		{"a square grown, drawn clockwise", orb.MultiPolygon{{reversed(rect(0, 0, 4, 4))}}, 1, 16 + 16 + math.Pi, 1, 0},
		{"a square shrunk", orb.MultiPolygon{{rect(0, 0, 4, 4)}}, -1, 4, 1, 0},
		{"a square shrunk to nothing", orb.MultiPolygon{{rect(0, 0, 4, 4)}}, -2, 0, 0, 0},
		{"a square shrunk past nothing", orb.MultiPolygon{{rect(0, 0, 4, 4)}}, -50, 0, 0, 0},
		{"a square left as it is", orb.MultiPolygon{{rect(0, 0, 4, 4)}}, 0, 16, 1, 0},
		{"a plate grown, its hole smaller", plate, 0.5, 100 + 20 + math.Pi/4 - 1, 1, 1},
		{"a plate grown until the hole is closed", plate, 1, 100 + 40 + math.Pi, 1, 0},
		{"a plate grown far", plate, 30, 100 + 1200 + 900*math.Pi, 1, 0},
		{"a plate shrunk, its hole wider and round at the corners", plate, -1, 64 - (4 + 8 + math.Pi), 1, 1},
		// A square of 6 less a square of 2 with a margin of 2: the margin reaches the sides of the first exactly.
		{"a plate shrunk until only its corners are left", plate, -2, 4 * (4 - math.Pi), 4, 0},
		// In each mouth a little more stays than the square of 2.8: what lies between the discs about its two corners.
		{"a neck that parts", dumbbell, -0.6, 2 * (2.8*2.8 + 2*(0.3-0.25*math.Sqrt(0.11)-0.18*math.Asin(0.5/0.6))), 2,
			0},
		// Each grown by 0.25 all round; they meet along a line of 4.
		{"a gap that closes", gap, 0.25, 16 + 14 + 0.25*(16+15) + 2*math.Pi/16, 1, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, turn := range []float64{0, 0.5, 2} {
				s := turned(c.shape, turn)
				got, err := Offset(s, c.distance, 1e-5)
				if err != nil {
					t.Errorf("%v", err)
					continue
				}
				if a := geometry.Area(got); math.Abs(a-c.area) > 1e-5*(1+math.Abs(c.distance)*10) ||
					len(got) != c.polygons || holes(got) != c.holes {
					t.Errorf("turned by %g: area %.9g, %d polygons, %d holes; want %.9g, %d, %d", turn, a,
						len(got), holes(got), c.area, c.polygons, c.holes)
				}
				if f := geostest.Fault(got); f != "" {
					t.Errorf("turned by %g: %s", turn, f)
				}
			}
		})
	}
}

func turned(mp orb.MultiPolygon, angle float64) orb.MultiPolygon {
	s, c := math.Sincos(angle)
	out := mp.Clone()
	for _, p := range out {
		for _, r := range p {
			for i, v := range r {
				r[i] = orb.Point{c*v[0] - s*v[1], s*v[0] + c*v[1]}
			}
		}
	}
	return out
}

// TestBoundaryIsAtTheDistance goes round results and measures, by brute force, how far each point lies from the shape's
// boundary: by the distance, less a flattened arc's tolerance. And points about the shape must lie in the result
// exactly when they are near enough to the shape, or far enough inside it.
func TestBoundaryIsAtTheDistance(t *testing.T) {
	const tolerance = 0.01
	rng := rand.New(rand.NewPCG(seed, 3))
	for _, f := range families {
		for k := range 4 {
			s := f.make(rng)
			for _, d := range []float64{math.Exp(3*rng.Float64() - 3), -math.Exp(3*rng.Float64() - 3)} {
				got, err := Offset(s, d, tolerance)
				if err != nil {
					t.Errorf("%s %d by %g (seed %d): %v", f.name, k, d, seed, err)
					continue
				}
				checkDistance(t, f.name, rng, s, got, d, tolerance)
			}
		}
	}
}

const rounding = 1e-7 // mm: snapping, a few times over

func checkDistance(t *testing.T, name string, rng *rand.Rand, s, got orb.MultiPolygon, d, tolerance float64) {
	t.Helper()
	want := math.Abs(d)
	for _, p := range got {
		for _, r := range p {
			for range min(40, len(r)) {
				i, u := rng.IntN(len(r)-1), rng.Float64()
				q := orb.Point{r[i][0] + u*(r[i+1][0]-r[i][0]), r[i][1] + u*(r[i+1][1]-r[i][1])}
				if m := geostest.DistanceTo(s, q); m < want-tolerance-rounding || m > want+rounding {
					t.Errorf("%s by %g (seed %d): the boundary at %v is %g mm from the shape's", name, d, seed, q, m)
					return
				}
			}
		}
	}
	b := s.Bound().Pad(want + 1)
	for range 200 {
		q := orb.Point{b.Min[0] + rng.Float64()*(b.Max[0]-b.Min[0]), b.Min[1] + rng.Float64()*(b.Max[1]-b.Min[1])}
		m := geostest.DistanceTo(s, q)
		if math.Abs(m-want) < tolerance+rounding {
			continue
		}
		inside := geostest.In(s, q)
		if d > 0 {
			inside = inside || m < d
		} else {
			inside = inside && m > -d
		}
		if geostest.In(got, q) != inside {
			t.Errorf("%s by %g (seed %d): %v, %g mm from the boundary, should be inside: %t", name, d, seed, q, m,
				inside)
			return
		}
	}
}

func TestToleranceDecidesThePoints(t *testing.T) {
	square := orb.MultiPolygon{{rect(0, 0, 4, 4)}}
	last := 0
	for _, tol := range []float64{1e9, 1, 0.1, 0.01, 0.001, 1e-6} {
		got, err := Offset(square, 10, tol)
		if err != nil {
			t.Fatal(err)
		}
		n := geometry.Points(got)
		if n < last {
			t.Errorf("tolerance %g gives %d points, fewer than a wider one", tol, n)
		}
		last = n
	}
	if got, err := Offset(square, 10, 1e-300); err != nil || geometry.Points(got) > 7000 {
		t.Errorf("an absurd tolerance gives %d points, %v", geometry.Points(got), err)
	}
}

func TestErrors(t *testing.T) {
	square := orb.MultiPolygon{{rect(0, 0, 4, 4)}}
	bad := orb.MultiPolygon{{rect(0, 0, 4, 4)}, {rect(5, 0, math.Inf(1), 4)}}
	for _, c := range []struct {
		name                string
		shape               orb.MultiPolygon
		distance, tolerance float64
		want                string
	}{
		{"distance not a number", square, math.NaN(), 0.01, "distance NaN"},
		{"distance infinite", square, math.Inf(-1), 0.01, "distance -Inf"},
		{"tolerance not a number", square, 1, math.NaN(), "tolerance NaN"},
		{"no tolerance", square, 1, 0, "tolerance 0"},
		{"a corner at infinity", bad, 1, 0.01, "polygon 1, ring 0, point 1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Offset(c.shape, c.distance, c.tolerance)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v does not say %q", err, c.want)
			}
		})
	}
}

// TestGrownThenShrunk holds the closing and the opening of a shape against what they must contain.
func TestGrownThenShrunk(t *testing.T) {
	rng := rand.New(rand.NewPCG(seed, 4))
	for _, f := range families {
		s := f.make(rng)
		d := 0.1 + rng.Float64()
		grown, err := Offset(s, d, 0.001)
		if err != nil {
			t.Fatal(err)
		}
		closed, err := Offset(grown, -d, 0.001)
		if err != nil {
			t.Fatal(err)
		}
		if a, b := geometry.Area(closed), geometry.Area(s); a < b-0.003*geometry.Length(s) {
			t.Errorf("%s (seed %d): grown and shrunk by %g it has %g mm², less than its own %g", f.name, seed, d, a, b)
		}
		shrunk, err := Offset(s, -d, 0.001)
		if err != nil {
			t.Fatal(err)
		}
		opened, err := Offset(shrunk, d, 0.001)
		if err != nil {
			t.Fatal(err)
		}
		if a, b := geometry.Area(opened), geometry.Area(s); a > b+0.003*geometry.Length(s) {
			t.Errorf("%s (seed %d): shrunk and grown by %g it has %g mm², more than its own %g", f.name, seed, d, a, b)
		}
	}
}
