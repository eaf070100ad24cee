package overlay

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// nested is a ring on its way into a polygon.
type nested struct {
	ring   orb.Ring
	area   float64
	box    box
	depth  int // how many rings lie around it
	parent int // the smallest of them, or -1
	poly   int
}

// Nest arranges rings into polygons by parity: a ring inside an even number of others is an outer ring, one inside an
// odd number a hole of the smallest ring around it. Each ring must be simple, and no two may cross; they may touch at
// points. Their direction does not matter: outer rings of the result run counter-clockwise, holes clockwise. Rings
// without area, or with a coordinate that is not a number, are passed over. The largest polygon comes first.
func Nest(rings []orb.Ring) orb.MultiPolygon {
	var items []nested
	for _, r := range rings {
		if len(r) < 3 || checkRing(r) != nil {
			continue
		}
		if r[0] != r[len(r)-1] {
			r = append(slices.Clone(r), r[0])
		}
		if a := ringArea(r); a != 0 {
			items = append(items, nested{ring: r, area: a, box: ringBox(r), parent: -1})
		}
	}

	slices.SortStableFunc(items, func(a, b nested) int { return cmp.Compare(math.Abs(b.area), math.Abs(a.area)) })
	t := newTree(len(items), func(i int32) box { return items[i].box }, nil)
	var out orb.MultiPolygon
	for i := range items {
		it := &items[i]
		t.below(point{it.box.minX, it.box.minY}, func(j int32) float64 {
			// The smallest around it is the last in the row that is around it and stands before it.
			if o := &items[j]; int(j) < i && int(j) > it.parent && o.holds(it) {
				it.parent = int(j)
			}
			return math.Inf(-1)
		})
		if it.parent >= 0 {
			it.depth = items[it.parent].depth + 1
		}
		if (it.area > 0) != (it.depth%2 == 0) {
			it.ring = slices.Clone(it.ring)
			slices.Reverse(it.ring)
		}
		if it.depth%2 == 0 {
			it.poly = len(out)
			out = append(out, orb.Polygon{it.ring})
		} else {
			p := items[it.parent].poly
			out[p] = append(out[p], it.ring)
		}
	}

	sortPolygons(out)
	return out
}

// holds reports whether in lies inside n. The rings may touch: points of in that lie on n decide nothing, and another
// one is asked, middles of edges first.
func (n *nested) holds(in *nested) bool {
	if !in.box.within(n.box) {
		return false
	}
	var best orb.Point
	clearance := -1.0
	for i := 0; i+1 < len(in.ring); i++ {
		a, b := in.ring[i], in.ring[i+1]
		for _, p := range [2]orb.Point{{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}, a} {
			d := distanceToRing(n.ring, p)
			if d > contactReach {
				return geometry.InRing(n.ring, p)
			}
			if d > clearance {
				best, clearance = p, d
			}
		}
	}
	return geometry.InRing(n.ring, best)
}

func distanceToRing(r orb.Ring, p orb.Point) float64 {
	best := math.Inf(1)
	for i := 0; i+1 < len(r); i++ {
		best = min(best, distanceToLine([2]point{{r[i][0], r[i][1]}, {r[i+1][0], r[i+1][1]}}, point{p[0], p[1]}))
	}
	return best
}
