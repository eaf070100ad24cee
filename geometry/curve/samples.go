package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// sample is a place on the polygon that arcs must pass within the limit: between two places square to the polygon's
// way, to its left and to its right.
type sample struct {
	at, left, right orb.Point
	near2           float64 // mm²: what the square of a distance is at most for the place to be at the end of an arc
}

// newSample returns the sample at a place; right is the direction square to the polygon's way. The part outside of the
// limit is to the outside of a turn: right of one to the left when positive; 0: there is none.
func newSample(at, right orb.Point, limit, outside float64) sample {
	l, r := limit, limit
	if outside > 0 {
		r *= outside
	} else if outside < 0 {
		l *= -outside
	}
	return sample{at, geometry.Sub(at, geometry.Times(right, l)), geometry.Add(at, geometry.Times(right, r)),
		limit * limit}
}

// near reports whether a place lies within the limit of the sample.
func (s *sample) near(p orb.Point) bool {
	d := geometry.Sub(s.at, p)
	return geometry.Dot(d, d) <= s.near2
}

// bend returns the interval of half the angle by which an arc from one place to another may turn.
func (c *arcChain) bend(a, z *node) (lo, hi float64, ok bool) {
	p, q := a.at, z.at
	ss := c.samples[c.first[a.joint]:c.first[z.joint]]
	for len(ss) > 0 && ss[0].near(p) {
		ss = ss[1:]
	}
	for len(ss) > 0 && ss[len(ss)-1].near(q) {
		ss = ss[:len(ss)-1]
	}

	// The bulge of an arc by a place is the tangent of half the angle between the ways to it and on. Tangents of the
	// whole angle, within a quarter turn, are in the same order and need no root: here they are fractions.
	loX, loY, hiX, hiY := 0.0, -1.0, 0.0, 1.0
	n := len(ss)
	for stride := 8; stride > 0; stride /= 2 {
		for k := stride - 1; k < n; k += stride {
			if stride < 8 && (k+1)%(2*stride) == 0 {
				continue // looked at already
			}
			s := &ss[k]
			ux, uy, wx, wy := s.left[0]-p[0], s.left[1]-p[1], q[0]-s.left[0], q[1]-s.left[1]
			if x, y := ux*wx+uy*wy, ux*wy-uy*wx; x > 0 {
				if y*loX > loY*x {
					loX, loY = x, y
				}
			} else if y > 0 {
				return 0, 0, false
			}
			ux, uy, wx, wy = s.right[0]-p[0], s.right[1]-p[1], q[0]-s.right[0], q[1]-s.right[1]
			if x, y := ux*wx+uy*wy, ux*wy-uy*wx; x > 0 {
				if y*hiX < hiY*x {
					hiX, hiY = x, y
				}
			} else if y < 0 {
				return 0, 0, false
			}
			if loY*hiX > hiY*loX {
				return 0, 0, false
			}
		}
	}

	lo, hi = math.Atan2(loY, loX), math.Atan2(hiY, hiX)
	// An arc wider than a file should hold is none.
	if least := 2 * math.Atan(distance(p, q)/(4*widestRadius)); lo > -least && hi < least {
		if lo > 0 || hi < 0 {
			return 0, 0, false
		}
		return 0, 0, true
	}
	return lo, hi, true
}
