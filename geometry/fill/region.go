// Package fill finds the region that rings fill, which may cross themselves and one another and run either way, as a
// drawing's paths do; and what such regions have in common, on package overlay. Rings that cross more often than anyone
// draws are refused, so that the work stays bounded.
package fill

import (
	"errors"
	"fmt"
	"math"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/geometry/simplify"

	"github.com/paulmach/orb"
)

// Bounds, each far beyond what is drawn.
const (
	MaxCrossings = 100000 // of lines: what is found at them grows as their number, and its cost faster
	maxWinding   = 64     // of a shape about a point
)

// backTurn is the tangent of the angle between two edges in a point below which they may touch further on.
const backTurn = 0.01

// Rule says which points count as inside, from how often the outline winds about them.
type Rule int

const (
	NonZero Rule = iota
	EvenOdd
)

// Region returns the valid outline of what the rings fill under a rule, as package overlay gives it. The rings may
// cross themselves and one another and run either way; without area they fill nothing. It fails when they cross more
// than MaxCrossings times (a tenth of that by the even-odd rule), or when the overlay does.
func Region(rings []orb.Ring, rule Rule) (orb.MultiPolygon, error) {
	limit := MaxCrossings
	if rule == EvenOdd { // once for each turn that is wound
		limit /= 10
	}
	crossings := simplify.Crossings(rings, limit)
	if crossings > limit {
		return nil, tooManyCrossings(limit)
	}

	if crossings == 0 && len(rings) == 1 && !doublesBack(rings[0]) {
		r := rings[0]
		switch a := geometry.RingArea(r); {
		case a < 0:
			r = geometry.Reversed(r)
		case a == 0:
			return nil, nil
		}
		return orb.MultiPolygon{{r}}, nil
	}

	turned := make([]orb.Ring, len(rings))
	for k, r := range rings {
		turned[k] = geometry.Reversed(r)
	}
	var parts []orb.MultiPolygon
	for _, side := range [][]orb.Ring{rings, turned} {
		mp, err := regionOf(side, rule)
		if err != nil {
			return nil, err
		}
		parts = append(parts, mp)
	}
	switch {
	case len(parts[0]) == 0:
		return parts[1], nil
	case len(parts[1]) == 0:
		return parts[0], nil
	}
	return overlay.Union(parts...)
}

// CheckCrossings returns an error for rings that cross so often that to make them out would take minutes.
func CheckCrossings(rings []orb.Ring, limit int) error {
	if simplify.Crossings(rings, limit) > limit {
		return tooManyCrossings(limit)
	}
	return nil
}

func tooManyCrossings(limit int) error {
	return fmt.Errorf("lines cross more than %d times; simplify them first", limit)
}

// doublesBack says whether an edge of a ring runs back on the one before it.
func doublesBack(r orb.Ring) bool {
	n := len(r) - 1
	for i := range n {
		a, b, c := r[i], r[(i+1)%n], r[(i+2)%n]
		u, v := orb.Point{b[0] - a[0], b[1] - a[1]}, orb.Point{c[0] - b[0], c[1] - b[1]}
		cross, dot := u[0]*v[1]-u[1]*v[0], u[0]*v[0]+u[1]*v[1]
		if dot < 0 && math.Abs(cross) < -dot*backTurn {
			return true
		}
	}
	return false
}

// Union returns the union of shapes.
func Union(shapes []orb.MultiPolygon) (orb.MultiPolygon, error) {
	var rings []orb.Ring
	for _, s := range shapes {
		rings = append(rings, geometry.Rings(s)...)
	}
	if err := CheckCrossings(rings, MaxCrossings); err != nil {
		return nil, err
	}
	return overlay.Union(shapes...)
}

// regionOf returns what the rings wind about at least once counter-clockwise; by the even-odd rule, that less what they
// wind about at least twice, with what they wind about at least three times, and so on.
func regionOf(rings []orb.Ring, rule Rule) (orb.MultiPolygon, error) {
	out, err := overlay.Positive(rings)
	if err != nil || rule == NonZero || len(out) == 0 {
		return out, err
	}
	frame := frameAround(rings)
	odd := true
	for range maxWinding {
		rings = append(rings[:len(rings):len(rings)], frame)
		deeper, err := overlay.Positive(rings)
		if err != nil || len(deeper) == 0 {
			return out, err
		}
		if odd {
			out, err = Difference(out, deeper)
		} else {
			out, err = overlay.Union(out, deeper)
		}
		if err != nil {
			return nil, err
		}
		odd = !odd
	}
	return nil, errors.New("a shape winds about a point too often")
}

// Difference returns what lies in a and not in b: what winds once about a point and is not taken back.
func Difference(a, b orb.MultiPolygon) (orb.MultiPolygon, error) {
	near, far := splitNear(a, b)
	if len(near) == 0 {
		return far, nil
	}
	rings := geometry.Rings(near)
	for _, r := range geometry.Rings(b) {
		rings = append(rings, geometry.Reversed(r))
	}
	mp, err := overlay.Positive(rings)
	return append(far, mp...), err
}

// Intersection returns what lies in a and in b: what winds twice about a point, less once everywhere.
func Intersection(a, b orb.MultiPolygon) (orb.MultiPolygon, error) {
	near, _ := splitNear(a, b)
	if len(near) == 0 {
		return nil, nil
	}
	rings := append(geometry.Rings(near), geometry.Rings(b)...)
	return overlay.Positive(append(rings, frameAround(rings)))
}

// splitNear parts the polygons of a into those whose box meets that of b, and the others.
func splitNear(a, b orb.MultiPolygon) (near, far orb.MultiPolygon) {
	box := b.Bound()
	for _, p := range a {
		if len(b) > 0 && p.Bound().Intersects(box) {
			near = append(near, p)
		} else {
			far = append(far, p)
		}
	}
	return near, far
}

// frameAround returns a clockwise rectangle around all rings: one turn less everywhere.
func frameAround(rings []orb.Ring) orb.Ring {
	b := boundOf(rings).Pad(1)
	return orb.Ring{{b.Min[0], b.Min[1]}, {b.Min[0], b.Max[1]}, {b.Max[0], b.Max[1]}, {b.Max[0], b.Min[1]},
		{b.Min[0], b.Min[1]}}
}

// boundOf returns the box around all rings.
func boundOf(rings []orb.Ring) orb.Bound {
	var b orb.Bound
	for k, r := range rings {
		if k == 0 {
			b = r.Bound()
		} else {
			b = b.Union(r.Bound())
		}
	}
	return b
}
