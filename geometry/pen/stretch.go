package pen

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Smoothed returns the ring with a stretch evened out by up to within mm; the stretch's ends stay. A single node stands
// for the whole ring.
func (r Ring) Smoothed(s Stretch, within float64) (Ring, error) {
	pts, whole := r.stretchOf(s)
	if whole {
		return Stroke(pts[:len(pts)-1], within)
	}
	nodes, err := Freed(pts, within, true)
	if err != nil {
		return r, err
	}
	return r.replaced(s, nodes), nil
}

// Simplified returns the ring with a stretch drawn by fewer points that leave it by no more than within mm; corners and
// the stretch's ends stay. A single node stands for the whole ring.
func (r Ring) Simplified(s Stretch, within float64) (Ring, error) {
	if !(within > 0) || math.IsInf(within, 0) {
		return r, errShort
	}
	list := r.indexes(s)
	whole := len(list) == 1
	if whole { // begin at a corner, if there is one
		begin := max(0, slices.IndexFunc(r.Nodes, func(v Node) bool { return !v.Round }))
		list = r.indexes(Stretch{begin, begin + len(r.Nodes) - 1})
		list = append(list, begin)
	}
	nodes := []Node{r.Nodes[list[0]]}
	for from := 0; from+1 < len(list); {
		to := from + 1
		for to+1 < len(list) && r.Nodes[list[to]].Round {
			to++
		}
		if to == from+1 { // one piece stays
			nodes[len(nodes)-1].Out = r.Nodes[list[from]].Out
			nodes = append(nodes, r.Nodes[list[to]])
			from = to
			continue
		}
		var run []Node
		for _, i := range list[from : to+1] {
			run = append(run, r.Nodes[i])
		}
		pts := Line(run, false)
		v, w := run[0], run[len(run)-1]
		fewer, ok := fit(slices.Clone(nodes), dense(pts, max(16, 4*len(pts))), leaving(pts, v.Out, v.At),
			leaving(reversed(pts), w.In, w.At), within)
		if ok {
			nodes = fewer
			nodes[len(nodes)-1].Round = w.Round
		} else { // it stays
			nodes[len(nodes)-1].Out = v.Out
			nodes = append(nodes, run[1:]...)
		}
		from = to
	}

	if whole {
		last := nodes[len(nodes)-1]
		nodes = nodes[:len(nodes)-1]
		nodes[0].In = last.In
		return Ring{Nodes: nodes}, nil
	}
	return r.replaced(s, nodes), nil
}

// dense returns the points of a line and others between them, no further apart than an n-th of the line.
func dense(line []orb.Point, n int) []orb.Point {
	all := 0.0
	for i := 1; i < len(line); i++ {
		all += geometry.PointDistance(line[i-1], line[i])
	}
	out := []orb.Point{line[0]}
	for i := 1; i < len(line); i++ {
		parts := 1
		if all > 0 {
			parts = 1 + int(geometry.PointDistance(line[i-1], line[i])/all*float64(n))
		}
		for k := 1; k <= parts; k++ {
			out = append(out, geometry.Lerp(line[i-1], line[i], float64(k)/float64(parts)))
		}
	}
	return out
}

// stretchOf returns the polygon of a stretch, or of the whole ring for a single node.
func (r Ring) stretchOf(s Stretch) ([]orb.Point, bool) {
	if len(r.indexes(s)) == 1 {
		return Line(r.Nodes, true), true
	}
	return r.Stretch(s), false
}

// replaced puts nodes in the place of a stretch. The outer control points of its ends stay as they were.
func (r Ring) replaced(s Stretch, nodes []Node) Ring {
	list := r.indexes(s)
	first, last := r.Nodes[list[0]], r.Nodes[list[len(list)-1]]
	n := len(nodes) - 1
	nodes[0].In, nodes[0].Round = first.In, first.Round &&
		near(geometry.Unit(geometry.Sub(first.At, first.In)), geometry.Unit(geometry.Sub(nodes[0].Out, first.At)))
	nodes[n].Out, nodes[n].Round = last.Out, last.Round &&
		near(geometry.Unit(geometry.Sub(last.Out, last.At)), geometry.Unit(geometry.Sub(last.At, nodes[n].In)))
	out := Ring{}
	inside := map[int]bool{}
	for _, i := range list {
		inside[i] = true
	}

	// The stretch comes first where it runs over the ring's end.
	if list[0] > list[len(list)-1] {
		out.Nodes = append(out.Nodes, nodes...)
		for i, v := range r.Nodes {
			if !inside[i] {
				out.Nodes = append(out.Nodes, v)
			}
		}
		return out
	}

	for i, v := range r.Nodes {
		if i == list[0] {
			out.Nodes = append(out.Nodes, nodes...)
		}
		if !inside[i] {
			out.Nodes = append(out.Nodes, v)
		}
	}
	return out
}
