// Package offset grows and shrinks outlines, in millimetres with y upward.
//
// An outline is an orb.MultiPolygon: outer rings counter-clockwise, holes clockwise, every ring closed.
package offset

import (
	"fmt"
	"math"
	"slices"

	"openwork/geometry/overlay"

	"github.com/paulmach/orb"
)

// Offset returns the shape grown by distance (distance > 0) or shrunk (distance < 0), in mm, with round joins: the points
// within distance of the shape, or those further than −distance from everything outside it. Arcs are flattened to
// chords between points on the arc, so that no chord leaves its arc by more than tolerance (mm, > 0); a grown shape is
// therefore too small and a shrunk one too large by no more than that. The result may be empty. At distance 0 it is the
// shape, made valid.
//
// The shape must be valid; its rings may run either way. What comes out is valid, and parts or gaps thinner than
// 2e-8 mm are dropped. An error names a coordinate or an argument that is not a usable number.
func Offset(shape orb.MultiPolygon, distance, tolerance float64) (orb.MultiPolygon, error) {
	if !(math.Abs(distance) <= maxDistance) {
		return nil, fmt.Errorf("offset: the distance %g is not a number of mm between %g and %g", distance, -maxDistance, maxDistance)
	}
	if !(tolerance > 0) {
		return nil, fmt.Errorf("offset: the tolerance %g is not a number of mm above 0", tolerance)
	}
	if err := overlay.Check(shape); err != nil {
		return nil, fmt.Errorf("offset: %w", err)
	}
	step := stepAngle(math.Abs(distance), tolerance)
	parts := make([]orb.MultiPolygon, 0, len(shape))
	for i, p := range shape {
		// Polygons of a valid shape have no area in common, so each can be grown or shrunk by itself.
		raw := make([]orb.Ring, 0, len(p))
		for j, r := range p {
			if ring := distinct(r, j == 0); len(ring) >= 3 {
				raw = append(raw, rawRing(ring, distance, step))
			} else if j == 0 {
				break
			}
		}
		part, err := overlay.Positive(raw)
		if err != nil {
			return nil, fmt.Errorf("offset by %g mm: polygon %d: %w", distance, i, err)
		}
		if len(part) > 0 {
			parts = append(parts, part)
		}
	}
	out, err := overlay.Union(parts...)
	if err != nil {
		return nil, fmt.Errorf("offset by %g mm: %w", distance, err)
	}
	return out, nil
}

// stepAngle returns the largest angle whose chord leaves an arc of the given radius by no more than tolerance.
func stepAngle(radius, tolerance float64) float64 {
	if tolerance >= radius {
		return widestStep
	}
	return max(narrowestStep, min(widestStep, 2*math.Acos(1-tolerance/radius)))
}

// distinct returns the points of a ring without the closing one and without repetitions, counter-clockwise when outer,
// else clockwise.
func distinct(r orb.Ring, outer bool) []orb.Point {
	var out []orb.Point
	for _, p := range r {
		if len(out) == 0 || p != out[len(out)-1] {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	area := 0.0
	for i := 1; i+1 < len(out); i++ {
		o, a, b := out[0], out[i], out[i+1]
		area += (a[0]-o[0])*(b[1]-o[1]) - (a[1]-o[1])*(b[0]-o[0])
	}
	if (area > 0) != outer {
		slices.Reverse(out)
	}
	return out
}

// rawRing returns the curve beside a ring: every edge moved to its right by distance (to its left when negative), joined
// by arcs about the corners on the outside of a turn, and through the corner itself on the inside.
//
// This curve winds about a point as often as the ring does, and once more for every strip between an edge and its image
// and for every sector of a corner that holds the point; when distance is negative, once less. Taken over all rings of
// a valid polygon the points of positive winding number are thus exactly the polygon and all strips and sectors, or
// the polygon less all strips and sectors, which is what growing and shrinking mean. (Compare R. Wein, "Exact and
// efficient construction of planar Minkowski sums using the convolution method", ESA 2006.)
func rawRing(ring []orb.Point, distance, step float64) orb.Ring {
	n := len(ring)
	var raw orb.Ring
	for i, p := range ring {
		in := aside(ring[(i+n-1)%n], p, distance)
		out := aside(p, ring[(i+1)%n], distance)
		raw = append(raw, orb.Point{p[0] + in[0], p[1] + in[1]})
		cross, dot := in[0]*out[1]-in[1]*out[0], in[0]*out[0]+in[1]*out[1]
		turn := math.Atan2(cross, dot)
		if math.Abs(turn) == math.Pi {
			turn = math.Copysign(math.Pi, distance) // a spike without width has its tip on the outside
		}
		if turn*distance >= 0 {
			raw = arc(raw, p, in, turn, step)
		} else {
			raw = append(raw, p)
		}
		raw = append(raw, orb.Point{p[0] + out[0], p[1] + out[1]})
	}
	return append(raw, raw[0])
}

// aside returns the vector of length |distance| square to a→b, to the right when distance is positive.
func aside(a, b orb.Point, distance float64) orb.Point {
	dx, dy := b[0]-a[0], b[1]-a[1]
	l := math.Hypot(dx, dy)
	return orb.Point{dy / l * distance, -dx / l * distance}
}

// arc appends the points between the ends of the arc about p that begins at p+from and spans turn.
func arc(raw orb.Ring, p, from orb.Point, turn, step float64) orb.Ring {
	n := int(math.Ceil(math.Abs(turn) / step))
	for k := 1; k < n; k++ {
		s, c := math.Sincos(turn * float64(k) / float64(n))
		raw = append(raw, orb.Point{p[0] + c*from[0] - s*from[1], p[1] + s*from[0] + c*from[1]})
	}
	return raw
}
