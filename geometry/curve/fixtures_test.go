package curve

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/contour"
	"openwork/geometry/simplify"
)

// wavy returns n points on a smooth closed curve about size mm from middle to tip.
func wavy(r *rand.Rand, size float64, waves, n int) orb.Ring {
	amp, phase := make([]float64, waves), make([]float64, waves)
	for k := range amp {
		amp[k], phase[k] = 0.35*r.Float64()/float64(k+1), 2*math.Pi*r.Float64()
	}
	var out orb.Ring
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		d := 0.6
		for k := range amp {
			d += amp[k] * math.Cos(float64(k+2)*a+phase[k])
		}
		d = size * math.Max(d, 0.15)
		out = append(out, orb.Point{d * math.Cos(a), d * math.Sin(a)})
	}
	return append(out, out[0])
}

// jagged returns a star-shaped ring of random corners.
func jagged(r *rand.Rand, size float64, n int) orb.Ring {
	var out orb.Ring
	for i := range n {
		a := 2 * math.Pi * (float64(i) + 0.7*r.Float64()) / float64(n)
		d := size * (0.45 + 0.55*r.Float64())
		out = append(out, orb.Point{geometry.Snap(d * math.Cos(a)), geometry.Snap(d * math.Sin(a))})
	}
	return append(out, out[0])
}

// traced draws a dense ring with few points as the tracing does.
func traced(t *testing.T, dense orb.Ring, tolerance float64) orb.Ring {
	t.Helper()
	s, err := simplify.Ring(dense, simplify.Options{Tolerance: tolerance})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// farFrom returns the greatest distance of points taken densely along one way from another, by going through all edges
// but those that begin farther away, by more than their length, than the nearest so far.
func farFrom(a, b orb.Ring) float64 {
	worst, last := 0.0, 0 // last is the edge nearest to the point before
	lengths := make([]float64, len(b))
	for j := 0; j+1 < len(b); j++ {
		lengths[j] = distance(b[j], b[j+1])
	}
	spacing := max(0.02, geometry.Length(orb.MultiPolygon{{a}})/3000)
	for i := 0; i+1 < len(a); i++ {
		n := max(1, int(distance(a[i], a[i+1])/spacing))
		for k := range n {
			p := geometry.Lerp(a[i], a[i+1], float64(k)/float64(n))
			closest := offSegment(b[last], b[last+1], p)
			for j := 0; j+1 < len(b); j++ {
				reach := closest + lengths[j]
				if math.Abs(p[0]-b[j][0]) > reach || math.Abs(p[1]-b[j][1]) > reach {
					continue
				}
				if d := offSegment(b[j], b[j+1], p); d < closest {
					closest, last = d, j
				}
			}
			worst = max(worst, closest)
		}
	}
	return worst
}

// fixtures are the shapes that the properties are held on.
func fixtures(t *testing.T, r *rand.Rand) map[string]orb.Ring {
	t.Helper()
	circle := Circle(orb.Point{3, 4}, 6, Arc).Flatten(0.004)
	stadium := orb.Ring{{-20, -5}}
	for k := range 41 {
		s, c := math.Sincos(-math.Pi/2 + math.Pi*float64(k)/40)
		stadium = append(stadium, orb.Point{20 + 5*c, 5 * s})
	}
	stadium = append(stadium, orb.Point{-20, 5})
	stadium = append(stadium, stadium[0])
	return map[string]orb.Ring{
		"circle": circle, "half stadium": stadium,
		"square":       {{0, 0}, {10, 0}, {10, 10}, {0, 10}, {0, 0}},
		"triangle":     {{0, 0}, {7, 1}, {3, 6}, {0, 0}},
		"hair":         {{0, 0}, {30, 0.01}, {30, 0.05}, {0, 0}},
		"wavy":         traced(t, wavy(r, 20, 6, 4000), 0.02),
		"wavy, coarse": traced(t, wavy(r, 20, 6, 4000), 0.08),
		"wavy, 300":    wavy(r, 7, 6, 300),
		"jagged":       jagged(r, 8, 40),
		"jagged, tiny": jagged(r, 0.3, 12),
		"crumb":        jagged(r, 0.01, 8),
		"large":        traced(t, wavy(r, 400, 8, 4000), 0.05),
		"scanned":      contourOf(t, r),
	}
}

// contourOf returns an outline as a scan gives it: a level line through grey values.
func contourOf(t *testing.T, r *rand.Rand) orb.Ring {
	t.Helper()
	const n = 60
	shape := geometry.NewShape(orb.MultiPolygon{{jagged(r, 25, 14)}})
	values := make([]float32, n*n)
	for y := range n {
		for x := range n {
			p := orb.Point{float64(x) - n/2, float64(y) - n/2}
			d := shape.DistanceTo(p, 3)
			v := 1.0
			if d.Found {
				v = d.D / 3
			}
			if shape.Contains(p) {
				v = -v
			}
			values[y*n+x] = float32(-v)
		}
	}
	var best orb.Ring
	err := contour.Walk(contour.Grid[float32]{Width: n, Height: n, Values: values, Outside: -1}, 0,
		func(ring orb.Ring, _ float64) bool {
			if len(ring) > len(best) {
				best = append(orb.Ring(nil), ring...)
			}
			return true
		})
	if err != nil {
		t.Fatal(err)
	}
	return best
}
