package overlay

import (
	"math"
	"math/bits"
)

// point is a point of the grid, in steps. Both numbers are whole and below 2^50 in size, so that differences of two
// points are exact.
type point struct{ x, y float64 }

// less orders points by x, then by y.
func (p point) less(q point) bool { return p.x < q.x || (p.x == q.x && p.y < q.y) }

// orient returns 1 when c lies left of the line from a to b, -1 when right of it, 0 when on it, exactly.
func orient(a, b, c point) int {
	return crossSign(b.x-a.x, b.y-a.y, c.x-a.x, c.y-a.y)
}

// dotSign returns 1 when the way from a to b advances in direction d, -1 when it goes back, 0 when it does neither,
// exactly.
func dotSign(d, a, b point) int { return crossSign(d.x, -d.y, b.y-a.y, b.x-a.x) }

// crossSign returns the sign of ax·by − ay·bx for whole numbers below 2^52 in size. Each product has a relative error
// of 2^-53 at most, and so has their difference; where that leaves the sign in doubt it is taken from 128 bits.
func crossSign(ax, ay, bx, by float64) int {
	l, r := ax*by, ay*bx
	d := l - r
	if bound := (math.Abs(l) + math.Abs(r)) * (4.0 / (1 << 53)); d > bound {
		return 1
	} else if d < -bound {
		return -1
	}
	return compareProducts(int64(ax), int64(by), int64(ay), int64(bx))
}

// compareProducts returns the sign of a·b − c·d.
func compareProducts(a, b, c, d int64) int {
	s, sh, sl := wideProduct(a, b)
	t, th, tl := wideProduct(c, d)
	if s != t {
		if s < t {
			return -1
		}
		return 1
	}
	switch {
	case sh > th || (sh == th && sl > tl):
		return s
	case sh == th && sl == tl:
		return 0
	}
	return -s
}

// wideProduct returns the sign of a·b and its size in 128 bits.
func wideProduct(a, b int64) (sign int, hi, lo uint64) {
	if a == 0 || b == 0 {
		return 0, 0, 0
	}
	sign = 1
	if a < 0 {
		a, sign = -a, -sign
	}
	if b < 0 {
		b, sign = -b, -sign
	}
	hi, lo = bits.Mul64(uint64(a), uint64(b))
	return sign, hi, lo
}
