// Package pen draws and mends outlines by hand: a stroke becomes a smooth closed curve, a ring of a silhouette is held
// by few points with straight and curved pieces between them, and these are moved, set, taken out, rounded and
// sharpened.
//
// A ring's pieces are straight lines or cubic Béziers. Nothing here changes what it is given: every operation returns a
// new ring. Lengths are millimetres with y upward. What a ring stands for in a draft is its polygon, within
// FlattenSlack.
package pen

import (
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
)

// Node is a point of a ring. In and Out are the control points of the pieces that end and begin here; a piece is
// straight where both of its own lie on their nodes.
type Node struct {
	At, In, Out orb.Point
	Round       bool // the outline goes on here in one direction; otherwise the point is a corner
}

// Ring is a closed line: piece i runs from node i to the next, the last one back to the first.
type Ring struct {
	Nodes []Node
	kept  orb.Ring // the polygon it was read from, as long as nothing has been done to it
}

// Shape is an outline as nodes, ring by ring in the order of the outline's.
type Shape [][]Ring

// Stretch is a run of a ring from one node on to another; From equal to To is a single node.
type Stretch struct{ From, To int }

// Corner returns a node at which two straight pieces meet.
func Corner(p orb.Point) Node { return Node{At: p, In: p, Out: p} }

// Read holds an outline by nodes: a ring that one of the known ones stands for keeps that one's nodes, any other is
// approximated by curves within ReadSlack, with corners where it has corners.
func Read(mp orb.MultiPolygon, known ...Ring) (Shape, error) {
	polygons := make([]orb.Ring, len(known))
	for i, r := range known {
		polygons[i] = r.Polygon()
	}
	out := make(Shape, len(mp))
	for i, polygon := range mp {
	rings:
		for _, ring := range polygon {
			for n, p := range polygons {
				if sameRing(p, ring) {
					out[i] = append(out[i], Ring{Nodes: known[n].Nodes, kept: ring})
					continue rings
				}
				if sameRing(p, reversed(ring)) {
					out[i] = append(out[i], Ring{Nodes: known[n].Reversed().Nodes, kept: ring})
					continue rings
				}
			}
			r, err := readRing(ring)
			if err != nil {
				return nil, err
			}
			out[i] = append(out[i], r)
		}
	}
	return out, nil
}

// readRing answers a ring by curves.
func readRing(ring orb.Ring) (Ring, error) {
	outer := ring
	if geometry.RingArea(ring) < 0 {
		outer = reversed(ring)
	}
	fitted, err := curve.Outline(orb.MultiPolygon{{outer}},
		curve.Options{Kind: curve.Cubic, Tolerance: curveShare * ReadSlack})
	if err != nil {
		return Ring{}, err
	}
	r := fewest(fromPath(fitted.Paths[0][0], outer))
	if len(outer) > 0 && len(ring) > 0 && &outer[0] != &ring[0] {
		r = r.Reversed()
		r.kept = ring
	}
	return r, nil
}

// fewest draws a ring that was read with fewer points, if that leaves it a ring.
func fewest(r Ring) Ring {
	less, err := r.Simplified(Stretch{}, (1-curveShare)*ReadSlack)
	if err != nil || len(less.Nodes) >= len(r.Nodes) || Check(orb.MultiPolygon{{less.Polygon()}}) != nil {
		return r
	}
	less.kept = r.kept
	return less
}

// fromPath makes nodes of a fitted path.
func fromPath(p curve.Path, ring orb.Ring) Ring {
	n := len(p.Pieces)
	out := Ring{Nodes: make([]Node, n), kept: ring}
	for i, q := range p.Pieces {
		from := p.From(i)
		next := (i + 1) % n
		out.Nodes[i].At = from
		out.Nodes[i].Out, out.Nodes[next].In = from, q.To
		if q.Kind == curve.Cubic {
			out.Nodes[i].Out, out.Nodes[next].In = q.C1, q.C2
		}
		out.Nodes[next].Round = !q.Corner
	}
	for i := range out.Nodes {
		if v := &out.Nodes[i]; v.Round && v.In == v.At && v.Out == v.At {
			v.Round = false
		}
	}
	return out
}

// Polygon returns the ring as a closed polygon, snapped to the draft's grid, that leaves its curves by no more than
// FlattenSlack.
func (r Ring) Polygon() orb.Ring {
	if r.kept != nil {
		return r.kept
	}
	return snapped(r.path().Flatten(FlattenSlack))
}

// Line returns the polygon of a line that is not closed, or of one that is.
func Line(nodes []Node, closed bool) []orb.Point {
	p := Ring{Nodes: nodes}.path()
	if !closed && len(p.Pieces) > 0 {
		p.Pieces = p.Pieces[:len(p.Pieces)-1]
	}
	return p.Flatten(FlattenSlack)
}

