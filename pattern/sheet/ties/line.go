package ties

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// at returns the point s mm from p in direction u.
func at(p, u orb.Point, s float64) orb.Point { return orb.Point{p[0] + s*u[0], p[1] + s*u[1]} }

// forward returns how far v lies from p along u.
func forward(p, u, v orb.Point) float64 { return (v[0]-p[0])*u[0] + (v[1]-p[1])*u[1] }

// across returns how far v lies to the left of the line through p in direction u.
func across(p, u, v orb.Point) float64 { return (v[1]-p[1])*u[0] - (v[0]-p[0])*u[1] }

// unit returns the direction from a to b; of equal points none.
func unit(a, b orb.Point) orb.Point {
	l := math.Hypot(b[0]-a[0], b[1]-a[1])
	if l == 0 {
		return orb.Point{}
	}
	return orb.Point{(b[0] - a[0]) / l, (b[1] - a[1]) / l}
}

// distanceTo returns how far a point is from the segment a–b.
func distanceTo(a, b, p orb.Point) float64 {
	u := unit(a, b)
	s := math.Max(0, math.Min(forward(a, u, p), math.Hypot(b[0]-a[0], b[1]-a[1])))
	q := at(a, u, s)
	return math.Hypot(p[0]-q[0], p[1]-q[1])
}

// apart returns the distance between two rectangles, 0 where they meet, if it is below limit; else limit.
func apart(a, b orb.Polygon, limit float64) float64 {
	p, q := geometry.NewShape(orb.MultiPolygon{a}), geometry.NewShape(orb.MultiPolygon{b})
	if geometry.Inside(p, q, orb.Point{}) {
		return 0
	}
	if n := geometry.Distance(p, q, orb.Point{}, limit); n.Found {
		return n.D
	}
	return limit
}
