package simplify

import (
	"math"
	"math/rand"
	"testing"

	"openwork/geometry"

	"github.com/paulmach/orb"
)

// ringOf samples a closed curve n times.
func ringOf(n int, at func(t float64) orb.Point) orb.Ring {
	var r orb.Ring
	for k := range n {
		r = append(r, at(2*math.Pi*float64(k)/float64(n)))
	}
	return append(r, r[0])
}

func closed(p ...orb.Point) orb.Ring { return append(append(orb.Ring{}, p...), p[0]) }

// dense puts points along the edges of a ring, step mm apart.
func dense(r orb.Ring, step float64) orb.Ring {
	var out orb.Ring
	for k := 0; k+1 < len(r); k++ {
		n := max(1, int(math.Hypot(r[k+1][0]-r[k][0], r[k+1][1]-r[k][1])/step))
		for i := range n {
			t := float64(i) / float64(n)
			out = append(out, orb.Point{r[k][0] + t*(r[k+1][0]-r[k][0]), r[k][1] + t*(r[k+1][1]-r[k][1])})
		}
	}
	return append(out, out[0])
}

func backward(r orb.Ring) orb.Ring {
	out := make(orb.Ring, len(r))
	for k, v := range r {
		out[len(r)-1-k] = v
	}
	return out
}

// away returns the greatest distance of any point of a, sampled every step, from b: brute force.
func away(a, b orb.Ring, step float64) float64 {
	worst := 0.0
	for _, v := range dense(a, step) {
		best := math.Inf(1)
		for k := 0; k+1 < len(b); k++ {
			best = math.Min(best, toSegment(v, b[k], b[k+1]))
		}
		worst = math.Max(worst, best)
	}
	return worst
}

// chordCount returns how many points the rule of Douglas and Peucker keeps of a ring.
func chordCount(r orb.Ring, tolerance float64) int {
	f := newFit(r, Options{Tolerance: 2 * tolerance}, nil)
	far, best := 0, 0.0
	for k, v := range f.p {
		if d := math.Hypot(v[0]-f.p[0][0], v[1]-f.p[0][1]); d > best {
			far, best = k, d
		}
	}
	n := 2
	f.chords(span{i: 0, j: far, level: 1}, func(int) { n++ })
	f.chords(span{i: far, j: 0, level: 1}, func(int) { n++ })
	return n
}

// placed returns fixtures turned, mirrored and scaled.
func placed(r orb.Ring) map[string]orb.Ring {
	out := map[string]orb.Ring{}
	for name, m := range map[string][4]float64{
		"as it is": {1, 0, 0, 1}, "turned by 90°": {0, 1, -1, 0}, "turned by 37°": {0.7986, 0.6018, -0.6018, 0.7986},
		"turned by 200°": {-0.9397, -0.342, 0.342, -0.9397}, "mirrored": {-1, 0, 0, 1}, "small": {0.3, 0, 0, 0.3},
		"large": {5, 0, 0, 5},
	} {
		var s orb.Ring
		for _, v := range r {
			s = append(s, orb.Point{m[0]*v[0] + m[2]*v[1] + 50, m[1]*v[0] + m[3]*v[1] + 30})
		}
		if m[0]*m[3]-m[1]*m[2] < 0 {
			s = backward(s)
		}
		out[name] = s
	}
	return out
}

// Polygons come back corner by corner, however many points lie along their sides.
func TestPolygonsKeepTheirCorners(t *testing.T) {
	var star orb.Ring
	for k := range 10 {
		r := []float64{10, 4}[k%2]
		star = append(star, orb.Point{r * math.Cos(float64(k)*math.Pi/5), r * math.Sin(float64(k)*math.Pi/5)})
	}
	for name, r := range map[string]orb.Ring{
		"square":   closed(orb.Point{0, 0}, orb.Point{10, 0}, orb.Point{10, 10}, orb.Point{0, 10}),
		"triangle": closed(orb.Point{0, 0}, orb.Point{9, 1}, orb.Point{3, 7}),
		"star":     closed(star...),
		"step": closed(orb.Point{0, 0}, orb.Point{10, 0}, orb.Point{10, 5}, orb.Point{6, 5}, orb.Point{6, 8},
			orb.Point{0, 8}),
		"sliver": closed(orb.Point{0, 0}, orb.Point{20, 0}, orb.Point{20, 0.4}),
	} {
		t.Run(name, func(t *testing.T) {
			for how, p := range placed(r) {
				for _, step := range []float64{1e9, 0.11} {
					got, err := Ring(dense(p, step), Options{Tolerance: 0.02})
					if err != nil || len(got) != len(r) {
						t.Errorf("%s, a point every %g: %d corners, not %d (%v)", how, step, len(got)-1, len(r)-1,
							err)
						continue
					}
					for _, v := range p {
						best := math.Inf(1)
						for _, w := range got {
							best = math.Min(best, math.Hypot(v[0]-w[0], v[1]-w[1]))
						}
						if best > 3*geometry.Grid {
							t.Errorf("%s, a point every %g: the corner %v is %g mm off", how, step, v, best)
						}
					}
				}
			}
		})
	}
}