// Stretch returns the polygon of the pieces of a stretch.
func (r Ring) Stretch(s Stretch) []orb.Point {
	var nodes []Node
	for _, i := range r.indexes(s) {
		nodes = append(nodes, r.Nodes[i])
	}
	return Line(nodes, false)
}

func (r Ring) path() curve.Path {
	n := len(r.Nodes)
	if n == 0 {
		return curve.Path{}
	}
	p := curve.Path{Start: r.Nodes[0].At, Pieces: make([]curve.Piece, n)}
	for i, v := range r.Nodes {
		w := r.Nodes[(i+1)%n]
		p.Pieces[i] = curve.Piece{To: w.At}
		if !r.Straight(i) {
			p.Pieces[i] = curve.Piece{Kind: curve.Cubic, C1: v.Out, C2: w.In, To: w.At}
		}
	}
	return p
}

// Straight reports whether piece i is a straight line.
func (r Ring) Straight(i int) bool {
	v, w := r.Nodes[i], r.Nodes[r.after(i)]
	return v.Out == v.At && w.In == w.At
}

// Reversed returns the ring run through the other way.
func (r Ring) Reversed() Ring {
	out := Ring{Nodes: slices.Clone(r.Nodes)}
	slices.Reverse(out.Nodes)
	for i := range out.Nodes {
		v := &out.Nodes[i]
		v.In, v.Out = v.Out, v.In
	}
	if r.kept != nil {
		out.kept = reversed(r.kept)
	}
	return out
}

// Outline returns what the shape stands for in a draft: every ring's polygon.
func (s Shape) Outline() orb.MultiPolygon {
	out := make(orb.MultiPolygon, len(s))
	for i, polygon := range s {
		for _, r := range polygon {
			out[i] = append(out[i], r.Polygon())
		}
	}
	return out
}

// Rings returns all rings, one polygon after the other.
func (s Shape) Rings() []Ring {
	var out []Ring
	for _, polygon := range s {
		out = append(out, polygon...)
	}
	return out
}

// With returns the shape with ring n of Rings replaced.
func (s Shape) With(n int, r Ring) Shape {
	out := make(Shape, len(s))
	for i, polygon := range s {
		out[i] = slices.Clone(polygon)
		if n >= 0 && n < len(polygon) {
			out[i][n] = r
		}
		n -= len(polygon)
	}
	return out
}

// Without returns the shape without ring n of Rings: a hole is filled, and an outer ring goes with its holes.
func (s Shape) Without(n int) Shape {
	var out Shape
	for _, polygon := range s {
		switch {
		case n == 0:
		case n > 0 && n < len(polygon):
			out = append(out, slices.Delete(slices.Clone(polygon), n, n+1))
		default:
			out = append(out, polygon)
		}
		n -= len(polygon)
	}
	return out
}

func (r Ring) after(i int) int  { return (i + 1) % len(r.Nodes) }
func (r Ring) before(i int) int { return (i + len(r.Nodes) - 1) % len(r.Nodes) }

// indexes returns the nodes of a stretch in order. Indexes outside the ring are brought into it.
func (r Ring) indexes(s Stretch) []int {
	n := len(r.Nodes)
	if n == 0 {
		return nil
	}
	from, to := ((s.From%n)+n)%n, ((s.To%n)+n)%n
	out := []int{from}
	for i := from; i != to; {
		i = r.after(i)
		out = append(out, i)
	}
	return out
}

func (r Ring) clone() Ring { return Ring{Nodes: slices.Clone(r.Nodes)} }

// sameRing reports whether two closed rings hold the same points in the same order, wherever they begin.
func sameRing(a, b orb.Ring) bool {
	if len(a) != len(b) || len(a) < 2 {
		return false
	}
	n := len(a) - 1
	for start, p := range b[:n] {
		if p != a[0] {
			continue
		}
		k := 1
		for k < n && a[k] == b[(start+k)%n] {
			k++
		}
		if k == n {
			return true
		}
	}
	return false
}

func reversed(r orb.Ring) orb.Ring {
	out := slices.Clone(r)
	slices.Reverse(out)
	return out
}

// snapped brings a ring onto the draft's grid and leaves out points that fall together there.
func snapped(r orb.Ring) orb.Ring {
	var out orb.Ring
	for _, p := range r {
		p = orb.Point{geometry.Snap(p[0]), geometry.Snap(p[1])}
		if len(out) == 0 || out[len(out)-1] != p {
			out = append(out, p)
		}
	}
	if len(out) > 1 && out[0] != out[len(out)-1] {
		out = append(out, out[0])
	}
	return out
}
