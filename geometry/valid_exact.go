package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// turnError bounds the rounding of the determinant in turnOf, as a part of the sum of the sizes of its two products: (3
// + 16ε)ε with ε = 2^-53, from J. R. Shewchuk, "Adaptive Precision Floating-Point Arithmetic and Fast Robust Geometric
// Predicates", Discrete & Computational Geometry 18 (1997).
const turnError = (3 + 16.0/(1<<53)) / (1 << 53)

// turnOf returns 1 when c lies left of the line from a to b, −1 when right of it, 0 when on it. The sign is exact for
// coordinates up to MaxCoordinate in size that are zero or above 1e-140: smaller products fall off a float64's end.
func turnOf(a, b, c orb.Point) int {
	if a == b || b == c || a == c {
		return 0
	}
	l := (a[0] - c[0]) * (b[1] - c[1])
	r := (a[1] - c[1]) * (b[0] - c[0])
	d := l - r
	if bound := turnError * (math.Abs(l) + math.Abs(r)); d > bound {
		return 1
	} else if d < -bound {
		return -1
	}
	return turnExactly(a, b, c)
}

// turnExactly is turnOf by exact sums: the determinant is the sum of six products of coordinates, each of which is a
// float64 and its exact rounding error.
func turnExactly(a, b, c orb.Point) int {
	var sum [12]float64 // a sum of parts that do not overlap, smallest first
	n := 0
	for _, f := range [6][2]float64{{a[0], b[1]}, {-a[1], b[0]}, {b[0], c[1]}, {-b[1], c[0]}, {c[0], a[1]},
		{-c[1], a[0]}} {
		p := float64(f[0] * f[1])
		for _, v := range [2]float64{math.FMA(f[0], f[1], -p), p} {
			// Grow the sum by v: Shewchuk's algorithm GROW-EXPANSION over Knuth's exact addition of two numbers.
			for k := range n {
				t := v + sum[k]
				w := t - v
				sum[k] = (v - (t - w)) + (sum[k] - w)
				v = t
			}
			sum[n] = v
			n++
		}
	}

	// Parts do not overlap, so the largest that is not zero has the sign of the sum.
	for k := n - 1; k >= 0; k-- {
		if sum[k] != 0 {
			return sign(sum[k])
		}
	}
	return 0
}

func sign(v float64) int {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// before orders points by x, then by y: the order in which a sweep along x, leaning a hair, meets them.
func before(p, q orb.Point) bool { return p[0] < q[0] || (p[0] == q[0] && p[1] < q[1]) }
