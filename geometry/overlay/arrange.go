package overlay

import (
	"cmp"
	"errors"
	"math"
	"slices"
)

// edge is a straight line between two vertices, of which a comes first in the order of points.
type edge struct {
	a, b int32
	// rise is by how much the winding number of the first and of the second set of rings is higher left of the edge,
	// seen from a to b, than right of it.
	rise [2]int32
	// fresh edges have not been held against all others yet.
	fresh bool
}

// arrangement is a set of edges that, once cut, meet only at vertices. This is snap rounding by repetition: edges are cut
// where they cross or pass near a vertex, the pieces are bent to the vertex, and what was bent is looked at again until
// nothing is left to cut. What comes out is correct because the last round has found nothing, not because of how the
// rounds before it went.
type arrangement struct {
	*vertices
	edges []edge
	tree  *tree // over the edges, from the last round
	table []int32
	cuts  []cut
	err   error
}

// cut says that an edge is to go through a vertex.
type cut struct {
	edge, vertex int32
	along        float64 // where along the edge, in steps
}

var (
	errRounds   = errors.New("lines kept crossing after they had been cut")
	errCrossing = errors.New("a crossing could not be cut")
)

// addRing adds a closed ring of grid points to one of the two sets.
func (g *arrangement) addRing(ring []point, set int) {
	if len(ring) == 0 {
		return
	}
	first := g.at(ring[0])
	a := first
	for _, p := range ring[1:] {
		b := g.at(p)
		g.addEdge(a, b, set)
		a = b
	}
	g.addEdge(a, first, set)
}

func (g *arrangement) addEdge(a, b int32, set int) {
	if a == b {
		return
	}
	e := edge{a: a, b: b, fresh: true}
	e.rise[set] = 1
	g.edges = append(g.edges, g.ordered(e))
}

// ordered returns the edge with its first vertex first.
func (g *arrangement) ordered(e edge) edge {
	if g.pts[e.b].less(g.pts[e.a]) {
		e.a, e.b = e.b, e.a
		e.rise[0], e.rise[1] = -e.rise[0], -e.rise[1]
	}
	return e
}

// cutAll cuts the edges until they meet only at vertices.
func (g *arrangement) cutAll() error {
	for range maxRounds {
		g.merge()
		g.tree = g.tree.rebuilt(len(g.edges), g.boxAt, func(i int32) bool { return g.edges[i].fresh })
		g.cuts = g.cuts[:0]
		g.tree.pairs(snapSteps, g.visit)
		if g.err != nil {
			return g.err
		}
		if len(g.cuts) == 0 {
			return nil
		}
		g.apply()
	}
	return errRounds
}

// merge makes one edge of those with the same ends and drops edges with the same winding number on both sides.
func (g *arrangement) merge() {
	size := 16
	for size < 2*len(g.edges) {
		size *= 2
	}
	if len(g.table) < size {
		g.table = make([]int32, size)
	}
	table, mask := g.table[:size], uint64(size-1)
	clear(table)
	kept := g.edges[:0]
	for _, e := range g.edges {
		k := hashPair(uint64(e.a), uint64(e.b)) & mask
		for table[k] != 0 && (kept[table[k]-1].a != e.a || kept[table[k]-1].b != e.b) {
			k = (k + 1) & mask
		}
		if table[k] == 0 {
			kept = append(kept, e)
			table[k] = int32(len(kept))
			continue
		}
		o := &kept[table[k]-1]
		o.rise[0] += e.rise[0]
		o.rise[1] += e.rise[1]
		o.fresh = o.fresh && e.fresh
	}
	g.edges = slices.DeleteFunc(kept, func(e edge) bool { return e.rise == [2]int32{} })
}

func (g *arrangement) boxAt(i int32) box {
	e := &g.edges[i]
	return boxOf(g.pts[e.a], g.pts[e.b])
}

