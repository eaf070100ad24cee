package geometry

import (
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"
)

// widestJoin bounds the width in mm of a neck with room on both sides for a disc as wide as itself: by the area of the
// shape, which must hold both discs, or of the roomiest bay or hole of the plane around it.
func (s *Shape) widestJoin(inside bool) float64 {
	room := 0.0
	switch outline := s.Outline(); {
	case inside:
		room = s.area / 2
	case len(outline) == 1:
		room = widestBay(outline[0][0])
		for _, h := range outline[0][1:] {
			room = max(room, -RingArea(h)/2)
		}
	default: // what lies between polygons too
		b := s.Bound()
		room = (b.Max[0] - b.Min[0]) * (b.Max[1] - b.Min[1])
	}
	return math.Sqrt(4 / math.Pi * max(0, room))
}

// widestBay returns the area of the largest part of a ring's convex hull that the ring, run counter-clockwise, leaves
// out.
func widestBay(ring orb.Ring) float64 {
	pts := ring[:len(ring)-1]
	order := make([]int, len(pts))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(i, j int) bool {
		p, q := pts[order[i]], pts[order[j]]
		return p[0] < q[0] || (p[0] == q[0] && p[1] < q[1])
	})
	onHull := make([]bool, len(pts))
	for range 2 { // below from left to right, then above from right to left
		var chain []int
		for _, k := range order {
			for n := len(chain); n >= 2; n = len(chain) {
				a, b := Sub(pts[chain[n-1]], pts[chain[n-2]]), Sub(pts[k], pts[chain[n-2]])
				if a[0]*b[1]-a[1]*b[0] > 0 {
					break
				}
				chain = chain[:n-1]
			}
			chain = append(chain, k)
		}
		for _, k := range chain {
			onHull[k] = true
		}
		slices.Reverse(order)
	}

	first := slices.Index(onHull, true)
	best, bay := 0.0, orb.Ring{pts[first]}
	for i := 1; i <= len(pts); i++ {
		k := (first + i) % len(pts)
		bay = append(bay, pts[k])
		if onHull[k] {
			best = max(best, -RingArea(append(bay, bay[0])))
			bay = append(bay[:0], pts[k])
		}
	}
	return best
}

// HasRoom reports whether the shape holds a disc of the given radius in mm, to a hundredth of it.
func (s *Shape) HasRoom(radius float64) bool {
	if s.Empty() {
		return false
	}
	return s.search(s.Bound(), radius, s.Contains, s.Nearer)
}

// search looks in the box for a point that is in and lies at least radius from the shape's boundary. It divides
// squares, as in the search for a pole of inaccessibility, until none can hold such a point, or until a square is so
// small that the answer differs by less than a hundredth of the radius. border is whether the border of what is in
// comes nearer to a point than a distance. After maxSquares there is taken to be none.
func (s *Shape) search(b orb.Bound, radius float64, in func(orb.Point) bool,
	border func(orb.Point, float64) bool) bool {
	type square struct {
		c    orb.Point
		half float64
	}
	size := max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]) / 2
	todo := []square{{b.Center(), size}}
	for looked := 0; len(todo) > 0 && looked < maxSquares; looked++ {
		q := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		reach := q.half * math.Sqrt2
		d, edge := s.nearestEdge(q.c, radius+reach)
		isIn := in(q.c)
		switch {
		case isIn && (!d.Found || d.D >= radius):
			return true
		case d.Found && d.D+reach < radius, q.half < radius/100, !isIn && !border(q.c, reach):
			continue
		case d.Found && d.D < radius && s.narrow(q.c, q.half, radius, d, edge):
			continue
		}
		h := q.half / 2
		for _, o := range [4]orb.Point{{-h, -h}, {h, -h}, {-h, h}, {h, h}} {
			todo = append(todo, square{orb.Point{q.c[0] + o[0], q.c[1] + o[1]}, h})
		}
	}
	return false
}

// maxSquares bounds a search: some seconds, for a strip some hundred thousand times as long as the disc is wide and
// within a hundredth of its width.
const maxSquares = 1 << 20

// narrow reports whether a square lies between two edges that leave no room for a disc anywhere in it: the one nearest
// to its middle and the one across. No point is farther from the nearer of them than half the sum of both distances,
// and that is greatest at a corner of the square, because a distance from a segment is convex.
func (s *Shape) narrow(c orb.Point, half, radius float64, d Near, edge int32) bool {
	if !(d.D > 0) {
		return false
	}
	way := orb.Point{(c[0] - d.Q[0]) / d.D, (c[1] - d.Q[1]) / d.D}
	_, across := s.rayEdge(c, way, 2*radius)
	if across < 0 {
		return false
	}
	for _, o := range [4]orb.Point{{-half, -half}, {half, -half}, {-half, half}, {half, half}} {
		p := orb.Point{c[0] + o[0], c[1] + o[1]}
		one := math.Sqrt(dist2(p, nearestOn(s.pts[edge], s.pts[edge+1], p)))
		two := math.Sqrt(dist2(p, nearestOn(s.pts[across], s.pts[across+1], p)))
		if one+two >= 2*radius {
			return false
		}
	}
	return true
}
