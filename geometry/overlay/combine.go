package overlay

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// operation is what is done with two sets of shapes, 0 and 1.
type operation struct {
	name string
	rule func(a, b int32) bool // whether the result holds a point about which the sets wind a and b times
	// within says whether a polygon of set inner that lies inside one of set outer without touching it has to be
	// computed together with it. Otherwise it is only noted that it is covered.
	within func(inner, outer int) bool
	// alone says whether a polygon that needs no computing is part of the result.
	alone  func(set int, covered bool) bool
	oneSet bool // there is a list of shapes, not a first and a second one
}

// combine computes an operation: polygons that meet are gathered into clusters, each cluster is computed by itself, and
// what stands alone is kept or left as it is.
func combine(op operation, a, b []orb.MultiPolygon) (orb.MultiPolygon, error) {
	var pieces []*piece
	for set, shapes := range [2][]orb.MultiPolygon{a, b} {
		for i, s := range shapes {
			for j, p := range s {
				q, err := newPiece(p, set)
				if err != nil {
					return nil, fmt.Errorf("%s: %s, polygon %d, %w", op.name, shapeName(op, set, i), j, err)
				}
				if q != nil {
					pieces = append(pieces, q)
				}
			}
		}
	}

	var out orb.MultiPolygon
	for _, c := range gather(op, pieces) {
		if len(c) == 1 {
			if op.alone(c[0].set, c[0].covered) {
				out = append(out, c[0].rings)
			}
			continue
		}
		var rings [2][]orb.Ring
		for _, p := range c {
			rings[p.set] = append(rings[p.set], p.rings...)
		}
		mp, err := outlineOf(op.name, rings[0], rings[1], op.rule)
		if err != nil {
			return nil, err
		}
		out = append(out, mp...)
	}

	sortPolygons(out)
	return out, nil
}

func shapeName(op operation, set, i int) string {
	if op.oneSet {
		return fmt.Sprintf("shape %d", i)
	}
	return [2]string{"the first shape", "the second shape"}[set]
}

var (
	errNotFinite = errors.New("not a finite number")
	errTooFar    = fmt.Errorf("further than %g mm from the origin; move the drawing nearer", maxCoordinate)
)

// Check returns an error that names the first coordinate of a shape which is not a number, or is further from the
// origin than 1e6 mm. It says nothing about whether the shape is valid.
func Check(shape orb.MultiPolygon) error {
	for i, p := range shape {
		for j, r := range p {
			if err := checkRing(r); err != nil {
				return fmt.Errorf("polygon %d, ring %d, %w", i, j, err)
			}
		}
	}
	return nil
}

// checkRing returns an error that names the first point which is not a number or too far away.
func checkRing(r orb.Ring) error {
	for i, p := range r {
		for _, v := range p {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("point %d at (%g, %g): %w", i, p[0], p[1], errNotFinite)
			}
			if math.Abs(v) > maxCoordinate {
				return fmt.Errorf("point %d at (%g, %g): %w", i, p[0], p[1], errTooFar)
			}
		}
	}
	return nil
}

// sortPolygons puts the largest polygon first, and the largest hole within each; what is equally large goes by the
// lower left corner of its box.
func sortPolygons(mp orb.MultiPolygon) {
	for _, p := range mp {
		if len(p) > 2 {
			sortBySize(p[1:], func(r orb.Ring) orb.Ring { return r })
		}
	}
	sortBySize(mp, func(p orb.Polygon) orb.Ring { return p[0] })
}

func sortBySize[T any](row []T, ringOf func(T) orb.Ring) {
	type keyed struct {
		item T
		area float64
		at   orb.Point
	}
	keys := make([]keyed, len(row))
	for i, it := range row {
		r := ringOf(it)
		keys[i] = keyed{it, math.Abs(ringArea(r)), r.Bound().Min}
	}
	slices.SortStableFunc(keys, func(k, l keyed) int {
		return cmp.Or(cmp.Compare(l.area, k.area), cmp.Compare(k.at[0], l.at[0]), cmp.Compare(k.at[1], l.at[1]))
	})
	for i := range keys {
		row[i] = keys[i].item
	}
}
