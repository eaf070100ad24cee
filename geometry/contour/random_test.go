package contour

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	"github.com/paulmach/orb"
)

// random returns a grid of blobs or of noise.
func random(rng *rand.Rand) Grid[float64] {
	w, h := 1+rng.Intn(24), 1+rng.Intn(24)
	g := Grid[float64]{Width: w, Height: h}
	blobs := rng.Intn(2) == 0
	ax, ay, p := rng.Float64()+0.2, rng.Float64()+0.2, 6*rng.Float64()
	for j := range h {
		for i := range w {
			v := rng.Float64()
			if blobs {
				v = 0.5 + 0.5*math.Sin(ax*float64(i)+p)*math.Cos(ay*float64(j)-p)
			} else if rng.Intn(3) == 0 {
				v = []float64{0, 0.5, 1}[rng.Intn(3)] // the level itself, and plateaus
			}
			g.Values = append(g.Values, v)
		}
	}
	return g
}

func winding(rings []orb.Ring, x, y float64) int {
	n := 0
	for _, r := range rings {
		for k := 0; k+1 < len(r); k++ {
			a, b := r[k], r[k+1]
			if (a[1] > y) != (b[1] > y) && x < a[0]+(y-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
				if b[1] > a[1] {
					n++
				} else {
					n--
				}
			}
		}
	}
	return n
}

// On random grids: every sample is inside exactly when it is high, rings are closed and neither cross nor touch, their
// areas are what is said, and Nest agrees with counting what is around.
func TestRandomGrids(t *testing.T) {
	for seed := range int64(400) {
		rng := rand.New(rand.NewSource(seed))
		g := random(rng)
		const level = 0.5
		rings, areas := all(t, g, level)
		for j := range g.Height {
			for i := range g.Width {
				want := 0
				if g.Values[j*g.Width+i] >= level {
					want = 1
				}
				// The sample's own row is full of corners of the rings; a little above there are none.
				if got := winding(rings, float64(i), float64(j)+1e-7); got != want {
					t.Fatalf("seed %d: the rings wind %d times about sample (%d, %d), not %d", seed, got, i, j, want)
				}
			}
		}
		for k, r := range rings {
			if len(r) < 5 || r[0] != r[len(r)-1] {
				t.Fatalf("seed %d: ring %d is not closed", seed, k)
			}
			sum := 0.0
			for i := 0; i+1 < len(r); i++ {
				sum += r[i][0]*r[i+1][1] - r[i][1]*r[i+1][0]
			}
			if math.Abs(sum/2-areas[k]) > 1e-9 {
				t.Fatalf("seed %d: ring %d has area %g, not %g", seed, k, sum/2, areas[k])
			}
		}
		apart(t, seed, rings)
		parents := Nest(rings)
		for k, r := range rings {
			depth, at := 0, parents[k]
			for ; at >= 0 && depth < len(rings); depth++ {
				if math.Abs(areas[at]) <= math.Abs(areas[k]) || (areas[at] > 0) == (areas[k] > 0) && parents[k] == at {
					t.Fatalf("seed %d: ring %d cannot lie in %d", seed, k, at)
				}
				if winding(rings[at:at+1], r[0][0], r[0][1]) == 0 {
					t.Fatalf("seed %d: ring %d does not lie in %d", seed, k, at)
				}
				at = parents[at]
			}
			around := 0
			for m := range rings {
				if m != k && winding(rings[m:m+1], r[0][0], r[0][1]) != 0 {
					around++
				}
			}
			if around != depth {
				t.Fatalf("seed %d: %d rings lie around ring %d, Nest says %d", seed, around, k, depth)
			}
		}
	}
}

// apart fails the test if two edges that do not follow each other have a point in common: brute force.
func apart(t *testing.T, seed int64, rings []orb.Ring) {
	type edge struct {
		a, b    orb.Point
		ring, k int
	}
	var edges []edge
	for n, r := range rings {
		for k := 0; k+1 < len(r); k++ {
			edges = append(edges, edge{r[k], r[k+1], n, k})
		}
	}
	side := func(a, b, c orb.Point) float64 { return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0]) }
	for i, e := range edges {
		for _, f := range edges[:i] {
			if e.ring == f.ring && (e.k-f.k == 1 || f.k == 0 && e.k == len(rings[e.ring])-2) {
				continue
			}
			if math.Max(e.a[0], e.b[0]) < math.Min(f.a[0], f.b[0]) ||
				math.Max(f.a[0], f.b[0]) < math.Min(e.a[0], e.b[0]) ||
				math.Max(e.a[1], e.b[1]) < math.Min(f.a[1], f.b[1]) ||
				math.Max(f.a[1], f.b[1]) < math.Min(e.a[1], e.b[1]) {
				continue
			}
			if side(e.a, e.b, f.a)*side(e.a, e.b, f.b) <= 0 && side(f.a, f.b, e.a)*side(f.a, f.b, e.b) <= 0 {
				t.Fatalf("seed %d: edges %v and %v meet", seed, e, f)
			}
		}
	}
}

// A grid and its mirror images have the same areas.
func TestMirroredGridsAgree(t *testing.T) {
	for seed := range int64(100) {
		g := random(rand.New(rand.NewSource(seed)))
		_, want := all(t, g, 0.5)
		slices.Sort(want)
		swapped := Grid[float64]{Width: g.Height, Height: g.Width}
		for i := range g.Width {
			for j := range g.Height {
				swapped.Values = append(swapped.Values, g.Values[j*g.Width+i])
			}
		}
		_, got := all(t, swapped, 0.5)
		slices.Sort(got)
		if len(got) != len(want) {
			t.Fatalf("seed %d: %d rings, mirrored %d", seed, len(want), len(got))
		}
		for k := range got {
			if math.Abs(got[k]-want[k]) > 1e-9 {
				t.Fatalf("seed %d: areas %v, mirrored %v", seed, want, got)
			}
		}
	}
}
