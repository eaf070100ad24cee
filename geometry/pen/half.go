package pen

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Meets reports whether a line that was drawn means a half, whose ends are joined to those of its image in the upright
// mirror x = axis: both ends lie nearer to the mirror than to each other. Otherwise it closes itself, and its image is
// a second line.
func Meets(first, last orb.Point, axis float64) bool {
	apart := geometry.PointDistance(first, last)
	return math.Abs(first[0]-axis) < apart && math.Abs(last[0]-axis) < apart
}

// HalfStroke returns the closed line of a stroke that means a half and of its image in the mirror x = axis. What was
// drawn beyond the mirror is laid on it.
func HalfStroke(stroke []orb.Point, jitter, axis float64) (Ring, error) {
	side := 0.0
	for _, p := range stroke {
		side += p[0] - axis
	}
	var kept []orb.Point
	inside := func(p orb.Point) bool { return (p[0]-axis)*side > 0 }
	for i, p := range stroke {
		if i > 0 && inside(p) != inside(stroke[i-1]) {
			was := stroke[i-1]
			kept = append(kept, orb.Point{axis, was[1] + (p[1]-was[1])*(axis-was[0])/(p[0]-was[0])})
		}
		if inside(p) {
			kept = append(kept, p)
		}
	}

	if len(kept) < 2 {
		return Ring{}, errShort
	}

	// An end that stops before the mirror is carried on to it.
	if n := len(kept) - 1; kept[n][0] != axis {
		kept = append(kept, orb.Point{axis, kept[n][1]})
	}
	if kept[0][0] != axis {
		kept = append([]orb.Point{{axis, kept[0][1]}}, kept...)
	}
	nodes, err := Freed(kept, jitter, false)
	if err != nil {
		return Ring{}, err
	}
	return Half(nodes, axis), nil
}

// Half returns the closed line of a line and of its image in the mirror x = axis. The ends are brought onto the mirror;
// where the line meets it nearly square it goes on round, else there is a corner.
func Half(nodes []Node, axis float64) Ring {
	nodes = slices.Clone(nodes)
	n := len(nodes) - 1
	for _, i := range []int{0, n} {
		v := &nodes[i]
		d := axis - v.At[0]
		v.At[0] = axis
		v.In[0] += d
		v.Out[0] += d
	}
	first, last := &nodes[0], &nodes[n]
	first.Out, first.Round = square(first.At, first.Out)
	last.In, last.Round = square(last.At, last.In)
	first.In, last.Out = mirrored(first.Out, axis), mirrored(last.In, axis)
	out := Ring{Nodes: nodes}
	for i := n - 1; i > 0; i-- {
		out.Nodes = append(out.Nodes, nodes[i].image(axis))
	}
	return out
}

// square turns a control point square to an upright mirror if it nearly is.
func square(at, control orb.Point) (orb.Point, bool) {
	d := geometry.Sub(control, at)
	l := math.Hypot(d[0], d[1])
	if l == 0 || math.Abs(d[1]) > math.Sin(squareTurn)*l {
		return control, false
	}
	return orb.Point{at[0] + math.Copysign(l, d[0]), at[1]}, true
}

// Mirrored returns the ring's image in the mirror x = axis, run through the other way, so that it winds as before.
func (r Ring) Mirrored(axis float64) Ring {
	out := Ring{}
	for i := len(r.Nodes) - 1; i >= 0; i-- {
		out.Nodes = append(out.Nodes, r.Nodes[i].image(axis))
	}
	return out
}

// image returns a node's image, with the way through it reversed.
func (v Node) image(axis float64) Node {
	return Node{At: mirrored(v.At, axis), In: mirrored(v.Out, axis), Out: mirrored(v.In, axis), Round: v.Round}
}

func mirrored(p orb.Point, axis float64) orb.Point { return orb.Point{2*axis - p[0], p[1]} }
