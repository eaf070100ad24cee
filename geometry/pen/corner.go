package pen

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// corners returns the samples at which a line turns sharply between two sides of so many samples.
func corners(pts []orb.Point, side int, closed bool) []int {
	n := len(pts)
	at := func(i int) orb.Point { return pts[i] }
	lo, hi := side, n-1-side
	if closed {
		n-- // the last repeats the first
		at = func(i int) orb.Point { return pts[((i%n)+n)%n] }
		lo, hi = 0, n-1
	}
	turn := make([]float64, n)
	for i := lo; i <= hi; i++ {
		a, b := slope(at, i-side, i), slope(at, i, i+side)
		turn[i] = math.Abs(math.Atan2(geometry.Cross(a, b), geometry.Dot(a, b)))
	}
	var out []int
	for i := lo; i <= hi; i++ {
		if turn[i] < cornerTurn {
			continue
		}
		sharpest := true
		for k := -side; k <= side && sharpest; k++ {
			j := i + k
			if closed {
				j = ((j % n) + n) % n
			}
			if j >= 0 && j < n && (turn[j] > turn[i] || (turn[j] == turn[i] && k < 0)) {
				sharpest = false
			}
		}
		if sharpest {
			out = append(out, i)
		}
	}
	return out
}

// slope returns the direction of the line of least squares through the samples lo to hi, over their numbers.
func slope(at func(int) orb.Point, lo, hi int) orb.Point {
	mid := float64(lo+hi) / 2
	var d orb.Point
	for i := lo; i <= hi; i++ {
		d = geometry.Add(d, geometry.Times(at(i), float64(i)-mid))
	}
	return geometry.Unit(d)
}

// meet returns the corner between the end of one line and the beginning of the next: where their directions meet, if
// that is within reach of what was drawn, else the middle between the two ends.
func meet(a, b []orb.Point, drawn orb.Point, reach float64) orb.Point {
	p, q := a[len(a)-1], b[0]
	u, v := direction(a, max(1, len(a)-3)), direction(b, min(2, len(b)-2))
	if d := geometry.Cross(u, v); math.Abs(d) > 0.3 {
		c := geometry.Add(p, geometry.Times(u, geometry.Cross(geometry.Sub(q, p), v)/d))
		if geometry.PointDistance(c, drawn) <= reach {
			return c
		}
	}
	return geometry.Lerp(p, q, 0.5)
}
