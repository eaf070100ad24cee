package simplify

import (
	"math"
	"testing"

	"openwork/geometry"
	"openwork/geometry/contour"

	"github.com/paulmach/orb"
)

func phi(x float64) float64 { return 0.5 * math.Erfc(-x/math.Sqrt2) }

// blurred returns the line at half darkness of a picture that is f at each place, in grid units.
func blurred(t *testing.T, size int, f func(x, y float64) float64) orb.Ring {
	t.Helper()
	g := contour.Grid[float64]{Width: size, Height: size}
	for j := range size {
		for i := range size {
			g.Values = append(g.Values, f(float64(i), float64(j)))
		}
	}
	var out orb.Ring
	if err := contour.Walk(g, 0.5, func(r orb.Ring, _ float64) bool {
		out = append(out, r...)
		return false
	}); err != nil {
		t.Fatal(err)
	}
	return out
}

// A blurred rectangle is the product of two blurred strips: exact. Its corners come back; without telling the blur they
// stay round.
func TestBlurredCornersComeBack(t *testing.T) {
	for _, blur := range []float64{0.8, 1, 1.7, 2.5} {
		rect := blurred(t, 60, func(x, y float64) float64 {
			return (phi((x-10.3)/blur) - phi((x-47.8)/blur)) * (phi((y-8.6)/blur) - phi((y-40.1)/blur))
		})
		got, err := Ring(rect, Options{Tolerance: 0.3, Blur: blur})
		if err != nil || len(got) != 5 {
			t.Errorf("blur %g: %d corners (%v) %v", blur, len(got)-1, err, got)
			continue
		}
		for _, want := range []orb.Point{{10.3, 8.6}, {47.8, 8.6}, {47.8, 40.1}, {10.3, 40.1}} {
			best := math.Inf(1)
			for _, v := range got {
				best = math.Min(best, math.Hypot(v[0]-want[0], v[1]-want[1]))
			}
			if best > 0.1*blur {
				t.Errorf("blur %g: the corner %v is %.3f off", blur, want, best)
			}
		}
		if a := geometry.RingArea(got)/(37.5*31.5) - 1; math.Abs(a) > 1e-3 {
			t.Errorf("blur %g: area is off by %.3f %%", blur, 100*a)
		}
		if got, err = Ring(rect, Options{Tolerance: 0.3}); err != nil || away(got, rect, 0.2) > 0.3+geometry.Grid {
			t.Errorf("blur %g not told: %v mm away (%v)", blur, away(got, rect, 0.2), err)
		}
	}
}

// Tips sharper than a right angle: the blurred triangle is worked out by adding up a fine grid.
func TestBlurredTipsComeBack(t *testing.T) {
	const blur, fine = 1.0, 4
	for _, tip := range []float64{30, 45, 60} {
		h := 18 / math.Tan(tip*math.Pi/360) // half the base is 18
		size := int(h) + 30
		half := func(y float64) float64 { return 18 * (10.4 + h - y) / h } // of the width, at height y
		// Blur exactly along x, then add up along y.
		tri := blurred(t, size, func(x, y float64) float64 {
			sum, weight := 0.0, 0.0
			for k := -4 * fine; k <= 4*fine; k++ {
				d := float64(k) / fine
				w := math.Exp(-d * d / (2 * blur * blur))
				weight += w
				if v := y + d; v > 10.4 && v < 10.4+h {
					sum += w * (phi((x-30.2+half(v))/blur) - phi((x-30.2-half(v))/blur))
				}
			}
			return sum / weight
		})
		got, err := Ring(tri, Options{Tolerance: 0.3, Blur: blur})
		if err != nil || len(got) != 4 {
			t.Errorf("tip of %g°: %d corners (%v) %v", tip, len(got)-1, err, got)
			continue
		}
		best := math.Inf(1)
		for _, v := range got {
			best = math.Min(best, math.Hypot(v[0]-30.2, v[1]-10.4-h))
		}
		if best > 0.3 {
			t.Errorf("tip of %g°: %.3f off", tip, best)
		}
	}
}

// What was drawn round stays round: nothing lies further from the ring than the tolerance.
func TestRoundCornersStayRound(t *testing.T) {
	const blur = 1.0
	for _, radius := range []float64{4, 6, 10, 15} {
		// A square of side 40 with round corners, and a disc.
		for name, inside := range map[string]func(x, y float64) float64{
			"square": func(x, y float64) float64 {
				dx, dy := math.Max(0, math.Abs(x-30.1)-20+radius), math.Max(0, math.Abs(y-29.7)-20+radius)
				if dx == 0 || dy == 0 {
					return math.Min(20-math.Abs(x-30.1), 20-math.Abs(y-29.7))
				}
				return radius - math.Hypot(dx, dy)
			},
			"disc": func(x, y float64) float64 { return radius - math.Hypot(x-30.1, y-29.7) },
		} {
			t.Run(name, func(t *testing.T) {
				r := blurred(t, 60, func(x, y float64) float64 { return phi(inside(x, y) / blur) })
				got, err := Ring(r, Options{Tolerance: 0.3, Blur: blur})
				if err != nil {
					t.Errorf("radius %g: %v", radius, err)
					return
				}
				if d := away(got, r, 0.1); d > 0.3+geometry.Grid {
					t.Errorf("radius %g: %.3f away", radius, d)
				}
			})
		}
	}
}

func BenchmarkOutline(b *testing.B) {
	for _, n := range []int{2000, 20000, 200000} {
		radius := float64(n) / 2 / math.Pi
		r := ringOf(n, func(a float64) orb.Point {
			v := radius * (1 + 0.2*math.Sin(5*a))
			return orb.Point{v * math.Cos(a), v * math.Sin(a)}
		})
		b.Run(map[int]string{2000: "2,000 points", 20000: "20,000 points", 200000: "200,000 points"}[n],
			func(b *testing.B) {
				for range b.N {
					if _, err := Ring(r, Options{Tolerance: 0.35, Blur: 1}); err != nil {
						b.Fatal(err)
					}
				}
			})
	}
}
