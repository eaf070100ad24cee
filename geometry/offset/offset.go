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

// Offset returns the shape grown by distance (distance > 0) or shrunk (distance < 0), in mm, with round joins: the
// points within distance of the shape, or those further than −distance from everything outside it. Arcs are flattened
// to chords between points on the arc, so that no chord leaves its arc by more than tolerance (mm, > 0); a grown shape
// is therefore too small and a shrunk one too large by no more than that. The result may be empty. At distance 0 it is
// the shape, made valid. Time grows with the number of points times its logarithm, also where the distance is many
// times the length of the edges.
//
// The shape must be valid; its rings may run either way. What comes out is valid, and parts or gaps thinner than 2e-8
// mm (2e-7 mm in a polygon of many short edges) are dropped. An error names a coordinate or an argument that is not a
// usable number.
func Offset(shape orb.MultiPolygon, distance, tolerance float64) (orb.MultiPolygon, error) {
	if !(math.Abs(distance) <= maxDistance) {
		return nil, fmt.Errorf("offset: the distance %g is not a number of mm between %g and %g", distance,
			-maxDistance, maxDistance)
	}
	if !(tolerance > 0) {
		return nil, fmt.Errorf("offset: the tolerance %g is not a number of mm above 0", tolerance)
	}
	if err := overlay.Check(shape); err != nil {
		return nil, fmt.Errorf("offset: %w", err)
	}
	b := beside{distance: distance, step: stepAngle(math.Abs(distance), tolerance)}
	parts := make([]orb.MultiPolygon, 0, len(shape))
	for i, p := range shape {
		// Polygons of a valid shape have no area in common, so each can be grown or shrunk by itself.
		rings := make([][]orb.Point, 0, len(p))
		for j, r := range p {
			if ring := distinct(r, j == 0); len(ring) >= 3 {
				rings = append(rings, ring)
			} else if j == 0 {
				break
			}
		}

		part, err := b.polygon(rings)
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
