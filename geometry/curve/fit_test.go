package curve

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
)

// What is promised, on every fixture, at four turns, mirrored, and with both kinds: the deviation told is not less than
// what is measured by brute force both ways and not more than asked, area is kept, nothing crosses, corners stand
// exactly, and elsewhere pieces meet in one direction.
func TestFitsKeepTheirPromises(t *testing.T) {
	const seed = 3
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	turns := append([]int{0}, geometrytest.Share(t, []int{1, 2, 3, 4}, 1)...)
	for name, ring := range fixtures(t, r) {
		for _, turn := range turns {
			m := geometry.TurnDegrees(37*float64(turn)).Moved(float64(turn)*100, 5)
			if turn == 4 {
				m = geometry.MirrorX
			}
			mp := geometry.Transform(geometry.Orient(orb.MultiPolygon{{ring}}), m)
			for _, kind := range []Kind{Cubic, Arc} {
				where := fmt.Sprintf("%s, turn %d, kind %d", name, turn, kind)
				f, err := Outline(mp, Options{Kind: kind, Tolerance: DefaultTolerance})
				if err != nil {
					t.Fatalf("%s: %v", where, err)
				}
				p := f.Paths[0][0]
				if !p.Closed() {
					t.Fatalf("%s: the path is open", where)
				}
				flat := p.Flatten(4e-4)
				if turn == 0 {
					there, back := farFrom(mp[0][0], flat), farFrom(flat, mp[0][0])
					if worst := max(there, back); worst > f.Deviation+4e-4 || f.Deviation > DefaultTolerance {
						t.Errorf("%s: measured %.5f mm, told %.5f", where, worst, f.Deviation)
					}
				}
				if a, b := p.Area(), geometry.RingArea(mp[0][0]); math.Abs(a-b) > AreaSlack*b {
					t.Errorf("%s: area %g, the polygon has %g", where, a, b)
				}
				if a, b := p.Area(), geometry.RingArea(flat); math.Abs(a-b) > 4e-4*p.Length()+1e-6*a {
					t.Errorf("%s: area %g, flattened %g", where, a, b)
				}
				if err := geometry.CheckOutline(orb.MultiPolygon{{distinct(p.Flatten(1e-3))}}); err != nil {
					t.Errorf("%s: %v", where, err)
				}
				checkJoints(t, where, p, mp[0][0])
			}
		}
	}
}

// checkJoints holds the joints of a path: at corners on a vertex of the polygon, elsewhere within half a degree of one
// direction. A path of straight lines only has no such joints.
func checkJoints(t *testing.T, where string, p Path, ring orb.Ring) {
	t.Helper()
	vertex := map[orb.Point]bool{}
	for _, v := range ring {
		vertex[v] = true
	}
	n := len(p.Pieces)
	lines, kinks := 0, 0
	for _, q := range p.Pieces {
		if q.Kind == Line {
			lines++
		}
	}
	for i, q := range p.Pieces {
		next := p.Pieces[(i+1)%n]
		if q.Corner {
			if lines < n && !vertex[q.To] {
				t.Errorf("%s: a corner at %v is no vertex", where, q.To)
			}
			continue
		}
		if q.Kind == Line && next.Kind == Line || lines == n {
			continue
		}
		u, v := q.leave(p.From(i)), next.enter(q.To)
		if a := math.Abs(math.Atan2(geometry.Cross(u, v), geometry.Dot(u, v))); a > math.Pi/360 {
			// A pair of arcs may not fit along an edge, and the straight line that does leans.
			if kinks++; (q.Kind == Line || next.Kind == Line) && kinks <= n/20 {
				continue
			}
			t.Errorf("%s: piece %d of %d turns by %.2f° into the next", where, i, n, a*180/math.Pi)
		}
	}
}

