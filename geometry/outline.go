package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// RingArea returns the signed area of a closed ring in mm²: positive when it runs counter-clockwise. The sum is taken
// about the ring's first point, so that a small ring far from the origin keeps its digits.
func RingArea(r orb.Ring) float64 {
	if len(r) < 4 {
		return 0
	}
	o, sum := r[0], 0.0
	for i := 1; i+1 < len(r); i++ {
		a, b := r[i], r[i+1]
		sum += (a[0]-o[0])*(b[1]-o[1]) - (b[0]-o[0])*(a[1]-o[1])
	}
	return sum / 2
}

// Area returns the area of an outline in mm², holes taken off.
func Area(mp orb.MultiPolygon) float64 {
	sum := 0.0
	for _, p := range mp {
		for _, r := range p {
			sum += RingArea(r)
		}
	}
	return sum
}

// Length returns the length of all rings in mm.
func Length(mp orb.MultiPolygon) float64 {
	sum := 0.0
	for _, p := range mp {
		for _, r := range p {
			for i := 0; i+1 < len(r); i++ {
				sum += math.Hypot(r[i+1][0]-r[i][0], r[i+1][1]-r[i][1])
			}
		}
	}
	return sum
}

// Centroid returns the centre of area of an outline. Of an outline without area it returns the centre of its box.
func Centroid(mp orb.MultiPolygon) orb.Point {
	box := mp.Bound()
	o := box.Center()
	var area, sx, sy float64
	for _, p := range mp {
		for _, r := range p {
			for i := 0; i+1 < len(r); i++ {
				ax, ay := r[i][0]-o[0], r[i][1]-o[1]
				bx, by := r[i+1][0]-o[0], r[i+1][1]-o[1]
				c := ax*by - bx*ay
				area += c
				sx += c * (ax + bx)
				sy += c * (ay + by)
			}
		}
	}
	if math.Abs(area) < 1e-12 {
		return o
	}
	return orb.Point{o[0] + sx/(3*area), o[1] + sy/(3*area)}
}

// Points counts the corners of an outline; the repeated last point of a ring is not counted twice.
func Points(mp orb.MultiPolygon) int {
	n := 0
	for _, p := range mp {
		for _, r := range p {
			n += max(0, len(r)-1)
		}
	}
	return n
}

// Transform returns the image of an outline. Where m mirrors, rings are reversed, so that outer rings stay
// counter-clockwise.
func Transform(mp orb.MultiPolygon, m Map) orb.MultiPolygon {
	mirrored := m.Det() < 0
	out := make(orb.MultiPolygon, len(mp))
	for i, p := range mp {
		out[i] = make(orb.Polygon, len(p))
		for j, r := range p {
			q := make(orb.Ring, len(r))
			for k, v := range r {
				if mirrored {
					q[len(r)-1-k] = m.Apply(v)
				} else {
					q[k] = m.Apply(v)
				}
			}
			out[i][j] = q
		}
	}
	return out
}

// Orient returns the outline with outer rings counter-clockwise and holes clockwise. The first ring of each polygon is
// its outer one. Rings already right are shared, not copied.
func Orient(mp orb.MultiPolygon) orb.MultiPolygon {
	out := make(orb.MultiPolygon, len(mp))
	for i, p := range mp {
		out[i] = make(orb.Polygon, len(p))
		for j, r := range p {
			if (RingArea(r) > 0) == (j == 0) {
				out[i][j] = r
				continue
			}
			q := make(orb.Ring, len(r))
			for k, v := range r {
				q[len(r)-1-k] = v
			}
			out[i][j] = q
		}
	}
	return out
}

// Snap returns v rounded to the draft's grid of 1e-4 mm.
func Snap(v float64) float64 { return math.Round(v/Grid) / math.Round(1/Grid) }

// SnapOutline returns the outline on the draft's grid. Points that fall together are kept once; a ring left with fewer
// than three corners or without area is dropped, and with an outer ring its holes.
func SnapOutline(mp orb.MultiPolygon) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, p := range mp {
		var q orb.Polygon
		for j, r := range p {
			var s orb.Ring
			for _, v := range r {
				w := orb.Point{Snap(v[0]), Snap(v[1])}
				if len(s) == 0 || s[len(s)-1] != w {
					s = append(s, w)
				}
			}
			if len(s) > 0 && s[0] != s[len(s)-1] {
				s = append(s, s[0])
			}
			if len(s) < 4 || RingArea(s) == 0 {
				if j == 0 {
					break
				}
				continue
			}
			q = append(q, s)
		}
		if len(q) > 0 {
			out = append(out, q)
		}
	}
	return out
}

// Contains reports whether p lies inside the outline: inside an odd number of rings. On the boundary itself the answer
// may be either; callers that care measure the distance first.
func Contains(mp orb.MultiPolygon, p orb.Point) bool {
	in := false
	for _, poly := range mp {
		for _, r := range poly {
			in = in != InRing(r, p)
		}
	}
	return in
}

// InRing reports whether p lies in a closed ring by the even-odd rule. On the boundary itself the answer may be either.
func InRing(r orb.Ring, p orb.Point) bool {
	in := false
	for i := 0; i+1 < len(r); i++ {
		if rayCrosses(r[i], r[i+1], p) {
			in = !in
		}
	}
	return in
}

// rayCrosses reports whether the ray from p to the right crosses the edge a–b, each edge owning its lower end only.
func rayCrosses(a, b, p orb.Point) bool {
	if (a[1] > p[1]) == (b[1] > p[1]) {
		return false
	}
	return p[0] < a[0]+(p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0])
}
