package geometry

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
)

// blob returns a star-shaped outline of n corners about c, sometimes with a hole: concave, but never self-crossing.
func blob(r *rand.Rand, c orb.Point, size float64, n int, hole bool) orb.MultiPolygon {
	ring := func(lo, hi float64) orb.Ring {
		var out orb.Ring
		for i := range n {
			a := 2 * math.Pi * (float64(i) + 0.8*r.Float64()) / float64(n)
			d := size * (lo + (hi-lo)*r.Float64())
			out = append(out, orb.Point{c[0] + d*math.Cos(a), c[1] + d*math.Sin(a)})
		}
		return append(out, out[0])
	}
	p := orb.Polygon{ring(0.5, 1)}
	if hole {
		p = append(p, ring(0.1, 0.4))
	}
	return Orient(orb.MultiPolygon{p})
}

// edgesOf lists the edges of an outline for the brute-force answers.
func edgesOf(mp orb.MultiPolygon) (out [][2]orb.Point) {
	for _, p := range mp {
		for _, r := range p {
			for i := 0; i+1 < len(r); i++ {
				out = append(out, [2]orb.Point{r[i], r[i+1]})
			}
		}
	}
	return out
}

func TestDistanceAgainstAllPairs(t *testing.T) {
	const seed = 11
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for range 400 {
		a := blob(r, orb.Point{0, 0}, 10, 3+r.IntN(60), r.IntN(2) == 0)
		b := blob(r, orb.Point{}, 10, 3+r.IntN(60), r.IntN(2) == 0)
		shift := orb.Point{40 * (r.Float64() - 0.5), 40 * (r.Float64() - 0.5)}
		moved := Transform(b, Translate(shift[0], shift[1]))
		want := math.Inf(1)
		for _, e := range edgesOf(a) {
			for _, f := range edgesOf(moved) {
				_, _, d2 := segmentsNear(e[0], e[1], f[0], f[1])
				want = math.Min(want, math.Sqrt(d2))
			}
		}
		got := Distance(NewShape(a), NewShape(b), shift, math.Inf(1))
		if !got.Found || math.Abs(got.D-want) > 1e-9 {
			t.Fatalf("distance %v, all pairs give %v", got, want)
		}
		if d := math.Sqrt(dist2(got.P, got.Q)); math.Abs(d-got.D) > 1e-9 {
			t.Fatalf("ends %v are %g apart, distance says %g", got, d, got.D)
		}
		if want > 0.1 && Distance(NewShape(a), NewShape(b), shift, want*0.999).Found {
			t.Fatalf("found something nearer than the nearest")
		}
	}
}

func TestOverlapAreaOfConvexShapesAgainstClipping(t *testing.T) {
	const seed = 12
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for range 500 {
		a, b := convex(r, 3+r.IntN(20)), convex(r, 3+r.IntN(20))
		want := RingArea(clipConvex(a, b))
		got := OverlapArea(NewShape(orb.MultiPolygon{{a}}), NewShape(orb.MultiPolygon{{b}}), orb.Point{})
		if math.Abs(got-want) > 1e-9*(1+want) {
			t.Fatalf("overlap %.12g, clipping gives %.12g", got, want)
		}
	}
}

func TestOverlapAreaProperties(t *testing.T) {
	const seed = 13
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for range 300 {
		a := blob(r, orb.Point{0, 0}, 10, 5+r.IntN(80), r.IntN(2) == 0)
		b := blob(r, orb.Point{6 * r.Float64(), 6 * r.Float64()}, 8, 5+r.IntN(80), r.IntN(2) == 0)
		sa, sb := NewShape(a), NewShape(b)
		ab := OverlapArea(sa, sb, orb.Point{})
		if self := OverlapArea(sa, sa, orb.Point{}); math.Abs(self-Area(a)) > 1e-9*Area(a) {
			t.Fatalf("with itself %g, area %g", self, Area(a))
		}
		if ba := OverlapArea(sb, sa, orb.Point{}); math.Abs(ab-ba) > 1e-9*(1+ab) {
			t.Fatalf("a with b %g, b with a %g", ab, ba)
		}
		m := Turn(r.Float64()*7).After(MirrorX).Moved(r.Float64(), r.Float64())
		if c := OverlapArea(sa.Place(m, nil), sb.Place(m, nil), orb.Point{}); math.Abs(ab-c) > 1e-8*(1+ab) {
			t.Fatalf("before a mirroring map %g, after it %g", ab, c)
		}
	}
}

// convex returns a convex ring, counter-clockwise.
func convex(r *rand.Rand, n int) orb.Ring {
	c := orb.Point{4 * r.Float64(), 4 * r.Float64()}
	angles := make([]float64, n)
	sum := 0.0
	for i := range angles {
		angles[i] = 0.2 + r.Float64()
		sum += angles[i]
	}
	var out orb.Ring
	at := r.Float64()
	for i := range angles {
		at += angles[i] / sum * 2 * math.Pi
		out = append(out, orb.Point{c[0] + 3*math.Cos(at), c[1] + 5*math.Sin(at)})
	}
	return append(out, out[0])
}

