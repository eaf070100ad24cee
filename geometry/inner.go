package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// InnerPoint returns a point inside a polygon: the centre of area where that lies inside, else the middle of the
// longest stretch of the horizontal line through it. Of a polygon without area it returns the centre of its box.
func InnerPoint(p orb.Polygon) orb.Point {
	mp := orb.MultiPolygon{p}
	c := Centroid(mp)
	if Contains(mp, c) {
		return c
	}

	var xs []float64
	for _, r := range p {
		for i := 0; i+1 < len(r); i++ {
			a, b := r[i], r[i+1]
			if (a[1] > c[1]) != (b[1] > c[1]) {
				xs = append(xs, a[0]+(c[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]))
			}
		}
	}

	longest, at := 0.0, c
	for _, x := range xs {
		next := math.Inf(1)
		for _, y := range xs {
			if y > x && y < next {
				next = y
			}
		}
		m := orb.Point{(x + next) / 2, c[1]}
		if next-x > longest && !math.IsInf(next, 1) && Contains(mp, m) {
			longest, at = next-x, m
		}
	}
	return at
}
