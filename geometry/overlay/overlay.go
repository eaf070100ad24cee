package overlay

import (
	"fmt"

	"github.com/paulmach/orb"
)

// Union returns the outline of everything that lies in at least one of the shapes. Each polygon by itself must be
// valid; among themselves, also within one shape, they may overlap, touch and coincide. Polygons that meet no other
// come back with the points they had and cost next to nothing.
//
// Points and lines nearer to one another than 1e-8 mm count as touching. An error names a coordinate that is not a
// number or too large, or the place where a result could not be found.
func Union(shapes ...orb.MultiPolygon) (orb.MultiPolygon, error) {
	return combine(operation{
		name:   "union",
		rule:   func(a, _ int32) bool { return a > 0 },
		within: func(_, _ int) bool { return true },
		alone:  func(_ int, _ bool) bool { return true },
		oneSet: true,
	}, shapes, nil)
}

// Difference returns the outline of what lies in a and not in b. For what is asked of them see Union. What is left
// where the two outlines nearly coincide, thinner than 2e-8 mm on the mean, is dropped.
func Difference(a, b orb.MultiPolygon) (orb.MultiPolygon, error) {
	return combine(operation{
		name:   "difference",
		rule:   func(a, b int32) bool { return a > 0 && b <= 0 },
		within: func(inner, _ int) bool { return inner == 1 },
		alone:  func(set int, covered bool) bool { return set == 0 && !covered },
	}, []orb.MultiPolygon{a}, []orb.MultiPolygon{b})
}

// Intersection returns the outline of what lies both in a and in b. For what is asked of them see Union. Where the two
// only touch there is nothing.
func Intersection(a, b orb.MultiPolygon) (orb.MultiPolygon, error) {
	return combine(operation{
		name:   "intersection",
		rule:   func(a, b int32) bool { return a > 0 && b > 0 },
		within: func(_, _ int) bool { return false },
		alone:  func(_ int, covered bool) bool { return covered },
	}, []orb.MultiPolygon{a}, []orb.MultiPolygon{b})
}

// Positive returns the outline of all points about which the rings wind more often counter-clockwise than clockwise.
// The rings may cross themselves and one another in any way; those not closed are closed by a straight line.
func Positive(rings []orb.Ring) (orb.MultiPolygon, error) {
	for i, r := range rings {
		if err := checkRing(r); err != nil {
			return nil, fmt.Errorf("winding: ring %d, %w", i, err)
		}
	}
	mp, err := outlineOf("winding", rings, nil, func(a, _ int32) bool { return a > 0 })
	if err != nil {
		return nil, err
	}
	sortPolygons(mp)
	return mp, nil
}
