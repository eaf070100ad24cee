package recognise

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// piece is a form placed in the field: turned, or mirrored and turned, by turn, with its centre at at.
type piece struct {
	form *form
	turn geometry.Map // linear and orthogonal
	at   orb.Point    // field mm

	motif, op int // it is of the copy that the operation makes of the motif
	colour    int // of that copy; see Coloured
}

// form is a polygon at the size at which it is placed, with its centre at the origin, prepared for comparison. Pieces
// of one silhouette at one scale share it. Lengths in mm.
type form struct {
	edges  []geometry.Edge
	boxes  []orb.Bound // binary tree over leaves of edges: node k has the children 2k and 2k+1, node 1 is the root
	leaves int         // a power of two; leaf j is node leaves+j
	area   float64     // holes taken off
	length float64     // of all rings
	girth  float64     // of the convex hull
	reach  float64     // of the farthest corner from the centre
}

// piecesOf returns the pieces of one conventional cell, at most limit of them.
func piecesOf(l *pattern.Layout, limit int) []piece {
	type key struct {
		shape *geometry.Shape
		scale float64
	}
	type part struct {
		form   *form
		centre orb.Point // in the silhouette's frame
	}
	known := map[key][]part{}
	var out []piece
	for _, o := range l.Orbits {
		if len(o.Images) == 0 {
			continue
		}
		scale := math.Sqrt(math.Abs(o.Place.Det()))
		parts, ok := known[key{o.Bare, scale}]
		if !ok {
			for _, p := range o.Bare.Outline() {
				if len(p) == 0 || len(p[0]) < 4 {
					continue
				}
				c, girth := steiner(p[0])
				parts = append(parts, part{newForm(p, c, girth, scale), c})
			}
			known[key{o.Bare, scale}] = parts
		}
		for _, i := range o.Images {
			m := l.Op(i.Op, 0, 0).After(o.Place)
			turn := geometry.Map{A: m.A / scale, B: m.B / scale, C: m.C / scale, D: m.D / scale}
			for _, p := range parts {
				if out = append(out, piece{form: p.form, turn: turn, at: m.Apply(p.centre),
					motif: o.Motif, op: i.Op}); len(out) >= limit {
					return out
				}
			}
		}
	}
	return out
}

// steiner returns the Steiner point of the convex hull of a ring and the hull's length: each corner of the hull weighs
// as its outer angle. It goes with the ring under isometries, and unlike the centre of area of a thin shape it moves by
// no more than 4/π times what the boundary does.
func steiner(r orb.Ring) (orb.Point, float64) {
	h := hull(r)
	if len(h) < 3 {
		return r.Bound().Center(), 0
	}
	var x, y, weight, length float64
	n := len(h)
	for i, p := range h {
		u, v := geometry.Sub(p, h[(i+n-1)%n]), geometry.Sub(h[(i+1)%n], p)
		w := math.Atan2(geometry.Cross(u, v), geometry.Dot(u, v))
		x, y, weight = x+w*(p[0]-h[0][0]), y+w*(p[1]-h[0][1]), weight+w
		length += math.Hypot(v[0], v[1])
	}
	return orb.Point{h[0][0] + x/weight, h[0][1] + y/weight}, length
}

// hull returns the corners of the convex hull, counter-clockwise, by Andrew's monotone chain.
func hull(r orb.Ring) []orb.Point {
	pts := slices.Clone([]orb.Point(r))
	slices.SortFunc(pts, func(p, q orb.Point) int {
		if p[0] != q[0] {
			return sign(p[0] - q[0])
		}
		return sign(p[1] - q[1])
	})
	pts = slices.Compact(pts)
	if len(pts) < 3 {
		return pts
	}
	half := func() []orb.Point {
		var out []orb.Point
		for _, p := range pts {
			for len(out) >= 2 && geometry.Cross(geometry.Sub(out[len(out)-1], out[len(out)-2]),
				geometry.Sub(p, out[len(out)-1])) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:len(out)-1]
	}

	lower := half()
	slices.Reverse(pts)
	return append(lower, half()...)
}

// newForm prepares a polygon whose centre is c, scaled.
func newForm(p orb.Polygon, c orb.Point, girth, scale float64) *form {
	f := &form{girth: girth * scale}
	for _, r := range p {
		f.area += geometry.RingArea(r) * scale * scale
		for i := 0; i+1 < len(r); i++ {
			e := geometry.Edge{P: times(scale, geometry.Sub(r[i], c)), Q: times(scale, geometry.Sub(r[i+1], c))}
			if e.P == e.Q {
				continue
			}
			f.edges = append(f.edges, e)
			f.length += geometry.PointDistance(e.P, e.Q)
			f.reach = max(f.reach, math.Hypot(e.P[0], e.P[1]))
		}
	}

	f.leaves = 1
	for f.leaves*leafEdges < len(f.edges) {
		f.leaves *= 2
	}
	f.boxes = make([]orb.Bound, 2*f.leaves)
	for k := range f.boxes {
		f.boxes[k] = orb.Bound{Min: orb.Point{math.Inf(1), math.Inf(1)}, Max: orb.Point{math.Inf(-1), math.Inf(-1)}}
	}
	for i, e := range f.edges {
		b := &f.boxes[f.leaves+i/leafEdges]
		*b = b.Extend(e.P).Extend(e.Q)
	}
	for k := f.leaves - 1; k > 0; k-- {
		u, v := f.boxes[2*k], f.boxes[2*k+1]
		f.boxes[k] = orb.Bound{
			Min: orb.Point{min(u.Min[0], v.Min[0]), min(u.Min[1], v.Min[1])},
			Max: orb.Point{max(u.Max[0], v.Max[0]), max(u.Max[1], v.Max[1])}}
	}
	return f
}

// alike reports whether some isometry could carry f onto g to within slack: whether what isometries keep agrees as well
// as such boundaries make it.
func (f *form) alike(g *form) bool {
	return f == g || math.Abs(f.area-g.area) <= slack*(f.length+g.length) &&
		math.Abs(f.girth-g.girth) <= 2*math.Pi*slack && math.Abs(f.reach-g.reach) <= slack+centreSlack
}
