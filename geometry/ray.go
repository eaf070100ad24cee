package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// RayHit returns how far it is from p in the direction d, of length 1, to the shape's boundary; false when there is
// none within far mm.
func (s *Shape) RayHit(p, d orb.Point, far float64) (float64, bool) {
	t, edge := s.rayEdge(p, d, far)
	return t, edge >= 0
}

// rayEdge is RayHit, and returns the first point of the edge that is hit, -1 for none.
func (s *Shape) rayEdge(p, d orb.Point, far float64) (best float64, edge int32) {
	if s.Empty() {
		return 0, -1
	}
	best, edge = far, -1
	var visit func(i int32)
	visit = func(i int32) {
		end := orb.Point{p[0] + d[0]*best, p[1] + d[1]*best}
		reach := box{min(p[0], end[0]), min(p[1], end[1]), max(p[0], end[0]), max(p[1], end[1])}
		if s.boxes[i].gap2(reach) > 0 {
			return
		}
		n := s.fr.nodes[i]
		if n.left != 0 {
			visit(n.left)
			visit(n.right)
			return
		}
		for _, k := range s.fr.edges[n.lo:n.hi] {
			if t, ok := rayMeets(p, d, s.pts[k], s.pts[k+1]); ok && t <= best {
				best, edge = t, k
			}
		}
	}

	visit(0)
	return best, edge
}

// rayMeets returns how far along the ray from p in direction d the segment a–b is met. A segment along the ray is not
// met: its neighbours are.
func rayMeets(p, d, a, b orb.Point) (float64, bool) {
	e := Sub(b, a)
	det := Cross(d, e)
	if det == 0 || math.IsNaN(det) {
		return 0, false
	}
	r := Sub(a, p)
	t, u := Cross(r, e)/det, Cross(r, d)/det
	return t, t >= 0 && u >= 0 && u <= 1
}
