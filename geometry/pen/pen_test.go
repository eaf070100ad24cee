package pen

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// seeded returns random numbers and prints their seed.
func seeded(t *testing.T) *rand.Rand {
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	return rand.New(rand.NewPCG(seed, 1))
}

// blob returns a random smooth ring about a place.
func blob(rng *rand.Rand, c orb.Point, r float64) Ring {
	n := 4 + rng.IntN(6)
	pts := make([]Point, n)
	for i := range pts {
		s, k := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		l := r * (0.6 + 0.5*rng.Float64())
		pts[i] = Point{orb.Point{c[0] + l*k, c[1] + l*s}, rng.IntN(3) > 0}
	}
	return Ring{Nodes: Through(pts, true)}
}

// A polygon that was read and not touched stays as it is; touched, it stays within the slack; and points are not lost
// on the way to the polygon and back.
func TestReadAndFlatten(t *testing.T) {
	rng := seeded(t)
	for range 60 {
		drawn := blob(rng, orb.Point{}, 10+40*rng.Float64())
		polygon := drawn.Polygon()
		if Check(orb.MultiPolygon{{polygon}}) != nil {
			continue
		}
		mp := geometry.Orient(orb.MultiPolygon{{polygon}})
		read, err := Read(mp)
		if err != nil {
			t.Fatal(err)
		}
		if got := read.Outline(); !sameRing(got[0][0], mp[0][0]) {
			t.Fatal("nobody touched it, and it is another polygon")
		}
		again := read[0][0].Moved(Stretch{}, orb.Point{}).Polygon() // touched: flattened anew
		a, b := geometry.NewShape(orb.MultiPolygon{{again}}), geometry.NewShape(mp)
		if !geometry.SameWithin(a, b, ReadSlack+2*FlattenSlack+2*geometry.Grid) {
			t.Errorf("read and flattened, a ring of %d points leaves its polygon by more than the slack",
				len(read[0][0].Nodes))
		}
		known, err := Read(mp, drawn)
		if err != nil {
			t.Fatal(err)
		}
		if len(known[0][0].Nodes) != len(drawn.Nodes) {
			t.Errorf("%d points became %d", len(drawn.Nodes), len(known[0][0].Nodes))
		}
	}
}

// The two halves are alike to the draft's grid.
func TestHalfIsSymmetrical(t *testing.T) {
	rng := seeded(t)
	for range 40 {
		axis := geometry.Snap(100 * (rng.Float64() - 0.5))
		const jitter = 0.3
		var stroke []orb.Point
		a, b, lobes := 10+20*rng.Float64(), 20+20*rng.Float64(), float64(2+rng.IntN(3))
		for i := range 120 {
			f := math.Pi * (0.53 - 1.06*float64(i)/119) // a little beyond the mirror at both ends
			s, c := math.Sincos(f)
			l := 1 + 0.15*math.Cos(lobes*f)
			stroke = append(stroke, orb.Point{axis + a*l*c + jitter*(rng.Float64()-0.5), b*l*s +
				jitter*(rng.Float64()-0.5)})
		}
		if !Meets(stroke[0], stroke[len(stroke)-1], axis) {
			t.Fatal("this does not mean a half")
		}
		ring, err := HalfStroke(stroke, jitter, axis)
		if err != nil {
			t.Fatal(err)
		}
		mp := geometry.Orient(orb.MultiPolygon{{ring.Polygon()}})
		m := geometry.MirrorX.Moved(2*axis, 0)
		if err := Check(mp); err != nil {
			t.Fatal(err)
		}
		if !geometry.SameWithin(geometry.NewShape(mp), geometry.NewShape(geometry.Transform(mp, m)),
			1.5*geometry.Grid) {
			t.Errorf("the halves about x = %g differ", axis)
		}
	}
}