// clipConvex is the common part of two convex rings, by cutting the first with each edge of the second.
func clipConvex(a, b orb.Ring) orb.Ring {
	cur := append(orb.Ring(nil), a[:len(a)-1]...)
	for i := 0; i+1 < len(b); i++ {
		side := func(p orb.Point) float64 {
			return (b[i+1][0]-b[i][0])*(p[1]-b[i][1]) - (b[i+1][1]-b[i][1])*(p[0]-b[i][0])
		}
		var next orb.Ring
		for k, p := range cur {
			q := cur[(k+1)%len(cur)]
			sp, sq := side(p), side(q)
			if sp >= 0 {
				next = append(next, p)
			}
			if (sp >= 0) != (sq >= 0) {
				t := sp / (sp - sq)
				next = append(next, orb.Point{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])})
			}
		}
		cur = next
	}
	if len(cur) == 0 {
		return nil
	}
	return append(cur, cur[0])
}

func TestInRect(t *testing.T) {
	rect := orb.Bound{Min: orb.Point{0, 0}, Max: orb.Point{10, 10}}
	square := func(x, y, s float64) *Shape {
		return RectShape(orb.Bound{Min: orb.Point{x, y}, Max: orb.Point{x + s, y + s}})
	}
	for _, c := range []struct {
		name string
		s    *Shape
		want Place
	}{
		{"well inside", square(3, 3, 2), Within},
		{"touching from inside", square(0, 0, 2), Within},
		{"the rectangle itself", square(0, 0, 10), Within},
		{"touching from outside", square(10, 3, 2), Outside},
		{"corner to corner", square(10, 10, 2), Outside},
		{"over one side", square(9, 3, 2), Across},
		{"swallowing it", square(-5, -5, 30), Across},
		{"far away", square(50, 50, 2), Outside},
		{"a frame round it", NewShape(orb.MultiPolygon{{
			RectOutline(orb.Bound{Min: orb.Point{-5, -5}, Max: orb.Point{15, 15}})[0][0],
			Orient(orb.MultiPolygon{{RectOutline(orb.Bound{Min: orb.Point{-1, -1},
				Max: orb.Point{11, 11}})[0][0]}})[0][0],
		}}), Outside},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.s.InRect(rect, orb.Point{}); got != c.want {
				t.Errorf("%v, want %v", got, c.want)
			}
		})
	}
}

func TestNecks(t *testing.T) {
	// A dumb-bell: two squares of 10 joined by a bar 2 wide and 6 long.
	bell := orb.MultiPolygon{{orb.Ring{{0, 0}, {10, 0}, {10, 4}, {16, 4}, {16, 0}, {26, 0}, {26, 10}, {16, 10}, {16, 6},
		{10, 6}, {10, 10}, {0, 10}, {0, 0}}}}
	// A bay with a narrow mouth: 8 × 8 of plane behind a gap of 1.5.
	bay := orb.MultiPolygon{{orb.Ring{{0, 0}, {20, 0}, {20, 20}, {10.75, 20}, {10.75, 14}, {14, 14}, {14, 6}, {6, 6},
		{6, 14}, {9.25, 14}, {9.25, 20}, {0, 20}, {0, 0}}}}
	// A slot 1.5 wide that ends inside: a tongue of plane held at one end.
	slot := orb.MultiPolygon{{orb.Ring{{0, 0}, {20, 0}, {20, 20}, {10.75, 20}, {10.75, 6}, {9.25, 6}, {9.25, 20},
		{0, 20}, {0, 0}}}}
	// A wedge: no square segment crosses its point.
	wedge := orb.MultiPolygon{{orb.Ring{{0, 0}, {20, 0}, {10, 3}, {0, 0}}}}
	for _, c := range []struct {
		name   string
		mp     orb.MultiPolygon
		inside bool
		width  float64 // of all its necks under 3 mm; 0 for none
		joins  bool    // the narrowest has room on both sides
	}{
		{"dumb-bell's bar", bell, true, 2, true},
		{"dumb-bell from outside", bell, false, 0, false},
		{"bay's mouth", bay, false, 1.5, true},
		{"slot", slot, false, 1.5, false},
		{"wedge", wedge, true, 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			for turn := range 4 {
				for _, m := range []Map{TurnDegrees(float64(turn) * 37),
					TurnDegrees(float64(turn) * 90).After(MirrorX).After(Scale(1))} {
					s := NewShape(Transform(c.mp, m))
					got := s.Necks(3, c.inside, math.MaxInt)
					if (len(got) > 0) != (c.width > 0) {
						t.Errorf("%s turned %d: necks %v, want width %g", c.name, turn, got, c.width)
						continue
					}
					for _, n := range got { // one place may come more than once
						if math.Abs(n.Width-c.width) > 1e-9 {
							t.Errorf("%s turned %d: %+v, want width %g", c.name, turn, n, c.width)
						}
					}
					if n, ok := s.NarrowestJoin(0, 3, c.inside); ok != c.joins ||
						(ok && math.Abs(n.Width-c.width) > 1e-9) {
						t.Errorf("%s turned %d: join %+v %v, want %v", c.name, turn, n, ok, c.joins)
					}
				}
			}
		})
	}
}
