package residue

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// centres is the line that the centre of a disc follows as it rolls along the boundary, at radius r: for every edge the
// arc about the corner at its beginning and the straight line beside it. Of each the box round the part is kept that
// may be clear of the rest of the boundary, so that a jump of the disc can only be where two boxes meet.
type centres struct {
	items []box // of each edge; empty where the disc cannot be
	nodes []box // of the boundary's tree
}

func newCentres(x *search) centres {
	b := x.b
	c := centres{items: make([]box, len(b.edges)), nodes: make([]box, len(b.nodes))}
	for k := len(b.nodes) - 1; k >= 0; k-- {
		n := &b.nodes[k]
		if n.left != 0 {
			c.nodes[k] = c.nodes[n.left].with(c.nodes[n.right])
			continue
		}
		c.nodes[k] = nothing
		for i := n.lo; i < n.hi; i++ {
			c.items[i] = x.liveBox(i)
			c.nodes[k] = c.nodes[k].with(c.items[i])
		}
	}
	return c
}

var nothing = box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

// liveBox returns the box of an edge and the corner at its beginning.
func (x *search) liveBox(i int32) box {
	e := &x.b.edges[i]
	out := nothing
	beside := stretch{x: x, length: e.length, at: func(s float64) orb.Point {
		return along(along(e.a, e.n, x.r), e.d, s)
	}}
	if lo, hi, ok := beside.live(); ok {
		p, q := beside.at(lo), beside.at(hi)
		out = box{min(p[0], q[0]), min(p[1], q[1]), max(p[0], q[0]), max(p[1], q[1])}
	}
	if e.fan {
		n := x.b.edges[e.prev].n
		turn := math.Atan2(-geometry.Cross(n, e.n), geometry.Dot(n, e.n)) // to the right
		if turn < 0 {
			turn = math.Pi // straight back
		}
		about := stretch{x: x, length: turn * x.r, at: func(s float64) orb.Point {
			sin, cos := math.Sincos(s / x.r)
			return orb.Point{e.a[0] + x.r*(cos*n[0]+sin*n[1]), e.a[1] + x.r*(cos*n[1]-sin*n[0])}
		}}
		if lo, hi, ok := about.live(); ok {
			// The arc lies within its sagitta of the chord.
			p, q, bulge := about.at(lo), about.at(hi), x.r*(1-math.Cos(min(math.Pi, (hi-lo)/x.r/2)))
			out = out.with(box{min(p[0], q[0]) - bulge, min(p[1], q[1]) - bulge, max(p[0], q[0]) + bulge,
				max(p[1], q[1]) + bulge})
		}
	}
	return out.padded(boxSlack)
}

func (b box) padded(by float64) box {
	return box{b.minX - by, b.minY - by, b.maxX + by, b.maxY + by}
}

// stretch is a part of the centre's line, by its length.
type stretch struct {
	x      *search
	length float64
	at     func(s float64) orb.Point
}

// live returns the part between the first and the last place where the disc may be clear, to about a part
// of its length (see edgesOfPart) or of the radius.
func (t *stretch) live() (lo, hi float64, ok bool) {
	if lo, ok = t.end(0, t.length, t.length, true); !ok {
		return 0, 0, false
	}
	hi, _ = t.end(lo, t.length, t.length, false)
	return lo, max(lo, hi), true
}

// end returns where the first or the last stretch between lo and hi begins or ends that may be clear.
func (t *stretch) end(lo, hi, of float64, first bool) (float64, bool) {
	mid, half := (lo+hi)/2, (hi-lo)/2
	if t.x.s.Nearer(t.at(mid), t.x.r-half-boxSlack) {
		return 0, false // all of it is too near
	}
	if hi-lo <= max(t.x.r/liveRadius, of/t.x.parts) {
		if first {
			return lo, true
		}
		return hi, true
	}
	one, two := [2]float64{lo, mid}, [2]float64{mid, hi}
	if !first {
		one, two = two, one
	}
	if s, ok := t.end(one[0], one[1], of, first); ok {
		return s, true
	}
	return t.end(two[0], two[1], of, first)
}

// pairs calls do once for every two different edges whose boxes meet, the earlier one first.
func (c *centres) pairs(b *boundary, do func(i, j int32)) {
	var visit func(x, y int32)
	visit = func(x, y int32) {
		u, v := &b.nodes[x], &b.nodes[y]
		switch {
		case !c.nodes[x].meets(c.nodes[y]):
		case x == y && u.left != 0:
			visit(u.left, u.left)
			visit(u.left, u.right)
			visit(u.right, u.right)
		case u.left == 0 && v.left == 0:
			for i := u.lo; i < u.hi; i++ {
				for j := max(v.lo, i+1); j < v.hi; j++ {
					if c.items[i].meets(c.items[j]) {
						do(i, j)
					}
				}
			}
		case v.left == 0 || (u.left != 0 && u.hi-u.lo >= v.hi-v.lo):
			visit(u.left, y)
			visit(u.right, y)
		default:
			visit(x, v.left)
			visit(x, v.right)
		}
	}
	visit(0, 0)
}

func (b box) meets(c box) bool {
	return b.minX <= c.maxX && c.minX <= b.maxX && b.minY <= c.maxY && c.minY <= b.maxY
}
