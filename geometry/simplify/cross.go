package simplify

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"
)

// place names a span of a ring.
type place struct{ ring, span int }

// edge is an edge of the answer, on the grid.
type edge struct {
	a, b    corner
	ring, k int // edge k of this ring
	of      int // edges that the ring has
}

// crossings returns the spans of all edges that cross, touch or fold back onto another, each once, in order. Edges that
// follow each other share a corner and may, and so may those that meet in a corner that stays. The coordinates are
// whole numbers, so the answer is exact.
//
// Time grows as n log n for outlines whose edges are short beside their rings.
func crossings(fits []*fit) []place {
	c := newCrosser(fits)
	c.search()
	slices.SortFunc(c.found, func(p, q place) int {
		if p.ring != q.ring {
			return p.ring - q.ring
		}
		return p.span - q.span
	})
	return slices.Compact(c.found)
}

// newCrosser gathers the edges.
func newCrosser(fits []*fit) *crosser {
	c := &crosser{}
	for r, f := range fits {
		n := len(f.drawn)
		for k := range n {
			e := edge{f.drawn[k], f.drawn[(k+1)%n], r, k, n}
			c.edges = append(c.edges, e)
			if n < 3 {
				c.found = append(c.found, place{r, e.a.span})
			}
		}
	}
	return c
}

// search looks at all pairs that may meet.
func (c *crosser) search() {
	if len(c.edges) > 0 {
		c.leaves()
		c.split(0, len(c.boxes))
		c.within(0)
	}
}

// enough says whether the search may stop.
func (c *crosser) enough() bool {
	return c.stop > 0 && (len(c.found) >= 2*c.stop || c.pairs >= c.stop*pairsPerCrossing)
}

// crosser is a binary tree over boxes, each around a few edges that follow each other, and what was found.
type crosser struct {
	edges []edge
	boxes []box  // in an order in which neighbours in the plane are mostly neighbours
	nodes []node // children follow their parent
	found []place
	pairs int // looked at
	stop  int // so many looked at, or found, are enough; 0: never
}

// Crossings counts the pairs of edges that cross or touch, those apart that follow each other, after snapping to
// geometry.Grid; rings are closed by a straight line if they are not. It stops when there are more than most of them,
// or when it has looked at a thousand times as many pairs, and returns more than most then. Two edges on one line that
// overlap count as well.
func Crossings(rings []orb.Ring, limit int) int {
	var fits []*fit
	for _, r := range rings {
		f := &fit{}
		for _, v := range r {
			f.add(v, 0, false)
		}
		f.closeDrawn()
		fits = append(fits, f)
	}
	c := newCrosser(fits)
	c.stop = limit + 1
	c.search()
	if c.pairs >= c.stop*pairsPerCrossing {
		return c.stop
	}
	return len(c.found) / 2
}

// box is around the edges lo … hi−1.
type box struct {
	lo, hi                 int
	minX, minY, maxX, maxY int64
}

// node is around the boxes lo … hi−1; a leaf has one of them, and left = 0.
type node struct {
	box
	left, right int
}

func (a *box) meets(b *box) bool {
	return a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY
}

func (a *box) join(b *box) {
	a.minX, a.minY = min(a.minX, b.minX), min(a.minY, b.minY)
	a.maxX, a.maxY = max(a.maxX, b.maxX), max(a.maxY, b.maxY)
}

// leaves makes the boxes and sorts them along a curve that fills the plane: by the bits of their middles' coordinates,
// taken in turn.
func (c *crosser) leaves() {
	for lo := 0; lo < len(c.edges); {
		hi := lo
		e := c.edges[lo]
		b := box{lo: lo, minX: e.a.x, minY: e.a.y, maxX: e.a.x, maxY: e.a.y}
		for ; hi < len(c.edges) && hi < lo+leafEdges && c.edges[hi].ring == e.ring; hi++ {
			g := c.edges[hi]
			b.join(&box{minX: min(g.a.x, g.b.x), minY: min(g.a.y, g.b.y), maxX: max(g.a.x, g.b.x),
				maxY: max(g.a.y, g.b.y)})
		}
		b.hi = hi
		c.boxes = append(c.boxes, b)
		lo = hi
	}

	all := c.boxes[0]
	for k := range c.boxes {
		all.join(&c.boxes[k])
	}
	side := max(all.maxX-all.minX, all.maxY-all.minY, 1)
	key := func(b *box) (key uint64) {
		x, y := uint64((b.minX/2+b.maxX/2-all.minX)*0xffff/side), uint64((b.minY/2+b.maxY/2-all.minY)*0xffff/side)
		for bit := range 16 {
			key |= x >> bit & 1 << (2 * bit)
			key |= y >> bit & 1 << (2*bit + 1)
		}
		return key
	}

	keys := make([]uint64, len(c.boxes))
	for k := range c.boxes {
		keys[k] = key(&c.boxes[k])
	}
	order := make([]int, len(c.boxes))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(keys[a], keys[b]) })
	sorted := make([]box, len(c.boxes))
	for k, from := range order {
		sorted[k] = c.boxes[from]
	}
	c.boxes = sorted
}

