package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// Add returns p + q.
func Add(p, q orb.Point) orb.Point { return orb.Point{p[0] + q[0], p[1] + q[1]} }

// Sub returns p − q, the vector from q to p.
func Sub(p, q orb.Point) orb.Point { return orb.Point{p[0] - q[0], p[1] - q[1]} }

// Times returns v made f times as long.
func Times(v orb.Point, f float64) orb.Point { return orb.Point{v[0] * f, v[1] * f} }

// Dot returns the scalar product of two vectors.
func Dot(p, q orb.Point) float64 { return p[0]*q[0] + p[1]*q[1] }

// Cross returns the area of the parallelogram of two vectors, positive where q lies counter-clockwise of p.
func Cross(p, q orb.Point) float64 { return p[0]*q[1] - p[1]*q[0] }

// PointDistance returns how far two points are from each other.
func PointDistance(p, q orb.Point) float64 { return math.Hypot(p[0]-q[0], p[1]-q[1]) }

// Midpoint returns the point halfway between two.
func Midpoint(p, q orb.Point) orb.Point { return orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2} }

// Lerp returns the point at t on the line from p (t = 0) to q (t = 1).
func Lerp(p, q orb.Point, t float64) orb.Point {
	return orb.Point{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])}
}

// Unit returns v at length one; the zero vector stays as it is.
func Unit(v orb.Point) orb.Point {
	if l := math.Hypot(v[0], v[1]); l > 0 {
		return Times(v, 1/l)
	}
	return v
}