// The figure: at most a third of the polygon's points at the same tolerance, on smooth shapes as they are
// traced.
func TestPiecesAgainstPoints(t *testing.T) {
	const seed = 1
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 1))
	var points, cubics, arcs int
	for _, size := range []float64{20, 40, 60, 90} {
		for waves := 3; waves < 8; waves++ {
			ring := traced(t, wavy(r, size, waves, 8000), DefaultTolerance)
			for kind, sum := range map[Kind]*int{Cubic: &cubics, Arc: &arcs} {
				t.Run(fmt.Sprintf("kind %d, %g mm, %d waves", kind, size, waves), func(t *testing.T) {
					f, err := Outline(orb.MultiPolygon{{ring}}, Options{Kind: kind, Tolerance: DefaultTolerance})
					if err != nil {
						t.Fatal(err)
					}
					*sum += f.Pieces
					if kind == Cubic {
						points += f.Points
					}
				})
			}
		}
	}
	t.Logf("%d points, %d cubics (%.3f), %d lines and arcs (%.3f)", points, cubics, float64(cubics)/float64(points),
		arcs, float64(arcs)/float64(points))
	if 3*cubics > points {
		t.Errorf("%d cubics for %d points", cubics, points)
	}
	if arcs > points {
		t.Errorf("%d lines and arcs for %d points", arcs, points)
	}
}

func TestCornersByName(t *testing.T) {
	arc := func(n int, r float64) orb.Ring { // a half disc: two corners, where the straight side ends
		var out orb.Ring
		for k := range n + 1 {
			s, c := math.Sincos(math.Pi * float64(k) / float64(n))
			out = append(out, orb.Point{r * c, r * s})
		}
		return append(out, out[0])
	}
	for _, c := range []struct {
		name    string
		ring    orb.Ring
		corners int
	}{
		{"square", orb.Ring{{0, 0}, {10, 0}, {10, 10}, {0, 10}, {0, 0}}, 4},
		{"square with points on its sides", orb.Ring{{0, 0}, {5, 0}, {10, 0}, {10, 5}, {10, 10}, {5, 10}, {0, 10},
			{0, 5}, {0, 0}}, 4},
		{"circle of 24", Circle(orb.Point{}, 5, Arc).Flatten(0.04), 0},
		{"circle of many", Circle(orb.Point{}, 5, Arc).Flatten(0.001), 0},
		{"half disc", arc(20, 8), 2},
		{"half disc, fine", arc(90, 8), 2},
		{"half disc, small", arc(8, 0.5), 2},
		{"kink of 20° in long sides", orb.Ring{{0, 0}, {20, 0}, {38.8, 6.84}, {20, 30}, {0, 0}}, 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := 0
			for _, q := range Polygon(c.ring).Pieces {
				if q.Corner {
					n++
				}
			}
			if n != c.corners {
				t.Errorf("%d corners, want %d", n, c.corners)
			}
		})
	}
}

// Random rubbish in: no panic, an answer or an error, and a valid answer for a valid outline.
func FuzzOutline(f *testing.F) {
	f.Add(uint64(1), uint8(9), 5.0)
	f.Add(uint64(2), uint8(40), 1e-3)
	f.Add(uint64(3), uint8(3), 1e5)
	f.Fuzz(func(t *testing.T, seed uint64, n uint8, size float64) {
		r := rand.New(rand.NewPCG(seed, 7))
		var ring orb.Ring
		switch seed % 3 {
		case 0:
			for range int(n) {
				ring = append(ring, orb.Point{size * (r.Float64() - 0.5), size * (r.Float64() - 0.5)})
			}
			if len(ring) > 0 {
				ring = append(ring, ring[0])
			}
		case 1:
			ring = jagged(r, size, int(n)+3)
		default:
			ring = wavy(r, size, 5, int(n)+3)
		}
		mp := orb.MultiPolygon{{ring}}
		valid := geometry.CheckOutline(mp) == nil
		for _, kind := range []Kind{Line, Cubic, Arc} {
			f, err := Outline(mp, Options{Kind: kind, Tolerance: DefaultTolerance})
			if err != nil || !valid {
				continue
			}
			if p := f.Paths[0][0]; !p.Closed() || f.Deviation > DefaultTolerance {
				t.Errorf("closed %v, deviation %g", p.Closed(), f.Deviation)
			} else if err := geometry.CheckOutline(
				orb.MultiPolygon{{distinct(p.Flatten(DefaultTolerance / 10))}}); err != nil {
				t.Error(err)
			}
		}
	})
}

func BenchmarkOutline(b *testing.B) {
	s := wavy(rand.New(rand.NewPCG(1, 1)), 7, 6, 300)
	for name, k := range map[string]Kind{"cubic": Cubic, "arcs": Arc} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Outline(orb.MultiPolygon{{s}}, Options{Kind: k, Tolerance: DefaultTolerance}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