// visit holds the edges of two leaves against one another.
func (g *arrangement) visit(lo, hi, lo2, hi2 int32) {
	for i := lo; i < hi; i++ {
		first := lo2
		if lo == lo2 {
			first = i + 1
		}
		bi := g.boxAt(i)
		fresh := g.edges[i].fresh
		for j := first; j < hi2; j++ {
			if (fresh || g.edges[j].fresh) && bi.near(g.boxAt(j), snapSteps) {
				g.hold(i, j)
			}
		}
	}
}

// hold notes where the edges i and j have to be cut on account of one another.
func (g *arrangement) hold(i, j int32) {
	e, f := g.edges[i], g.edges[j]
	near := g.pass(i, e, f.a)
	near = g.pass(i, e, f.b) || near
	near = g.pass(j, f, e.a) || near
	near = g.pass(j, f, e.b) || near
	if near || e.a == f.a || e.a == f.b || e.b == f.a || e.b == f.b {
		return // cut here, or joined at an end: neither leaves a crossing elsewhere that the next round would miss
	}
	ea, eb, fa, fb := g.pts[e.a], g.pts[e.b], g.pts[f.a], g.pts[f.b]
	if orient(ea, eb, fa)*orient(ea, eb, fb) >= 0 || orient(fa, fb, ea)*orient(fa, fb, eb) >= 0 {
		return
	}
	dx, dy, ex, ey := eb.x-ea.x, eb.y-ea.y, fb.x-fa.x, fb.y-fa.y
	t := ((fa.x-ea.x)*ey - (fa.y-ea.y)*ex) / (dx*ey - dy*ex)
	if !(t >= 0) {
		t = 0
	} else if t > 1 {
		t = 1
	}
	w := g.at(point{math.Round(ea.x + t*dx), math.Round(ea.y + t*dy)})
	done := false
	if w != e.a && w != e.b {
		g.cut(i, e, w)
		done = true
	}
	if w != f.a && w != f.b {
		g.cut(j, f, w)
		done = true
	}
	if !done {
		g.err = errCrossing
	}
}

// pass cuts edge i at vertex v when it passes v within the snapping distance, and reports whether it did.
func (g *arrangement) pass(i int32, e edge, v int32) bool {
	if v == e.a || v == e.b {
		return false
	}
	a, b, p := g.pts[e.a], g.pts[e.b], g.pts[v]
	dx, dy, px, py := b.x-a.x, b.y-a.y, p.x-a.x, p.y-a.y
	along, length2 := dx*px+dy*py, dx*dx+dy*dy
	if along <= 0 || along >= length2 {
		return false
	}
	if across := dx*py - dy*px; across*across > snapSteps*snapSteps*length2 {
		return false
	}
	g.cut(i, e, v)
	return true
}

func (g *arrangement) cut(i int32, e edge, v int32) {
	a, b, p := g.pts[e.a], g.pts[e.b], g.pts[v]
	dx, dy := b.x-a.x, b.y-a.y
	g.cuts = append(g.cuts, cut{i, v, ((p.x-a.x)*dx + (p.y-a.y)*dy) / math.Hypot(dx, dy)})
}

// apply replaces each edge that is to be cut by its pieces, in its place in the row.
func (g *arrangement) apply() {
	slices.SortFunc(g.cuts, func(p, q cut) int {
		return cmp.Or(cmp.Compare(p.edge, q.edge), cmp.Compare(p.along, q.along), cmp.Compare(p.vertex, q.vertex))
	})
	next := make([]edge, 0, len(g.edges)+len(g.cuts))
	k := 0
	for i, e := range g.edges {
		if k == len(g.cuts) || int(g.cuts[k].edge) != i {
			e.fresh = false
			next = append(next, e)
			continue
		}
		a := e.a
		for ; k < len(g.cuts) && int(g.cuts[k].edge) == i; k++ {
			if v := g.cuts[k].vertex; v != a {
				next = append(next, g.ordered(edge{a: a, b: v, rise: e.rise, fresh: true}))
				a = v
			}
		}
		if a != e.b {
			next = append(next, g.ordered(edge{a: a, b: e.b, rise: e.rise, fresh: true}))
		}
	}
	g.edges = next
}
