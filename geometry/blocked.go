package geometry

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
)

// blocked reports whether the boundary crosses every segment from node a to node b, as seen from where it first crosses
// the one between their middles: a line of boundary that leads, between the two, from one side of all such segments to
// the other.
func (s *Shape) blocked(a, b int32) bool {
	x, y := s.boxes[a], s.boxes[b]
	p := orb.Point{(x.minX + x.maxX) / 2, (x.minY + x.maxY) / 2}
	q := orb.Point{(y.minX + y.maxX) / 2, (y.minY + y.maxY) / 2}
	far, near, wide := math.Sqrt(dist2(p, q)), x.size()/2, max(x.size(), y.size())/2
	end := far - y.size()/2
	if near >= end {
		return false
	}
	w := orb.Point{(q[0] - p[0]) / far, (q[1] - p[1]) / far}
	_, hit := s.rayEdge(orb.Point{p[0] + near*w[0], p[1] + near*w[1]}, w, end-near)
	if hit < 0 {
		return false
	}
	r := s.ends(hit)

	// side follows the boundary from the hit edge and returns on which side it leaves, 0 where it does so elsewhere.
	side := func(k, step int) int {
		for range blockedSteps {
			v := Sub(s.pts[k], p)
			if along := Dot(v, w); along <= near || along >= end {
				return 0
			}
			switch off := Cross(w, v); {
			case off > wide:
				return 1
			case off < -wide:
				return -1
			}
			if k += step; k < r[0] {
				k = r[1] - 1
			} else if k > r[1] {
				k = r[0] + 1
			}
		}
		return 0
	}
	return side(int(hit), -1)*side(int(hit)+1, 1) < 0
}

// ends returns the first and last point of the ring whose edge begins at point k.
func (s *Shape) ends(k int32) [2]int {
	i := sort.Search(len(s.fr.ends), func(i int) bool { return s.fr.ends[i][1] > int(k) })
	return s.fr.ends[i]
}