// split appends the node over boxes lo … hi−1 and, below it, its halves. Its depth is the logarithm of their number.
func (c *crosser) split(lo, hi int) int {
	k := len(c.nodes)
	c.nodes = append(c.nodes, node{})
	n := node{box: c.boxes[lo]}
	if hi-lo > 1 {
		mid := (lo + hi) / 2
		n.left, n.right = c.split(lo, mid), c.split(mid, hi)
		n.box = c.nodes[n.left].box
		n.join(&c.nodes[n.right].box)
		n.lo, n.hi = lo, hi
	}
	c.nodes[k] = n
	return k
}

// within looks at all pairs of edges below one node.
func (c *crosser) within(i int) {
	if c.enough() {
		return
	}
	n := c.nodes[i]
	if n.left != 0 {
		c.within(n.left)
		c.within(n.right)
		c.across(n.left, n.right)
		return
	}
	for e := n.lo; e < n.hi; e++ {
		for g := e + 1; g < n.hi; g++ {
			c.look(e, g)
		}
	}
}

// across looks at all pairs of an edge below one node and one below another.
func (c *crosser) across(i, j int) {
	a, b := &c.nodes[i], &c.nodes[j]
	if !a.meets(&b.box) || c.enough() {
		return
	}
	switch {
	case a.left == 0 && b.left == 0:
		for e := a.lo; e < a.hi; e++ {
			for g := b.lo; g < b.hi; g++ {
				c.look(e, g)
			}
		}
	case b.left == 0 || a.left != 0 && a.hi-a.lo >= b.hi-b.lo:
		c.across(a.left, j)
		c.across(a.right, j)
	default:
		c.across(i, b.left)
		c.across(i, b.right)
	}
}

// look notes the spans of two edges if they meet where they should not.
func (c *crosser) look(i, j int) {
	c.pairs++
	e, g := &c.edges[i], &c.edges[j]
	bad := false
	switch {
	case e.ring == g.ring && (e.k+1)%e.of == g.k:
		bad = folds(e.a, e.b, g.b)
	case e.ring == g.ring && (g.k+1)%g.of == e.k:
		bad = folds(g.a, g.b, e.b)
	case e.a.stays && g.a.stays && same(e.a, g.a):
		bad = alike(e.a, e.b, g.b)
	case e.a.stays && g.b.stays && same(e.a, g.b):
		bad = alike(e.a, e.b, g.a)
	case e.b.stays && g.a.stays && same(e.b, g.a):
		bad = alike(e.b, e.a, g.b)
	case e.b.stays && g.b.stays && same(e.b, g.b):
		bad = alike(e.b, e.a, g.a)
	default:
		bad = meet(e.a, e.b, g.a, g.b)
	}
	if bad {
		c.found = append(c.found, place{e.ring, e.a.span}, place{g.ring, g.a.span})
	}
}

// side returns on which side of the line a–b the corner v lies: 1 left, −1 right, 0 on it.
func side(a, b, v corner) int {
	d := (b.x-a.x)*(v.y-a.y) - (b.y-a.y)*(v.x-a.x)
	switch {
	case d > 0:
		return 1
	case d < 0:
		return -1
	}
	return 0
}

// folds says whether the way a–b–c turns back onto itself.
func folds(a, b, c corner) bool {
	return side(a, b, c) == 0 && (b.x-a.x)*(c.x-b.x)+(b.y-a.y)*(c.y-b.y) < 0
}

func same(a, b corner) bool { return a.x == b.x && a.y == b.y }

// alike says whether the ways from a to b and from a to c begin alike.
func alike(a, b, c corner) bool {
	return side(a, b, c) == 0 && (b.x-a.x)*(c.x-a.x)+(b.y-a.y)*(c.y-a.y) > 0
}

// meet says whether two segments have a point in common.
func meet(a, b, c, d corner) bool {
	if max(a.x, b.x) < min(c.x, d.x) || max(c.x, d.x) < min(a.x, b.x) ||
		max(a.y, b.y) < min(c.y, d.y) || max(c.y, d.y) < min(a.y, b.y) {
		return false
	}
	return side(a, b, c)*side(a, b, d) <= 0 && side(c, d, a)*side(c, d, b) <= 0
}