// Round shapes keep their area, lie within the tolerance both ways, and need fewer points than chords do.
func TestRoundShapes(t *testing.T) {
	for name, r := range map[string]orb.Ring{
		"circle":  ringOf(1500, func(a float64) orb.Point { return orb.Point{8 * math.Cos(a), 8 * math.Sin(a)} }),
		"ellipse": ringOf(1500, func(a float64) orb.Point { return orb.Point{12 * math.Cos(a), 3 * math.Sin(a)} }),
		"bean": ringOf(1500, func(a float64) orb.Point {
			return orb.Point{(8 + 3*math.Cos(2*a)) * math.Cos(a), (8 + 3*math.Sin(3*a)) * math.Sin(a)}
		}),
	} {
		t.Run(name, func(t *testing.T) {
			for how, p := range placed(r) {
				for _, tolerance := range []float64{0.01, 0.05, 0.2} {
					got, err := Ring(p, Options{Tolerance: tolerance})
					if err != nil {
						t.Errorf("%s: %v", how, err)
						continue
					}
					size := math.Sqrt(geometry.RingArea(p))
					area := geometry.RingArea(got)/geometry.RingArea(p) - 1
					to, from := away(got, p, size/150), away(p, got, size)
					if math.Abs(area) > areaSlack+2*geometry.Grid/size {
						t.Errorf("%s, tolerance %g: area is off by %.4f %%", how, tolerance, 100*area)
					}
					if limit := tolerance + geometry.Grid; to > limit || from > limit {
						t.Errorf("%s, tolerance %g: %g and %g mm away", how, tolerance, to, from)
					}
					if n, need := len(got)-1, chordCount(p, tolerance); n > need+2 {
						t.Errorf("%s, tolerance %g: %d points, chords need %d", how, tolerance, n, need)
					}
				}
			}
		})
	}
}

// wobbly returns a random smooth ring around a point, with noise along it.
func wobbly(rng *rand.Rand, x, y, radius, noise float64, n int) orb.Ring {
	var amp, phase [9]float64
	for k := range amp {
		amp[k], phase[k] = rng.NormFloat64()*0.25/float64(k+1), 7*rng.Float64()
	}
	return ringOf(n, func(a float64) orb.Point {
		r := 1.0
		for k := range amp {
			r += amp[k] * math.Sin(float64(k+1)*a+phase[k])
		}
		r = radius*math.Max(0.15, r) + noise*rng.NormFloat64()
		return orb.Point{x + r*math.Cos(a), y + r*math.Sin(a)}
	})
}

func TestRandomShapes(t *testing.T) {
	for seed := range int64(40) {
		rng := rand.New(rand.NewSource(seed))
		tolerance := 0.01 * math.Pow(10, rng.Float64())
		r := wobbly(rng, 0, 0, 5+20*rng.Float64(), tolerance/8, 1500)
		got, err := Ring(r, Options{Tolerance: tolerance})
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		if bad := meets(orb.MultiPolygon{{got}}); bad > 0 {
			t.Errorf("seed %d: %d pairs of edges meet", seed, bad)
		}
		limit := tolerance + geometry.Grid
		if to, from := away(got, r, 0.2), away(r, got, 1); to > limit || from > limit {
			t.Errorf("seed %d, tolerance %g: %g and %g mm away", seed, tolerance, to, from)
		}
		if a := geometry.RingArea(got)/geometry.RingArea(r) - 1; math.Abs(a) > areaSlack+1e-5 {
			t.Errorf("seed %d: area is off by %.4f %%", seed, 100*a)
		}
		if n, need := len(got)-1, chordCount(r, tolerance); n > need*13/10 {
			t.Errorf("seed %d: %d points, chords need %d", seed, n, need)
		}
	}
}

// Rise brings arcs nearer for more points, and leaves sides that only shake as they are.
func TestRiseCutsArcsOnly(t *testing.T) {
	const seed, tolerance, rise = 3, 0.05, 0.02
	round := ringOf(3000, func(t float64) orb.Point { return orb.Point{12 * math.Cos(t), 12 * math.Sin(t)} })
	rng := rand.New(rand.NewSource(seed))
	straight := dense(closed(orb.Point{0, 0}, orb.Point{30, 2}, orb.Point{28, 25}, orb.Point{-1, 22}), 0.1)
	for k := range straight[:len(straight)-1] {
		straight[k][0] += 0.02 * (rng.Float64() - 0.5)
		straight[k][1] += 0.02 * (rng.Float64() - 0.5)
	}
	straight[len(straight)-1] = straight[0]
	for _, c := range []struct {
		name     string
		ring     orb.Ring
		min, max float64 // times as many points
	}{{"circle", round, 1.5, 2.05}, {"quadrangle", straight, 1, 1.01}} {
		t.Run(c.name, func(t *testing.T) {
			plain, err := Ring(c.ring, Options{Tolerance: tolerance, Blur: 0.05})
			if err != nil {
				t.Fatal(err)
			}
			near, err := Ring(c.ring, Options{Tolerance: tolerance, Blur: 0.05, Rise: rise})
			if err != nil {
				t.Fatal(err)
			}
			if n := float64(len(near)-1) / float64(len(plain)-1); n < c.min || n > c.max {
				t.Errorf("seed %d: %d points, and %d without", seed, len(near)-1, len(plain)-1)
			}
			if d := away(near, c.ring, 0.02); c.name == "circle" && d > 0.7*away(plain, c.ring, 0.02) {
				t.Errorf("%.4f mm away, and %.4f without", d, away(plain, c.ring, 0.02))
			}
		})
	}
}
