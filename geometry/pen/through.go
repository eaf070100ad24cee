package pen

import (
	"openwork/geometry"

	"github.com/paulmach/orb"
)

// Point is a place that was set by hand, a corner or round.
type Point struct {
	At    orb.Point
	Round bool
}

// Through returns the line through points that were set: straight between two corners, and passing each round point
// along the circle through it and its neighbours. The first and the last of a line that is not closed have one
// neighbour, and are taken for corners.
func Through(points []Point, closed bool) []Node {
	r := Ring{Nodes: make([]Node, len(points))}
	for i, p := range points {
		r.Nodes[i] = Corner(p.At)
	}
	n := len(points)
	if n < 3 {
		return r.Nodes
	}

	// All directions first: a piece between two round points goes by both of them.
	dirs := make([]orb.Point, n)
	for i, p := range points {
		if p.Round && (closed || (i > 0 && i < n-1)) {
			dirs[i] = tangent(points[r.before(i)].At, p.At, points[r.after(i)].At)
			r.Nodes[i].Round = dirs[i] != orb.Point{}
		}
	}

	for i := range n {
		v, w := &r.Nodes[i], &r.Nodes[r.after(i)]
		if i == n-1 && !closed || !v.Round && !w.Round {
			continue
		}
		if v.Round {
			v.Out = geometry.Add(v.At, geometry.Times(dirs[i], handle(v.At, w.At, dirs[i])))
		}
		if w.Round {
			d := dirs[r.after(i)]
			w.In = geometry.Sub(w.At, geometry.Times(d, handle(v.At, w.At, d)))
		}
		if !v.Round {
			v.Out = opposite(*v, v.At, w.At, w.In)
		}
		if !w.Round {
			w.In = opposite(*w, w.At, v.At, v.Out)
		}
	}
	return r.Nodes
}