// What is joined and what is cut away add up: |A ∪ B| = |A| + |B − A|, and |A − B| + |B| = |A ∪ B|, for lines that
// cross themselves too.
func TestAreasAddUp(t *testing.T) {
	rng := seeded(t)
	done := 0
	for range 60 {
		a, b := blob(rng, orb.Point{}, 30), blob(rng, orb.Point{20 * rng.Float64(), 10}, 20)
		if rng.IntN(3) == 0 { // a line that crosses itself
			b.Nodes[0].At, b.Nodes[2].At = b.Nodes[2].At, b.Nodes[0].At
			b.Nodes = Through([]Point{{b.Nodes[0].At, false}, {b.Nodes[1].At, false}, {b.Nodes[2].At, false},
				{b.Nodes[3].At, false}}, true)
		}
		area := func(s Shape, err error) float64 {
			t.Helper()
			if err != nil {
				t.Fatal(err)
			}
			return geometry.Area(s.Outline())
		}
		sa, err := Shape(nil).Joined(a)
		if err != nil {
			t.Fatal(err)
		}
		sb, err := Shape(nil).Joined(b)
		if err != nil {
			t.Fatal(err)
		}
		less, err := sa.CutAway(b)
		if err == errNothingLeft || err == errBeside {
			continue
		}
		rest, err2 := sb.CutAway(a)
		if err2 != nil {
			continue
		}
		done++
		both := area(sa.Joined(b))
		if d := both - area(sa, nil) - area(rest, nil); math.Abs(d) > 3*MinArea {
			t.Errorf("A and B−A leave %.4f mm²", d)
		}
		if d := both - area(less, err) - area(sb, nil); math.Abs(d) > 3*MinArea {
			t.Errorf("A−B and B leave %.4f mm²", d)
		}
		// An eye well inside keeps the points of what is round it.
		if eye, err := sa.CutAway(Ring{Nodes: Through([]Point{{orb.Point{2, 0}, true}, {orb.Point{0, 2}, true},
			{orb.Point{-2, 0}, true}, {orb.Point{0, -2}, true}}, true)}); err != nil {
			t.Error(err)
		} else if rings := eye.Rings(); len(rings) == 2 &&
			(len(rings[0].Nodes) != len(a.Nodes) || len(rings[1].Nodes) != 4) {
			t.Errorf("with an eye, %d and 4 points became %d and %d", len(a.Nodes), len(rings[0].Nodes),
				len(rings[1].Nodes))
		}
	}
	if done < 20 {
		t.Errorf("only %d pairs were compared", done)
	}
}

// A point set on a line leaves it as it is, and taken out again the line comes back.
func TestInsertAndRemove(t *testing.T) {
	rng := seeded(t)
	for range 100 {
		r := blob(rng, orb.Point{}, 30)
		i, f := rng.IntN(len(r.Nodes)), 0.2+0.6*rng.Float64()
		more, at := r.Inserted(i, f)
		if len(more.Nodes) != len(r.Nodes)+1 {
			t.Fatal("no point was set")
		}
		for _, p := range more.Polygon() {
			if _, _, d := r.Nearest(p); d > FlattenSlack+0.02 {
				t.Fatalf("set at %g of piece %d, the line is off by %.3f mm", f, i, d)
			}
		}
		back, err := more.Removed(Stretch{at, at})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range back.Polygon() {
			if _, _, d := r.Nearest(p); d > 0.25 {
				t.Errorf("taken out again, the line is off by %.3f mm", d)
				break
			}
		}
	}
}

// Whatever is done to a ring in whatever order, with stretches that are none, nothing panics and every place is a
// number.
func TestNothingBreaksARing(t *testing.T) {
	rng := seeded(t)
	for range 150 {
		r := blob(rng, orb.Point{}, 5+40*rng.Float64())
		for range 12 {
			s := Stretch{rng.IntN(40) - 20, rng.IntN(40) - 20}
			was := r
			var err error
			switch n := len(r.Nodes); rng.IntN(10) {
			case 0:
				r = r.Moved(s, orb.Point{20 * (rng.Float64() - 0.5), 20 * (rng.Float64() - 0.5)})
			case 1:
				r, _ = r.Inserted(rng.IntN(n), rng.Float64())
			case 2:
				r, err = r.Removed(s)
			case 3:
				r = r.Sharpened(s)
			case 4:
				r = r.Rounded(s)
			case 5:
				r = r.Straightened(s)
			case 6:
				r = r.Curved(s)
			case 7:
				r = r.Bent(rng.IntN(n), rng.Float64(),
					orb.Point{60 * (rng.Float64() - 0.5), 60 * (rng.Float64() - 0.5)})
			case 8:
				r, err = r.Smoothed(s, 0.2+rng.Float64())
			case 9:
				r, err = r.Simplified(s, 0.05+rng.Float64())
			}
			if err != nil {
				r = was
			}
			for _, v := range r.Nodes {
				if x := v.At[0] + v.At[1] + v.In[0] + v.In[1] + v.Out[0] + v.Out[1]; math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("a place is no number: %v", v)
				}
			}
			r.Polygon()
		}
		_, _ = Shape(nil).Joined(r) // may well be refused
	}
}
