package simplify

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// nested returns an outline without the rings that have come to lie on the wrong side of another: a hole outside its
// outer ring or in a larger hole, a polygon on a larger one. Such a ring lies between another as it was given and as it
// is drawn, so that all of it is within the tolerance of that one. Rings that cross are not looked for.
func nested(mp orb.MultiPolygon) orb.MultiPolygon {
	for i := range mp {
		mp[i] = withoutStrayHoles(mp[i])
	}

	// Largest first: what lies on another is held against that.
	order := make([]int, len(mp))
	boxes := make([]orb.Bound, len(mp))
	for i, p := range mp {
		order[i], boxes[i] = i, p[0].Bound()
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Compare(math.Abs(geometry.RingArea(mp[j][0])), math.Abs(geometry.RingArea(mp[i][0])))
	})
	shapes := make([]*geometry.Shape, len(mp))
	stray := make([]bool, len(mp))
	for x, i := range order {
		for _, j := range order[:x] {
			if stray[j] || !within(boxes[i], boxes[j]) {
				continue
			}
			if shapes[j] == nil {
				shapes[j] = geometry.NewShape(orb.MultiPolygon{mp[j]})
			}
			if stray[i] = shapes[j].Contains(probe(mp[i][0])); stray[i] {
				break
			}
		}
	}

	out := mp[:0]
	for i, p := range mp {
		if !stray[i] {
			out = append(out, p)
		}
	}
	return out
}

// withoutStrayHoles keeps of the holes of a polygon those that lie in its outer ring and in no larger hole.
func withoutStrayHoles(p orb.Polygon) orb.Polygon {
	if len(p) == 1 {
		return p
	}
	outer := geometry.NewShape(orb.MultiPolygon{{p[0]}})
	boxes := make([]orb.Bound, len(p))
	areas := make([]float64, len(p))
	for i, r := range p {
		boxes[i], areas[i] = r.Bound(), math.Abs(geometry.RingArea(r))
	}
	out := orb.Polygon{p[0]}
	for i, r := range p[1:] {
		at := probe(r)
		stray := !outer.Contains(at)
		for j := 1; j < len(p) && !stray; j++ {
			stray = areas[j] > areas[i+1] && within(boxes[i+1], boxes[j]) &&
				geometry.Contains(orb.MultiPolygon{{p[j]}}, at)
		}
		if !stray {
			out = append(out, r)
		}
	}
	return out
}

// probe returns a point of a ring that lies on no other ring: rings meet in corners only, and this is the middle of the
// longest edge.
func probe(r orb.Ring) orb.Point {
	best, at := -1.0, r[0]
	for k := 0; k+1 < len(r); k++ {
		a, b := r[k], r[k+1]
		if l := math.Hypot(b[0]-a[0], b[1]-a[1]); l > best {
			best, at = l, orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
		}
	}
	return at
}

func within(a, b orb.Bound) bool {
	return a.Min[0] >= b.Min[0] && a.Min[1] >= b.Min[1] && a.Max[0] <= b.Max[0] && a.Max[1] <= b.Max[1]
}
