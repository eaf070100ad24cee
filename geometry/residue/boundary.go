package residue

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// edge is one edge of the boundary, with the region on its left.
type edge struct {
	a, b       orb.Point
	d, n       orb.Point // unit vectors along it and to its left
	length     float64
	prev, next int32
	ring       int32
	fan        bool // at a the boundary turns right, so that a disc turns about this corner
}

// boundary is the region's boundary as edges in ring order, with a binary tree over them.
type boundary struct {
	edges []edge
	rings [][2]int32 // first edge, and the one after the last
	nodes []node
}

// node is a node of the tree over edges lo…hi−1; a leaf has left = 0.
type node struct {
	box                 box
	lo, hi, left, right int32
}

type box struct{ minX, minY, maxX, maxY float64 }

func (b box) gap2(c box) float64 {
	dx := max(0, b.minX-c.maxX, c.minX-b.maxX)
	dy := max(0, b.minY-c.maxY, c.minY-b.maxY)
	return dx*dx + dy*dy
}

func (b box) with(c box) box {
	return box{min(b.minX, c.minX), min(b.minY, c.minY), max(b.maxX, c.maxX), max(b.maxY, c.maxY)}
}

func (e *edge) box() box {
	return box{min(e.a[0], e.b[0]), min(e.a[1], e.b[1]), max(e.a[0], e.b[0]), max(e.a[1], e.b[1])}
}

// newBoundary takes the rings of an outline, those of the plane round it turned about, and returns the outline as
// taken, rightly turned. Points repeated are taken once, rings of fewer than three points are passed over.
func newBoundary(mp orb.MultiPolygon, inside bool) (*boundary, orb.MultiPolygon) {
	var rings [][]orb.Point
	for _, p := range mp {
		for j, r := range p {
			pts := distinct(r)
			if len(pts) < 3 {
				if j == 0 {
					break
				}
				continue
			}
			if (area(pts) > 0) != (j == 0) {
				reverse(pts)
			}
			rings = append(rings, pts)
		}
	}

	rings, touching := joinTouching(rings)
	bounds := make([]orb.Bound, len(rings))
	for k, pts := range rings {
		bounds[k] = orb.MultiPoint(pts).Bound()
	}

	b := &boundary{}
	var taken orb.MultiPolygon // every ring as a polygon: which are holes does not matter to distances and crossings
	for _, k := range geometry.NearOrder(bounds) {
		pts := rings[k]
		taken = append(taken, orb.Polygon{append(append(orb.Ring(nil), pts...), pts[0])})
		if !inside {
			reverse(pts)
		}
		b.add(pts)
	}

	if touching {
		b.rewire()
	}
	for i := range b.edges {
		e := &b.edges[i]
		before := b.edges[e.prev].d
		c := geometry.Cross(before, e.d)
		e.fan = c < 0 || (c == 0 && geometry.Dot(before, e.d) < 0)
	}
	if len(b.edges) > 0 {
		b.split(0, int32(len(b.edges)))
	}
	return b, taken
}

func (b *boundary) add(pts []orb.Point) {
	first, n := int32(len(b.edges)), int32(len(pts))
	for i := range n {
		p, q := pts[i], pts[(i+1)%n]
		l := math.Hypot(q[0]-p[0], q[1]-p[1])
		d := orb.Point{(q[0] - p[0]) / l, (q[1] - p[1]) / l}
		b.edges = append(b.edges, edge{a: p, b: q, d: d, n: orb.Point{-d[1], d[0]}, length: l,
			prev: first + (i+n-1)%n, next: first + (i+1)%n, ring: int32(len(b.rings))})
	}
	b.rings = append(b.rings, [2]int32{first, first + n})
}

// split appends the node over edges lo…hi−1 and, below it, its halves. Its depth is the logarithm of the edges.
func (b *boundary) split(lo, hi int32) int32 {
	k := int32(len(b.nodes))
	b.nodes = append(b.nodes, node{lo: lo, hi: hi})
	if hi-lo <= leafEdges {
		x := b.edges[lo].box()
		for i := lo + 1; i < hi; i++ {
			x = x.with(b.edges[i].box())
		}
		b.nodes[k].box = x
		return k
	}
	mid := (lo + hi) / 2
	l := b.split(lo, mid)
	r := b.split(mid, hi)
	b.nodes[k].left, b.nodes[k].right = l, r
	b.nodes[k].box = b.nodes[l].box.with(b.nodes[r].box)
	return k
}

// pairs calls do once for every two different edges nearer than about reach mm, the earlier one first.
func (b *boundary) pairs(reach float64, do func(i, j int32)) {
	r2 := reach * reach
	var visit func(x, y int32)
	visit = func(x, y int32) {
		u, v := &b.nodes[x], &b.nodes[y]
		switch {
		case u.box.gap2(v.box) > r2:
		case x == y && u.left != 0:
			visit(u.left, u.left)
			visit(u.left, u.right)
			visit(u.right, u.right)
		case u.left == 0 && v.left == 0:
			for i := u.lo; i < u.hi; i++ {
				bi := b.edges[i].box()
				for j := max(v.lo, i+1); j < v.hi; j++ {
					if bi.gap2(b.edges[j].box()) <= r2 {
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

// distinct returns the points of a ring, those left out that lie beside the one before.
func distinct(r []orb.Point) []orb.Point {
	var out []orb.Point
	for _, p := range r {
		if len(out) == 0 || !isOne(p, out[len(out)-1]) {
			out = append(out, p)
		}
	}
	for len(out) > 1 && isOne(out[0], out[len(out)-1]) {
		out = out[:len(out)-1]
	}
	return out
}

func isOne(p, q orb.Point) bool { return dist2(p, q) <= pointSlack*pointSlack }

func reverse(pts []orb.Point) {
	for i, j := 0, len(pts)-1; i < j; i, j = i+1, j-1 {
		pts[i], pts[j] = pts[j], pts[i]
	}
}

// area returns the signed area of a line of points closed by a straight line, positive counter-clockwise.
func area(pts []orb.Point) float64 {
	sum := 0.0
	for i := 1; i+1 < len(pts); i++ {
		sum += geometry.Cross(geometry.Sub(pts[i], pts[0]), geometry.Sub(pts[i+1], pts[0]))
	}
	return sum / 2
}

func along(p, d orb.Point, t float64) orb.Point { return orb.Point{p[0] + t*d[0], p[1] + t*d[1]} }
func dist2(p, q orb.Point) float64              { d := geometry.Sub(p, q); return geometry.Dot(d, d) }
