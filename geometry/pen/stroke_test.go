package pen

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// shaken returns samples of a closed curve, about a step apart, each off by at most jitter in x and in y.
func shaken(rng *rand.Rand, at func(t float64) orb.Point, length, step, jitter float64) []orb.Point {
	n := int(length / step)
	var out []orb.Point
	for i := range n {
		p := at(float64(i) / float64(n))
		out = append(out, orb.Point{p[0] + jitter*(2*rng.Float64()-1), p[1] + jitter*(2*rng.Float64()-1)})
	}
	return out
}

func circle(c orb.Point, r float64) func(float64) orb.Point {
	return func(t float64) orb.Point {
		s, k := math.Sincos(2 * math.Pi * t)
		return orb.Point{c[0] + r*k, c[1] + r*s}
	}
}

// corners4 is a square of side a about the origin, counter-clockwise from its lower left corner.
func corners4(a float64) func(float64) orb.Point {
	return func(t float64) orb.Point {
		t = 4 * (t - math.Floor(t))
		f := (t - math.Floor(t) - 0.5) * a
		switch int(t) {
		case 0:
			return orb.Point{f, -a / 2}
		case 1:
			return orb.Point{a / 2, f}
		case 2:
			return orb.Point{-f, a / 2}
		}
		return orb.Point{-a / 2, -f}
	}
}

// A circle drawn with jitter comes back as that circle, within about 0.1 mm and 1 % of its area, by few points.
func TestStrokeIsACircleAgain(t *testing.T) {
	// within is what one of twenty circles may be off by where it is off most; on the mean all are within 0.1 mm but
	// those with more jitter than that.
	rng := seeded(t)
	for _, c := range []struct{ r, jitter, within, area float64 }{
		{8, 0.1, 0.12, 0.014}, {20, 0.15, 0.13, 0.01}, {60, 0.15, 0.16, 0.01}, {20, 0.25, 0.2, 0.01},
		{60, 0.4, 0.28, 0.01},
	} {
		t.Run(fmt.Sprintf("radius %g, jitter %g", c.r, c.jitter), func(t *testing.T) {
			worst, mean, points, area := 0.0, 0.0, 0, 0.0
			const times = 20
			for range times {
				at := orb.Point{100 * rng.Float64(), 100 * rng.Float64()}
				ring, err := Stroke(shaken(rng, circle(at, c.r), 2*math.Pi*c.r, 0.8, c.jitter), c.jitter)
				if err != nil {
					t.Fatal(err)
				}
				polygon := ring.Polygon()
				off := 0.0
				for _, p := range polygon {
					off = math.Max(off, math.Abs(geometry.PointDistance(p, at)-c.r))
				}
				worst, mean = math.Max(worst, off), mean+off/times
				area = math.Max(area, math.Abs(math.Abs(geometry.RingArea(polygon))/(math.Pi*c.r*c.r)-1))
				points = max(points, len(ring.Nodes))
			}
			t.Logf("radius %g, jitter %g: off by %.3f mm, at most %.3f, area by %.2f %%, up to %d points", c.r,
				c.jitter,
				mean, worst, 100*area, points)
			if worst > c.within || mean > math.Max(0.1, 0.5*c.jitter) || area > c.area || points > 24 {
				t.Errorf("radius %g, jitter %g: more than %g mm, %g of the area or 24 points", c.r, c.jitter, c.within,
					c.area)
			}
		})
	}
}

// A square comes back with its four corners, whichever way it is turned.
func TestStrokeKeepsCorners(t *testing.T) {
	rng := seeded(t)
	for range 30 {
		const a, jitter = 40.0, 0.25
		m := geometry.Turn(2 * math.Pi * rng.Float64())
		from := rng.Float64()
		square := func(t float64) orb.Point { return m.Apply(corners4(a)(t + from)) }
		ring, err := Stroke(shaken(rng, square, 4*a, 0.8, jitter), jitter)
		if err != nil {
			t.Fatal(err)
		}
		sharp := 0
		for _, v := range ring.Nodes {
			if !v.Round {
				sharp++
			}
		}
		for k := range 4 {
			c := m.Apply(corners4(a)(float64(k) / 4))
			near := ring.Nodes[nearest(ring, c)]
			if geometry.PointDistance(near.At, c) > 3*jitter || near.Round {
				t.Errorf("the corner at %.2f is at %.2f, round: %v", c, near.At, near.Round)
			}
		}
		if area := math.Abs(geometry.RingArea(ring.Polygon())); sharp > 4 || math.Abs(area-a*a) > 0.015*a*a {
			t.Errorf("%d corners, %.0f mm² of %g", sharp, area, a*a)
		}
	}
}

func nearest(r Ring, p orb.Point) int {
	best := 0
	for i, v := range r.Nodes {
		if geometry.PointDistance(v.At, p) < geometry.PointDistance(r.Nodes[best].At, p) {
			best = i
		}
	}
	return best
}

// What is drawn beyond the crossing at which a stroke closes itself is left out.
func TestStrokeClosesAtItsCrossing(t *testing.T) {
	var stroke []orb.Point
	for i := range 101 { // with a tail before and one after
		p := circle(orb.Point{}, 20)(float64(i) / 100)
		stroke = append(stroke, p)
	}
	stroke = append([]orb.Point{{24, -6}, {22, -3}}, stroke[1:100]...)
	stroke = append(stroke, orb.Point{21, -2}, orb.Point{26, 1})
	ring, err := Stroke(stroke, 0.3)
	if err != nil {
		t.Fatal(err)
	}
	if b := ring.Polygon().Bound(); b.Max[0] > 22.6 {
		t.Errorf("a tail is left: the line reaches to %.2f", b.Max[0])
	}
}

// Strokes that mean nothing are refused in words.
func TestStrokesThatMeanNothing(t *testing.T) {
	nan, far := math.NaN(), 1e300
	for name, stroke := range map[string][]orb.Point{
		"none":       nil,
		"one":        {{1, 1}},
		"a dot":      {{1, 1}, {1, 1}, {1, 1}, {1, 1}, {1, 1}},
		"no number":  {{1, 1}, {nan, 2}, {3, 3}, {4, 9}},
		"too far":    {{1, 1}, {far, 2}, {3, 3}, {4, 9}},
		"there back": {{0, 0}, {10, 0}, {20, 0}, {10, 0}, {0, 0}},
	} {
		t.Run(name, func(t *testing.T) {
			r, err := Stroke(stroke, 0.3)
			if err == nil {
				_, err = Shape(nil).Joined(r)
			}
			if err == nil {
				t.Errorf("it became a silhouette")
			} else {
				t.Logf("%v", err)
			}
		})
	}
}
