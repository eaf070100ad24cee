package residue

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

func (g gap) length() float64 {
	sum := 0.0
	for i := 0; i+1 < len(g); i++ {
		sum += geometry.PointDistance(g[i], g[i+1])
	}
	return sum
}

// cut returns the parts of a line before and after its corner p.
func (g gap) cut(p orb.Point) (one, two gap) {
	for i, q := range g {
		if q == p {
			return g[:i+1], g[i:]
		}
	}
	return g, nil
}

// halfway returns the point in the middle of a line's length.
func (g gap) halfway() orb.Point {
	left := g.length() / 2
	for i := 0; i+1 < len(g); i++ {
		l := geometry.PointDistance(g[i], g[i+1])
		if left <= l && l > 0 {
			return along(g[i], geometry.Sub(g[i+1], g[i]), left/l)
		}
		left -= l
	}
	return g[len(g)-1]
}

// lines are the sides of a piece, one after another, with a binary tree over their edges.
type lines struct {
	from, to []orb.Point // of each edge
	side     []int32
	nodes    []node
}

func newLines(sides []gap) *lines {
	l := &lines{}
	for k, g := range sides {
		for i := 0; i+1 < len(g); i++ {
			l.from, l.to, l.side = append(l.from, g[i]), append(l.to, g[i+1]), append(l.side, int32(k))
		}
	}
	if len(l.from) > 0 {
		l.split(0, int32(len(l.from)))
	}
	return l
}

// split appends the node over edges lo…hi−1 and, below it, its halves. Its depth is the logarithm of the edges.
func (l *lines) split(lo, hi int32) int32 {
	k := int32(len(l.nodes))
	l.nodes = append(l.nodes, node{lo: lo, hi: hi})
	if hi-lo <= leafEdges {
		x := nothing
		for i := lo; i < hi; i++ {
			e := edge{a: l.from[i], b: l.to[i]}
			x = x.with(e.box())
		}
		l.nodes[k].box = x
		return k
	}
	mid := (lo + hi) / 2
	a := l.split(lo, mid)
	b := l.split(mid, hi)
	l.nodes[k].left, l.nodes[k].right = a, b
	l.nodes[k].box = l.nodes[a].box.with(l.nodes[b].box)
	return k
}

// nearest returns the shortest way between two different sides that counts, +Inf for none. The nearer of two pairs of
// nodes is looked into first, so that a way found early leaves few to look into.
func (l *lines) nearest(counts func(p, q orb.Point) bool) (d float64, p, q orb.Point) {
	d = math.Inf(1)
	if len(l.nodes) == 0 {
		return d, p, q
	}
	var visit func(x, y int32)
	all := func(pairs ...[2]int32) {
		slices.SortStableFunc(pairs, func(a, b [2]int32) int {
			return cmp.Compare(l.nodes[a[0]].box.gap2(l.nodes[a[1]].box), l.nodes[b[0]].box.gap2(l.nodes[b[1]].box))
		})
		for _, w := range pairs {
			visit(w[0], w[1])
		}
	}

	visit = func(x, y int32) {
		u, v := &l.nodes[x], &l.nodes[y]
		switch {
		case l.side[u.lo] == l.side[v.hi-1] || u.box.gap2(v.box) >= d*d: // sides come in order: all of one side
		case x == y && u.left != 0:
			all([2]int32{u.left, u.right}, [2]int32{u.left, u.left}, [2]int32{u.right, u.right})
		case u.left == 0 && v.left == 0:
			for i := u.lo; i < u.hi; i++ {
				for j := max(v.lo, i+1); j < v.hi; j++ {
					if l.side[i] == l.side[j] {
						continue
					}
					if a, b, e := segments(l.from[i], l.to[i], l.from[j], l.to[j]); e < d*(1-tie) && counts(a, b) {
						d, p, q = e, a, b
					}
				}
			}
		case v.left == 0 || (u.left != 0 && u.hi-u.lo >= v.hi-v.lo):
			all([2]int32{u.left, y}, [2]int32{u.right, y})
		default:
			all([2]int32{x, v.left}, [2]int32{x, v.right})
		}
	}

	visit(0, 0)
	return d, p, q
}

// segments returns the nearest points of two segments that do not cross, and their distance. Of parallel ones it is the
// middle of the stretch where they face each other.
func segments(a, b, c, d orb.Point) (p, q orb.Point, dist float64) {
	best := math.Inf(1)
	for _, w := range [4][2]orb.Point{{a, nearestOn(c, d, a)}, {b, nearestOn(c, d, b)}, {nearestOn(a, b, c), c},
		{nearestOn(a, b, d), d}} {
		if e := dist2(w[0], w[1]); e < best {
			best, p, q = e, w[0], w[1]
		}
	}
	u, v := geometry.Sub(b, a), geometry.Sub(d, c)
	if l2 := geometry.Dot(u, u); math.Abs(geometry.Cross(u, v)) <= 1e-9*math.Sqrt(l2*geometry.Dot(v, v)) && l2 > 0 {
		s, t := geometry.Dot(geometry.Sub(c, a), u)/l2, geometry.Dot(geometry.Sub(d, a), u)/l2
		if lo, hi := max(0, min(s, t)), min(1, max(s, t)); lo < hi {
			p = along(a, u, (lo+hi)/2)
			q = nearestOn(c, d, p)
		}
	}
	return p, q, math.Sqrt(best)
}

// nearestOn returns the point of the segment a–b nearest to p.
func nearestOn(a, b, p orb.Point) orb.Point {
	d := geometry.Sub(b, a)
	l2 := geometry.Dot(d, d)
	if l2 == 0 {
		return a
	}
	switch t := geometry.Dot(geometry.Sub(p, a), d) / l2; {
	case t <= 0:
		return a
	case t >= 1:
		return b
	default:
		return along(a, d, t)
	}
}
