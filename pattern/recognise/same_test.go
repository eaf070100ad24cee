package recognise

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern/patterntest"
)

func formOf(mp orb.MultiPolygon) (*form, orb.Point) {
	c, girth := steiner(mp[0][0])
	return newForm(mp[0], c, girth, 1), c
}

// near against its meaning: points along one boundary, measured to every edge of the other.
func TestNearAgainstPoints(t *testing.T) {
	const seed = 8
	yes, no := 0, 0
	for _, i := range geometrytest.Share(t, numbered(500), 200) {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		shape := patterntest.Blob(r, 1+3*r.Float64(), 5+r.IntN(12), r.IntN(2) == 0)
		f, _ := formOf(shape)
		other := geometry.Transform(shape, geometry.Identity)
		if r.IntN(2) == 0 {
			other = recornered(r, other)
		}
		shake := 0.03 * r.Float64()
		ring := other[0][0]
		for k := range len(ring) - 1 {
			a, d := 2*math.Pi*r.Float64(), shake*r.Float64()
			ring[k] = orb.Point{ring[k][0] + d*math.Cos(a), ring[k][1] + d*math.Sin(a)}
		}
		ring[len(ring)-1] = ring[0]
		g, _ := formOf(other)
		m := geometry.Turn(0.002*r.Float64()).Moved(0.01*r.Float64(), 0.01*r.Float64())
		worst := 0.0 // how far points of f lie from g
		for _, e := range f.edges {
			for k := range 200 {
				p := m.Apply(geometry.Add(e.P, times(float64(k)/200, geometry.Sub(e.Q, e.P))))
				best := math.Inf(1)
				for _, h := range g.edges {
					best = min(best, segmentDistance(p, h.P, h.Q))
				}
				worst = max(worst, best)
			}
		}
		if math.Abs(worst-slack) < 2e-4 { // between two points it may be a little farther
			continue
		}
		if got := f.near(g, m); got != (worst < slack) {
			t.Errorf("seed %d, pair %d: near says %v where points lie up to %g mm away", seed, i, got, worst)
		} else if got {
			yes++
		} else {
			no++
		}
	}
	if least := geometrytest.Count(20, 100); yes < least || no < least {
		t.Errorf("only %d pairs near and %d not", yes, no)
	}
}

// A pinhole that only one of two outlines has tells them apart, whichever is placed on the other.
func TestSameLooksBothWays(t *testing.T) {
	pricked := orb.MultiPolygon{{square[0][0], orb.Ring{{0, 0}, {0, 0.8}, {0.8, 0.8}, {0.8, 0}, {0, 0}}}}
	f, _ := formOf(square)
	g, _ := formOf(pricked)
	if !f.alike(g) || !f.near(g, geometry.Identity) {
		t.Fatal("the outlines are meant to be alike but for the hole")
	}
	fd := &field{known: map[question]bool{}}
	if fd.same(f, g, geometry.Identity) || fd.same(g, f, geometry.Identity) {
		t.Error("a square with a pinhole is taken for one without")
	}
}

// The Steiner point goes with the outline, and moves by no more than 4/π of what the boundary does.
func TestSteinerPoint(t *testing.T) {
	const seed = 3
	for i := range 500 {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		ring := patterntest.Blob(r, 10, 4+r.IntN(30), false)[0][0]
		c, girth := steiner(ring)
		m := geometry.Turn(7 * r.Float64())
		if r.IntN(2) == 0 {
			m = m.After(geometry.MirrorX)
		}
		m = m.Moved(300*r.Float64(), 300*r.Float64())
		image := geometry.Transform(orb.MultiPolygon{{ring}}, m)[0][0]
		ci, gi := steiner(image)
		if geometry.PointDistance(ci, m.Apply(c)) > 1e-9 || math.Abs(gi-girth) > 1e-9 {
			t.Errorf("seed %d, ring %d: the point goes to %v, want %v; girth %g, want %g", seed, i, ci, m.Apply(c), gi,
				girth)
		}
		for k := range len(ring) - 1 {
			a := 2 * math.Pi * r.Float64()
			ring[k] = orb.Point{ring[k][0] + slack*math.Cos(a), ring[k][1] + slack*math.Sin(a)}
		}
		ring[len(ring)-1] = ring[0]
		if s, _ := steiner(ring); geometry.PointDistance(s, c) > centreSlack {
			t.Errorf("seed %d, ring %d: corners moved by %g mm move the point by %g", seed, i, slack,
				geometry.PointDistance(s, c))
		}
	}
	// A rectangle's point is its middle, a triangle's weighs its corners by their outer angles.
	if c, girth := steiner(polygon(0, 0, 8, 0, 8, 2, 0, 2)[0]); geometry.PointDistance(c, orb.Point{4, 1}) > 1e-12 ||
		girth != 20 {
		t.Errorf("a rectangle's point is %v, its girth %g", c, girth)
	}
	if c, _ := steiner(polygon(0, 0, 8, 0, 0, 8)[0]); geometry.PointDistance(c, orb.Point{3, 3}) > 1e-12 {
		t.Errorf("a right triangle's point is %v, want (3, 3)", c)
	}
}

// The reduced basis spans the same lattice, its vectors are the shortest, and it looks as promised.
func TestReducedBasis(t *testing.T) {
	const seed = 6
	for i := range 2000 {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		a := orb.Point{0.5 + 100*r.Float64(), 0}
		turn := 5 + 170*r.Float64()
		if r.IntN(3) == 0 {
			turn = []float64{30, 45, 60, 90, 120, 150}[r.IntN(6)]
		}
		b := geometry.TurnDegrees(turn).Vector(orb.Point{a[0] * []float64{1, 1, math.Sqrt2, math.Sqrt(3),
			37.3}[r.IntN(5)], 0})
		l := newBasis(a, b)
		area := math.Abs(geometry.Cross(a, b))
		if math.Abs(geometry.Cross(l.a, l.b)-area) > 1e-9*area {
			t.Fatalf("seed %d, basis %d: the area %g becomes %g", seed, i, area, geometry.Cross(l.a, l.b))
		}
		for _, v := range []orb.Point{a, b} {
			if x := l.fraction(v); math.Abs(x[0]-math.Round(x[0])) > 1e-7 || math.Abs(x[1]-math.Round(x[1])) > 1e-7 {
				t.Fatalf("seed %d, basis %d: %v is not of the lattice %+v", seed, i, v, l)
			}
		}
		la, lb := math.Hypot(l.a[0], l.a[1]), math.Hypot(l.b[0], l.b[1])
		for x := -3.0; x <= 3; x++ {
			for y := -3.0; y <= 3; y++ {
				v := l.at(orb.Point{x, y})
				d := math.Hypot(v[0], v[1])
				if (x != 0 || y != 0) && d < la*(1-1e-9) || y != 0 && d < lb*(1-1e-9) {
					t.Errorf("seed %d, basis %d: %v is shorter than its basis %+v has it", seed, i, v, l)
				}
			}
		}
		if l.a[0] < 0 || math.Abs(geometry.Dot(l.a, l.b)) > geometry.Dot(l.a, l.a)*(0.5+1e-9) ||
			math.Abs(geometry.Dot(l.a, l.b)-geometry.Dot(l.a, l.a)/2) < 1e-9 {
			t.Errorf("seed %d, basis %d: %+v is not as promised", seed, i, l)
		}
	}
}
