package geometry

import "github.com/paulmach/orb"

// RectShape returns a rectangle as a shape.
func RectShape(r orb.Bound) *Shape { return NewShape(RectOutline(r)) }

// RectOutline returns a rectangle as an outline, counter-clockwise from its lower left corner.
func RectOutline(r orb.Bound) orb.MultiPolygon {
	return orb.MultiPolygon{{orb.Ring{r.Min, {r.Max[0], r.Min[1]}, r.Max, {r.Min[0], r.Max[1]}, r.Min}}}
}

// Place of an outline with respect to a rectangle.
type Place int

// The three places. An outline that only touches the rectangle's side from outside is Outside, from inside Within;
// touching allows 1e-7 mm.
const (
	Outside Place = iota
	Across
	Within
)

// InRect says where the shape, moved by shift, lies with respect to the rectangle r: Within when no part leaves it,
// Outside when their interiors do not meet, else Across.
func (s *Shape) InRect(r orb.Bound, shift orb.Point) Place {
	if s.Empty() {
		return Outside
	}
	b := s.boxes[0].moved(shift[0], shift[1])
	in := box{r.Min[0] + rectSlack, r.Min[1] + rectSlack, r.Max[0] - rectSlack, r.Max[1] - rectSlack}
	if b.maxX <= in.minX || b.minX >= in.maxX || b.maxY <= in.minY || b.minY >= in.maxY {
		return Outside
	}
	if b.minX >= r.Min[0]-rectSlack && b.maxX <= r.Max[0]+rectSlack &&
		b.minY >= r.Min[1]-rectSlack && b.maxY <= r.Max[1]+rectSlack {
		return Within
	}

	for _, e := range s.fr.edges {
		p, q := s.pts[e], s.pts[e+1]
		p[0] += shift[0]
		p[1] += shift[1]
		q[0] += shift[0]
		q[1] += shift[1]
		if segmentEnters(p, q, in) {
			return Across
		}
	}

	// No edge enters the rectangle: all of it is inside the shape, or none.
	c := r.Center()
	if s.Contains(orb.Point{c[0] - shift[0], c[1] - shift[1]}) {
		return Across
	}
	return Outside
}

// segmentEnters reports whether the segment p–q has a point in the open box (Liang and Barsky's clipping of a line's
// parameter, 1984).
func segmentEnters(p, q orb.Point, b box) bool {
	t0, t1 := 0.0, 1.0
	for i, side := range [2][2]float64{{b.minX, b.maxX}, {b.minY, b.maxY}} {
		d := q[i] - p[i]
		if d == 0 {
			if p[i] <= side[0] || p[i] >= side[1] {
				return false
			}
			continue
		}
		u, v := (side[0]-p[i])/d, (side[1]-p[i])/d
		if u > v {
			u, v = v, u
		}
		t0, t1 = max(t0, u), min(t1, v)
	}
	return t0 < t1
}
