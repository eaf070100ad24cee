// Package offset grows and shrinks outlines, in millimetres with y upward.
//
// An outline is an orb.MultiPolygon: outer rings counter-clockwise, holes clockwise, every ring closed.
package offset

import (
	"fmt"
	"math"

	"openwork/geometry/grow"
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
	mp, _, err := Sharp(shape, distance, tolerance, Joins{})
	return mp, err
}

// Joins say how the images of two edges are joined on the outside of a turn, instead of by chords of an arc: by as few
// tangents of the arc as do, so that at a small turn the edges go on until they meet. Such a join has no crumbs, and a
// corner can stay one.
type Joins struct {
	// Beyond is how far, in mm, such a join may reach beyond the arc. 0: chords of the arc everywhere.
	Beyond float64
	// Corners says which points of a ring are corners; there a join may reach AtCorner mm beyond the arc when it is one
	// point.
	// nil: none.
	Corners  func(ring []orb.Point) []bool
	AtCorner float64
}

// Excess is what joins of tangents reach beyond arcs.
type Excess struct {
	Beyond float64 // mm at most, but at corners of one point
	// Area in mm² and Length in mm are sums over all joins, also those that nothing is left of.
	Area, Length float64
}

// Sharp is Offset with joins of tangents: a grown shape is too large there, and a shrunk one too small, by no more
// than j allows; excess says by how much.
func Sharp(shape orb.MultiPolygon, distance, tolerance float64, j Joins) (out orb.MultiPolygon, excess Excess,
	err error) {
	if !(math.Abs(distance) <= maxDistance) {
		return nil, Excess{}, fmt.Errorf("offset: the distance %g is not a number of mm between %g and %g", distance,
			-maxDistance, maxDistance)
	}
	if !(tolerance > 0) {
		return nil, Excess{}, fmt.Errorf("offset: the tolerance %g is not a number of mm above 0", tolerance)
	}
	if err := overlay.Check(shape); err != nil {
		return nil, Excess{}, fmt.Errorf("offset: %w", err)
	}
	b := beside{distance: distance, step: grow.Step(math.Abs(distance), tolerance), joins: j,
		sharp: sharpTurn(math.Abs(distance), j.Beyond), sharpCorner: sharpTurn(math.Abs(distance), j.AtCorner),
		excess: &excess}
	parts := make([]orb.MultiPolygon, 0, len(shape))
	for i, p := range shape {
		// Polygons of a valid shape have no area in common, so each can be grown or shrunk by itself.
		rings := make([][]orb.Point, 0, len(p))
		for j, r := range p {
			if ring := grow.Distinct(r, j == 0); len(ring) >= 3 {
				rings = append(rings, ring)
			} else if j == 0 {
				break
			}
		}

		part, err := b.polygon(rings)
		if err != nil {
			return nil, Excess{}, fmt.Errorf("offset by %g mm: polygon %d: %w", distance, i, err)
		}
		if len(part) > 0 {
			parts = append(parts, part)
		}
	}

	out, err = overlay.Union(parts...)
	if err != nil {
		return nil, Excess{}, fmt.Errorf("offset by %g mm: %w", distance, err)
	}
	return out, excess, nil
}

// sharpTurn returns the widest turn in radians at which a sharp join reaches no further than beyond mm past the arc.
func sharpTurn(radius, beyond float64) float64 {
	if radius == 0 || !(beyond > 0) {
		return 0
	}
	return min(2*math.Acos(radius/(radius+beyond)), widestSharp)
}
