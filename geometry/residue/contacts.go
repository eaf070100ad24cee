package residue

import (
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// touch is where a disc touches the boundary: on edge k, or about the corner at its beginning.
type touch struct {
	edge   int32
	corner bool
	at     float64 // how far along the edge in mm, or how far round the corner in radians
	p      orb.Point
}

// before orders touches along a ring: the corner at an edge's beginning comes before the edge.
func (t touch) before(o touch) bool {
	switch {
	case t.edge != o.edge:
		return t.edge < o.edge
	case t.corner != o.corner:
		return t.corner
	}
	return t.at < o.at
}

// contact is a double contact of a disc that rolls along the boundary with the region on its left: it can roll on no
// further than from.p, because there it touches the boundary at to.p too, and it rolls on from there.
type contact struct {
	c        orb.Point
	from, to touch
}

// search collects the contacts of one radius.
type search struct {
	b     *boundary
	s     *geometry.Shape
	r     float64
	slack float64 // see attempt
	parts float64 // into which a stretch of the centre's line is divided at most
	found []contact
}

func newSearch(b *boundary, s *geometry.Shape, r, slack float64) *search {
	return &search{b: b, s: s, r: r, slack: slack, parts: float64(min(maxParts, 1+len(b.edges)/edgesOfPart))}
}

// contacts returns the jumps of a disc of radius r, each once.
func (b *boundary) contacts(s *geometry.Shape, r, slack float64) []contact {
	x := newSearch(b, s, r, slack)
	live := newCentres(x)
	live.pairs(b, x.pair)

	// In the order of a direction along which hardly two centres lie at one height by design.
	height := func(d *contact) float64 { return 0.7548776662466927*d.c[0] + 0.6558656180971399*d.c[1] }
	sort.Slice(x.found, func(i, j int) bool { return height(&x.found[i]) < height(&x.found[j]) })
	out := x.found[:0:0]
	for _, d := range x.found {
		again := false
		for k := len(out) - 1; k >= 0 && height(&d)-height(&out[k]) < 2*sameSlack && !again; k-- {
			o := &out[k]
			again = near(d.c, o.c) && near(d.from.p, o.from.p) && near(d.to.p, o.to.p)
		}
		if !again {
			out = append(out, d)
		}
	}
	return out
}

func near(p, q orb.Point) bool { return dist2(p, q) < sameSlack*sameSlack }

// pair tries two edges and the corners at their beginnings. What belongs to the same corner only touches itself.
func (x *search) pair(i, j int32) {
	e, f := &x.b.edges[i], &x.b.edges[j]
	switch {
	case e.next == j && f.next == i: // a ring of two edges does not occur
	case e.next == j:
		x.bend(i, j)
	case f.next == i:
		x.bend(j, i)
	default:
		x.edges(i, j)
	}
	if e.fan && e.a != f.a && e.a != f.b {
		x.cornerEdge(i, j)
	}
	if f.fan && f.a != e.a && f.a != e.b {
		x.cornerEdge(j, i)
	}
	if e.fan && f.fan && e.a != f.a {
		x.corners(i, j)
	}
}

// bend tries the disc in the corner between an edge and the next.
func (x *search) bend(i, j int32) {
	e, f := &x.b.edges[i], &x.b.edges[j]
	w := 1 + geometry.Dot(e.n, f.n)
	if geometry.Cross(e.d, f.d) <= 0 || w <= 0 {
		return
	}
	c := orb.Point{f.a[0] + x.r*(e.n[0]+f.n[0])/w, f.a[1] + x.r*(e.n[1]+f.n[1])/w}
	back := x.r * geometry.Cross(e.d, f.d) / w // r times the tangent of half the turn
	x.try(c, x.onEdge(i, e.length-back), x.onEdge(j, back))
}

// edges tries the disc that touches two edges: where the lines beside them cross.
func (x *search) edges(i, j int32) {
	e, f := &x.b.edges[i], &x.b.edges[j]
	den := geometry.Cross(e.d, f.d)
	if math.Abs(den) < flat {
		return
	}
	p, q := along(e.a, e.n, x.r), along(f.a, f.n, x.r)
	w := geometry.Sub(q, p)
	s, t := geometry.Cross(w, f.d)/den, geometry.Cross(w, e.d)/den
	x.try(along(p, e.d, s), x.onEdge(i, s), x.onEdge(j, t))
}

// cornerEdge tries the discs that touch the corner at the beginning of edge i and edge j.
func (x *search) cornerEdge(i, j int32) {
	v, f := x.b.edges[i].a, &x.b.edges[j]
	w := geometry.Sub(v, f.a)
	h := x.r - geometry.Dot(w, f.n) // how far the corner lies below the line beside the edge
	rest := x.r*x.r - h*h
	if rest <= 0 {
		return
	}
	half, foot := math.Sqrt(rest), geometry.Dot(w, f.d)
	for _, s := range [2]float64{foot - half, foot + half} {
		if s < -endSlack || s > f.length+endSlack {
			continue
		}
		c := along(along(f.a, f.n, x.r), f.d, s)
		x.try(c, x.onCorner(i, c), x.onEdge(j, s))
	}
}

// corners tries the discs that touch the corners at the beginnings of two edges.
func (x *search) corners(i, j int32) {
	v, w := x.b.edges[i].a, x.b.edges[j].a
	l2 := dist2(v, w)
	rest := x.r*x.r - l2/4
	if rest <= 0 || l2 == 0 {
		return
	}
	m, h := geometry.Midpoint(v, w), math.Sqrt(rest/l2)
	for _, k := range [2]float64{h, -h} {
		c := orb.Point{m[0] - k*(w[1]-v[1]), m[1] + k*(w[0]-v[0])}
		x.try(c, x.onCorner(i, c), x.onCorner(j, c))
	}
}

// onEdge returns the touch s mm along edge i; its edge is -1 when the edge does not reach there.
func (x *search) onEdge(i int32, s float64) touch {
	e := &x.b.edges[i]
	if !(s >= -endSlack && s <= e.length+endSlack) {
		return touch{edge: -1}
	}
	s = max(0, min(e.length, s))
	return touch{edge: i, at: s, p: along(e.a, e.d, s)}
}

// onCorner returns the touch of a disc with centre c about the corner at the beginning of edge i; its edge is -1 when
// the disc would touch the boundary beside the corner first.
func (x *search) onCorner(i int32, c orb.Point) touch {
	e := &x.b.edges[i]
	before := &x.b.edges[e.prev]
	u := geometry.Sub(c, e.a)
	if geometry.Dot(u, before.d) < -endSlack || geometry.Dot(u, e.d) > endSlack {
		return touch{edge: -1}
	}
	return touch{edge: i, corner: true, at: math.Atan2(-geometry.Cross(before.n, u), geometry.Dot(before.n, u)), p: e.a}
}

// try keeps the disc about c that touches at two places, when it is clear of everything else.
func (x *search) try(c orb.Point, t, o touch) {
	if t.edge < 0 || o.edge < 0 {
		return
	}
	turn := geometry.Cross(geometry.Sub(c, t.p), geometry.Sub(c, o.p)) / (x.r * x.r)
	if math.Abs(turn) < flat || x.s.Nearer(c, x.r-x.slack) {
		return
	}
	// The region the centre may lie in is on the left of both lines, so that its boundary turns left from one to the
	// other.
	if turn > 0 {
		x.found = append(x.found, contact{c, t, o})
	} else {
		x.found = append(x.found, contact{c, o, t})
	}
}
