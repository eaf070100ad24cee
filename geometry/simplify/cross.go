package simplify

import "slices"

// place names a span of a ring.
type place struct{ ring, span int }

// edge is an edge of the answer, on the grid.
type edge struct {
	a, b    corner
	ring, k int // edge k of this ring
	of      int // edges that the ring has
}

// crossings returns the spans of all edges that cross, touch or fold back onto another, each once, in order. Edges that
// follow each other share a corner and may, and so may those that meet in a corner that stays. The coordinates are whole numbers, so the answer is exact.
//
// Time grows as n log n for outlines whose edges are short beside their rings.
func crossings(fits []*fit) []place {
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
	if len(c.edges) > 0 {
		c.split(0, len(c.edges))
		c.within(0)
	}
	slices.SortFunc(c.found, func(p, q place) int {
		if p.ring != q.ring {
			return p.ring - q.ring
		}
		return p.span - q.span
	})
	return slices.Compact(c.found)
}

// crosser is a binary tree of boxes over the edges in their order, which is already local, and what was found.
type crosser struct {
	edges []edge
	nodes []node // children follow their parent
	found []place
}

// node covers the edges lo … hi−1; a leaf has left = 0.
type node struct {
	lo, hi, left, right    int
	minX, minY, maxX, maxY int64
}

// split appends the node over edges lo … hi−1 and, below it, its halves. Its depth is the logarithm of their number.
func (c *crosser) split(lo, hi int) int {
	k := len(c.nodes)
	c.nodes = append(c.nodes, node{lo: lo, hi: hi})
	n := node{lo: lo, hi: hi}
	if hi-lo > leafEdges {
		mid := (lo + hi) / 2
		n.left, n.right = c.split(lo, mid), c.split(mid, hi)
		l, r := c.nodes[n.left], c.nodes[n.right]
		n.minX, n.minY = min(l.minX, r.minX), min(l.minY, r.minY)
		n.maxX, n.maxY = max(l.maxX, r.maxX), max(l.maxY, r.maxY)
	} else {
		n.minX, n.minY, n.maxX, n.maxY = c.edges[lo].a.x, c.edges[lo].a.y, c.edges[lo].a.x, c.edges[lo].a.y
		for _, e := range c.edges[lo:hi] {
			n.minX, n.minY = min(n.minX, e.a.x, e.b.x), min(n.minY, e.a.y, e.b.y)
			n.maxX, n.maxY = max(n.maxX, e.a.x, e.b.x), max(n.maxY, e.a.y, e.b.y)
		}
	}
	c.nodes[k] = n
	return k
}

// within looks at all pairs of edges below one node.
func (c *crosser) within(i int) {
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
	a, b := c.nodes[i], c.nodes[j]
	if a.minX > b.maxX || b.minX > a.maxX || a.minY > b.maxY || b.minY > a.maxY {
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
	e, g := c.edges[i], c.edges[j]
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
