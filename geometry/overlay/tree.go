package overlay

import "math"

// box is an axis-parallel rectangle.
type box struct{ minX, minY, maxX, maxY float64 }

func boxOf(p, q point) box {
	return box{min(p.x, q.x), min(p.y, q.y), max(p.x, q.x), max(p.y, q.y)}
}

func (b box) with(c box) box {
	return box{min(b.minX, c.minX), min(b.minY, c.minY), max(b.maxX, c.maxX), max(b.maxY, c.maxY)}
}

func (b box) within(c box) bool {
	return b.minX >= c.minX && b.maxX <= c.maxX && b.minY >= c.minY && b.maxY <= c.maxY
}

// near reports whether two boxes come within pad of one another in both directions.
func (b box) near(c box, pad float64) bool {
	return b.minX <= c.maxX+pad && c.minX <= b.maxX+pad && b.minY <= c.maxY+pad && c.minY <= b.maxY+pad
}

// leafSize is how many items share one box of a tree.
const leafSize = 8

// tree is a binary tree of boxes over a row of items. The items are not moved: where neighbours in the row are
// neighbours in the plane, as the edges of a ring are, the tree is about as good as a sorted one.
type tree struct {
	nodes []treeNode
}

// treeNode covers the items lo…hi−1; a leaf has right = 0, the left child of any other node follows it at once.
type treeNode struct {
	box    box
	lo, hi int32
	right  int32
	marked bool // holds a marked item
}

// newTree builds a tree over n items.
func newTree(n int, boxAt func(int32) box, marked func(int32) bool) *tree {
	return (*tree)(nil).rebuilt(n, boxAt, marked)
}

// rebuilt builds a tree in the memory of t, which may be nil. Without marked every item is marked.
func (t *tree) rebuilt(n int, boxAt func(int32) box, marked func(int32) bool) *tree {
	if t == nil {
		t = &tree{}
	}
	// Halving n until leafSize is reached gives leaves at least half full.
	if limit := 4*(n/leafSize) + 1; cap(t.nodes) < limit {
		t.nodes = make([]treeNode, 0, limit)
	}
	t.nodes = t.nodes[:0]
	if n > 0 {
		t.build(0, int32(n), boxAt, marked)
	}
	return t
}

func (t *tree) build(lo, hi int32, boxAt func(int32) box, marked func(int32) bool) int32 {
	k := int32(len(t.nodes))
	t.nodes = append(t.nodes, treeNode{lo: lo, hi: hi})
	var node treeNode
	if hi-lo <= leafSize {
		node = treeNode{box: boxAt(lo), lo: lo, hi: hi}
		for i := lo; i < hi; i++ {
			node.box = node.box.with(boxAt(i))
			node.marked = node.marked || marked == nil || marked(i)
		}
	} else {
		mid := (lo + hi) / 2
		l := t.build(lo, mid, boxAt, marked)
		r := t.build(mid, hi, boxAt, marked)
		node = treeNode{t.nodes[l].box.with(t.nodes[r].box), lo, hi, r, t.nodes[l].marked || t.nodes[r].marked}
	}
	t.nodes[k] = node
	return k
}

// pairs calls visit for the ranges of items of every two leaves whose boxes come within pad of one another and of which
// one at least holds a marked item; both ranges are the same for a leaf paired with itself.
func (t *tree) pairs(pad float64, visit func(lo, hi, lo2, hi2 int32)) {
	if len(t.nodes) == 0 {
		return
	}
	type pair struct{ i, j int32 }
	stack := []pair{{0, 0}}
	for len(stack) > 0 {
		p := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		a, b := &t.nodes[p.i], &t.nodes[p.j]
		switch {
		case !a.marked && !b.marked:
		case p.i == p.j && a.right == 0:
			visit(a.lo, a.hi, a.lo, a.hi)
		case p.i == p.j:
			stack = append(stack, pair{p.i + 1, p.i + 1}, pair{a.right, a.right}, pair{p.i + 1, a.right})
		case !a.box.near(b.box, pad):
		case a.right == 0 && b.right == 0:
			visit(a.lo, a.hi, b.lo, b.hi)
		case b.right == 0 || (a.right != 0 && a.hi-a.lo >= b.hi-b.lo):
			stack = append(stack, pair{p.i + 1, p.j}, pair{a.right, p.j})
		default:
			stack = append(stack, pair{p.i, p.j + 1}, pair{p.i, b.right})
		}
	}
}

// meets calls hit for the ranges of items of every leaf of t and every leaf of o whose boxes come within pad of one
// another, until it returns true, and reports whether it did.
func (t *tree) meets(o *tree, pad float64, hit func(lo, hi, lo2, hi2 int32) bool) bool {
	if len(t.nodes) == 0 || len(o.nodes) == 0 {
		return false
	}
	type pair struct{ i, j int32 }
	stack := append(make([]pair, 0, 64), pair{0, 0})
	for len(stack) > 0 {
		p := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		a, b := &t.nodes[p.i], &o.nodes[p.j]
		switch {
		case !a.box.near(b.box, pad):
		case a.right == 0 && b.right == 0:
			if hit(a.lo, a.hi, b.lo, b.hi) {
				return true
			}
		case b.right == 0 || (a.right != 0 && a.hi-a.lo >= b.hi-b.lo):
			stack = append(stack, pair{p.i + 1, p.j}, pair{a.right, p.j})
		default:
			stack = append(stack, pair{p.i, p.j + 1}, pair{p.i, b.right})
		}
	}
	return false
}

// below calls visit for every item whose leaf may hold something straight below p: its box spans p.x and begins no
// higher than p. What visit returns is a height below which nothing is wanted any more; higher boxes are taken first.
func (t *tree) below(p point, visit func(i int32) (floor float64)) {
	if len(t.nodes) == 0 {
		return
	}
	floor := math.Inf(-1)
	stack := append(make([]int32, 0, 64), 0)
	for len(stack) > 0 {
		k := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		n := &t.nodes[k]
		if p.x < n.box.minX || p.x > n.box.maxX || p.y < n.box.minY || n.box.maxY < floor {
			continue
		}
		if n.right != 0 {
			lower, upper := k+1, n.right
			if t.nodes[lower].box.maxY > t.nodes[upper].box.maxY {
				lower, upper = upper, lower
			}
			stack = append(stack, lower, upper)
			continue
		}
		for i := n.lo; i < n.hi; i++ {
			floor = visit(i)
		}
	}
}
