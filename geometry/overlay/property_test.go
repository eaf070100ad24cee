package overlay

import (
	"math"
	"math/big"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"openwork/geometry"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
)

// slackOf is by how much an area may be off: the outlines moved by the snapping distance a few times over.
func slackOf(shapes ...orb.MultiPolygon) float64 {
	return 8*snapSteps*gridStep*perimeter(shapes) + 1e-12
}

// holdLaws holds the laws of sets for two valid shapes and reports the first one broken.
func holdLaws(t *testing.T, name string, a, b orb.MultiPolygon) {
	t.Helper()
	do := func(op string, x, y orb.MultiPolygon) orb.MultiPolygon {
		got, err := operate(op, two(x, y))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if f := geostest.Fault(got); f != "" {
			t.Fatalf("%s: %s of %v and %v: %s", name, op, x, y, f)
		}
		return got
	}
	union, common, less, more := do("union", a, b), do("intersection", a, b), do("difference", a, b),
		do("difference", b, a)
	areaA, areaB := geometry.Area(a), geometry.Area(b)
	slack := slackOf(a, b)
	for _, law := range []struct {
		text      string
		got, want float64
	}{
		{"union and common part together have the area of both", geometry.Area(union) + geometry.Area(common), areaA +
			areaB},
		{"what is left and the common part have the area of the first", geometry.Area(less) + geometry.Area(common),
			areaA},
		{"what is left of the second likewise", geometry.Area(more) + geometry.Area(common), areaB},
		{"the union does not mind the order", geometry.Area(do("union", b, a)), geometry.Area(union)},
		{"what is left and the second make the union", geometry.Area(do("union", less, b)), geometry.Area(union)},
		{"the union with the first is the union", geometry.Area(do("union", union, a)), geometry.Area(union)},
		{"nothing of the common part lies outside the first", geometry.Area(do("difference", common, a)), 0},
	} {
		if math.Abs(law.got-law.want) > 4*slack {
			t.Errorf("%s (seed %d): %s: %.12g, want %.12g", name, seed, law.text, law.got, law.want)
			return
		}
	}
}

func TestLaws(t *testing.T) {
	for _, f := range pairFamilies {
		rng := rand.New(rand.NewPCG(seed, 5))
		for range 6 {
			s := f.make(rng)
			holdLaws(t, f.name, s[0], s[1])
		}
	}
}

// TestPointsByWinding compares results with the winding numbers of the rings themselves, at random points.
func TestPointsByWinding(t *testing.T) {
	for _, f := range manyFamilies {
		rng := rand.New(rand.NewPCG(seed, 6))
		for range 5 {
			shapes := f.make(rng)
			var rings []orb.Ring
			for _, s := range shapes {
				for _, p := range s {
					rings = append(rings, p...)
				}
			}
			union, err := Union(shapes...)
			if err != nil {
				t.Fatal(err)
			}
			positive, err := Positive(rings)
			if err != nil {
				t.Fatal(err)
			}
			holdPoints(t, f.name, rng, rings, union)
			holdPoints(t, f.name, rng, rings, positive)
			if f := geostest.Fault(union); f != "" {
				t.Error(f)
			}
			if a, b := geometry.Area(union), geometry.Area(positive); math.Abs(a-b) > slackOf(shapes...) ||
				len(union) != len(positive) {
				t.Errorf("%s (seed %d): %d polygons of %.12g mm² by clusters, %d of %.12g at once", f.name, seed,
					len(union), a, len(positive), b)
			}
		}
	}
}

// holdPoints checks that random points lie in the outline exactly when the rings wind about them.
func holdPoints(t *testing.T, name string, rng *rand.Rand, rings []orb.Ring, mp orb.MultiPolygon) {
	t.Helper()
	b := boundOf(rings).Pad(0.1)
	for range 100 {
		q := orb.Point{b.Min[0] + rng.Float64()*(b.Max[0]-b.Min[0]), b.Min[1] + rng.Float64()*(b.Max[1]-b.Min[1])}
		w := 0
		for _, r := range rings {
			w += geostest.Winding(r, q)
		}
		if (w > 0) != geostest.In(mp, q) && geostest.DistanceTo(orb.MultiPolygon{rings}, q) > 1e-6 {
			t.Errorf("%s (seed %d): the rings wind %d times about %v", name, seed, w, q)
			return
		}
	}
}

func TestOrientIsExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(seed, 9))
	whole := func(bits int) float64 { return float64(rng.Int64N(1<<bits) - 1<<(bits-1)) }
	for k := range 20000 {
		bits := 2 + rng.IntN(49)
		a, b := point{whole(bits), whole(bits)}, point{whole(bits), whole(bits)}
		c := point{whole(bits), whole(bits)}
		if k%2 == 0 { // on the line, or a step beside it
			u := float64(rng.IntN(9)) / 8
			c = point{math.Round(a.x + u*(b.x-a.x)), math.Round(a.y+u*(b.y-a.y)) + float64(rng.IntN(3)-1)}
		}
		x := func(v float64) *big.Int { return big.NewInt(int64(v)) }
		l := new(big.Int).Mul(new(big.Int).Sub(x(b.x), x(a.x)), new(big.Int).Sub(x(c.y), x(a.y)))
		r := new(big.Int).Mul(new(big.Int).Sub(x(b.y), x(a.y)), new(big.Int).Sub(x(c.x), x(a.x)))
		if got, want := orient(a, b, c), l.Cmp(r); got != want {
			t.Fatalf("seed %d: orient(%v, %v, %v) = %d, want %d", seed, a, b, c, got, want)
		}
	}
}

func TestTreeFindsAllPairs(t *testing.T) {
	rng := rand.New(rand.NewPCG(seed, 10))
	for n := range 60 {
		boxes := make([]box, n)
		fresh := make([]bool, n)
		for i := range boxes {
			p := point{rng.Float64(), rng.Float64()}
			boxes[i] = boxOf(p, point{p.x + 0.2*rng.Float64(), p.y + 0.2*rng.Float64()})
			fresh[i] = rng.IntN(3) == 0
		}
		const pad = 0.01
		got, want := map[[2]int32]bool{}, map[[2]int32]bool{}
		at := func(i int32) box { return boxes[i] }
		tr := newTree(n, at, func(i int32) bool { return fresh[i] })
		tr.pairs(pad, func(lo, hi, lo2, hi2 int32) {
			for i := lo; i < hi; i++ {
				for j := lo2; j < hi2; j++ {
					if p := [2]int32{min(i, j), max(i, j)}; i != j && (fresh[i] || fresh[j]) &&
						boxes[i].near(boxes[j], pad) {
						got[p] = true
					}
				}
			}
		})
		q := point{rng.Float64(), rng.Float64()}
		under := map[int32]bool{}
		tr.below(q, func(i int32) float64 { under[i] = true; return math.Inf(-1) })
		for i := range int32(n) {
			for j := range i {
				if (fresh[i] || fresh[j]) && boxes[i].near(boxes[j], pad) {
					want[[2]int32{j, i}] = true
				}
			}
			if b := boxes[i]; b.minX <= q.x && q.x <= b.maxX && b.minY <= q.y && !under[i] {
				t.Fatalf("%d boxes: box %d is below %v and was not found", n, i, q)
			}
		}
		if len(got) != len(want) {
			t.Fatalf("%d boxes: %d pairs found of %d", n, len(got), len(want))
		}
	}
}

// TestRowsOfCopies holds that copies which meet nothing come back with their points as they were, and that as many
// copies in a heap give the same as joining them two by two.
func TestRowsOfCopies(t *testing.T) {
	apart := field(6, 40, 24)
	got, err := Union(apart...)
	if err != nil {
		t.Fatal(err)
	}
	points := map[orb.Point]bool{}
	for _, s := range apart {
		for _, p := range s[0][0] {
			points[p] = true
		}
	}
	for _, p := range got {
		if !slices.ContainsFunc(p[0], func(q orb.Point) bool { return points[q] }) || len(p) != 1 {
			t.Fatal("a copy that stands alone was changed")
		}
	}
	if len(got) != len(apart) {
		t.Fatalf("%d polygons of %d copies apart", len(got), len(apart))
	}
	heap := field(4, 60, 31)
	all, err := Union(heap...)
	if err != nil {
		t.Fatal(err)
	}
	var step orb.MultiPolygon
	for _, s := range heap {
		if step, err = Union(step, s); err != nil {
			t.Fatal(err)
		}
	}
	if a, b := geometry.Area(all), geometry.Area(step); math.Abs(a-b) > slackOf(heap...) || len(all) != len(step) ||
		countHoles(all) != countHoles(step) {
		t.Errorf("all at once %d polygons, %d holes, %.12g mm²; one after another %d, %d, %.12g", len(all),
			countHoles(all), a, len(step), countHoles(step), b)
	}
}

// TestMemory bounds what one call allocates: in a browser a long call may come to its end before anything is freed.
func TestMemory(t *testing.T) {
	for _, c := range []struct {
		name   string
		shapes []orb.MultiPolygon
		limit  uint64 // bytes
	}{
		{"2,500 copies apart", field(50, 100, 24), 10 << 20},
		{"400 copies of 300 points, overlapping", field(20, 300, 30), 100 << 20},
	} {
		t.Run(c.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			if _, err := Union(c.shapes...); err != nil {
				t.Fatal(err)
			}
			runtime.ReadMemStats(&after)
			if n := after.TotalAlloc - before.TotalAlloc; n > c.limit {
				t.Errorf("%d MB allocated, more than %d", n>>20, c.limit>>20)
			}
		})
	}
}
