// Package curve approximates polygons by smooth curves: cubic Béziers, or lines and circular arcs, within a tolerance
// of the polygon that is measured both ways. Lengths are millimetres, y upward.
package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Kind of a piece.
type Kind uint8

// The kinds of pieces.
const (
	Line Kind = iota
	Cubic
	Arc
)

// Piece is a part of a path, from where the one before it ends to To, in mm.
type Piece struct {
	Kind   Kind
	Corner bool      // the path turns sharply at To
	C1, C2 orb.Point // control points of a Cubic
	Bulge  float64   // of an Arc: the tangent of a quarter of the angle it turns, positive counter-clockwise
	To     orb.Point
}

// Path is a run of pieces; it is closed when the last ends at Start.
type Path struct {
	Start  orb.Point
	Pieces []Piece
}

// Polygon returns the ring's edges as a path of lines; corners are marked by the rule of Fit. A ring of fewer than four
// points gives an empty path.
func Polygon(r orb.Ring) Path {
	if len(r) < 4 {
		return Path{}
	}
	p := Path{Start: r[0], Pieces: make([]Piece, 0, len(r)-1)}
	sharp := corners(open(r))
	for i := 1; i < len(r); i++ {
		p.Pieces = append(p.Pieces, Piece{Kind: Line, To: r[i]})
	}
	if n := len(p.Pieces); len(sharp) == n {
		for i := range p.Pieces {
			p.Pieces[i].Corner = sharp[(i+1)%n]
		}
	}
	return p
}

// Circle returns a circle of four pieces, counter-clockwise from its rightmost point: arcs, or Béziers that leave it by
// less than 0.03 % of the radius (the usual choice of handles, 4/3·(√2 − 1)).
func Circle(c orb.Point, radius float64, kind Kind) Path {
	at := func(k int) orb.Point {
		s, x := math.Sincos(float64(k) * math.Pi / 2)
		return orb.Point{c[0] + radius*math.Round(x), c[1] + radius*math.Round(s)}
	}
	p := Path{Start: at(0)}
	h := 4.0 / 3 * (math.Sqrt2 - 1)
	for k := range 4 {
		a, b := at(k), at((k+1)%4)
		q := Piece{Kind: Arc, Bulge: math.Tan(math.Pi / 8), To: b}
		if kind != Arc {
			q = Piece{Kind: Cubic, To: b,
				C1: orb.Point{a[0] - h*(a[1]-c[1]), a[1] + h*(a[0]-c[0])},
				C2: orb.Point{b[0] + h*(b[1]-c[1]), b[1] - h*(b[0]-c[0])}}
		}
		p.Pieces = append(p.Pieces, q)
	}
	return p
}

// Closed reports whether the path ends where it starts.
func (p Path) Closed() bool {
	return len(p.Pieces) > 0 && p.Pieces[len(p.Pieces)-1].To == p.Start
}

// End returns the path's last point.
func (p Path) End() orb.Point {
	if len(p.Pieces) == 0 {
		return p.Start
	}
	return p.Pieces[len(p.Pieces)-1].To
}

// Append writes the image of the path under m to dst, a closed path from piece start on, and returns it with the
// image's first point. Where m mirrors the image runs the other way, so that a closed path keeps its orientation. m
// must keep angles, for arcs to stay arcs.
func (p Path) Append(dst []Piece, m geometry.Map, start int) (orb.Point, []Piece) {
	n := len(p.Pieces)
	if n == 0 {
		return m.Apply(p.Start), dst
	}
	if !p.Closed() {
		start = 0
	}
	if m.Det() >= 0 {
		for k := range n {
			q := p.Pieces[(start+k)%n]
			q.C1, q.C2, q.To = m.Apply(q.C1), m.Apply(q.C2), m.Apply(q.To)
			dst = append(dst, q)
		}
		return m.Apply(p.From(start)), dst
	}

	first := p.From(start)
	if !p.Closed() {
		first = p.End()
	}
	for k := range n {
		i := ((start-1-k)%n + n) % n
		q := p.Pieces[i]
		before := p.Pieces[(i+n-1)%n]
		q.C1, q.C2, q.To, q.Corner = m.Apply(q.C2), m.Apply(q.C1), m.Apply(p.From(i)), before.Corner
		// Run backwards an arc bends the other way, and mirrored back again.
		dst = append(dst, q)
	}
	return m.Apply(first), dst
}

// Shortest returns the least distance in mm between the ends of a piece, +Inf when there is none.
func (p Path) Shortest() float64 {
	least, from := math.Inf(1), p.Start
	for _, q := range p.Pieces {
		least = min(least, distance(from, q.To))
		from = q.To
	}
	return least
}

// onGrid returns the path with all its points on a grid of so many mm; arcs keep their bulges.
func (p Path) onGrid(step float64) Path {
	at := func(q orb.Point) orb.Point {
		return orb.Point{math.Round(q[0]/step) * step, math.Round(q[1]/step) * step}
	}
	out := Path{Start: at(p.Start), Pieces: make([]Piece, len(p.Pieces))}
	for i, q := range p.Pieces {
		q.C1, q.C2, q.To = at(q.C1), at(q.C2), at(q.To)
		out.Pieces[i] = q
	}
	return out
}

// From returns the point where piece k begins.
func (p Path) From(k int) orb.Point {
	if k <= 0 {
		return p.Start
	}
	return p.Pieces[k-1].To
}

// Under returns the path's image under m, as Append does.
func (p Path) Under(m geometry.Map) Path {
	start, pieces := p.Append(make([]Piece, 0, len(p.Pieces)), m, 0)
	return Path{start, pieces}
}

func turned(v orb.Point, angle float64) orb.Point { return geometry.Turn(angle).Vector(v) }

// distance is written out: coordinates are far from where squares overflow, and it is called most of all.
func distance(p, q orb.Point) float64 {
	x, y := q[0]-p[0], q[1]-p[1]
	return math.Sqrt(x*x + y*y)
}
