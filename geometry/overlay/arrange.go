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
	rise  [2]int32
	line  int32 // the edge as it came in, of which this is all or a part, in arrangement.lines
	fresh bool  // not held against all others yet
}

// arrangement is a set of edges that, once cut, meet only at vertices. This is snap rounding by repetition: edges are
// cut where they cross or pass near a vertex, the pieces are bent to the vertex, and what was bent is looked at again
// until nothing is left to cut. What comes out is correct because the last round has found nothing, not because of how
// the rounds before it went.
//
// The rounds come to an end because a bent line never turns back: its pieces advance, all of them, in the direction of
// the edge as it came in, so that none of them meets a vertex twice.
type arrangement struct {
	*vertices
	edges []edge
	lines []point // directions of the edges as they came in
	tree  *tree   // over the edges, from the last round
	table []int32
	cuts  []cut
	spare []edge // memory for the next round's edges
	err   error
}

// cut says that an edge is to go through a vertex.
type cut struct {
	edge, vertex int32
	along        float64 // where along the line of the edge, times its length
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
	first := g.at(ring[0], snapSteps)
	a := first
	for _, p := range ring[1:] {
		b := g.at(p, snapSteps)
		g.addEdge(a, b, set)
		a = b
	}
	g.addEdge(a, first, set)
}

func (g *arrangement) addEdge(a, b int32, set int) {
	if a == b {
		return
	}
	e := edge{a: a, b: b, line: int32(len(g.lines)), fresh: true}
	e.rise[set] = 1
	g.lines = append(g.lines, point{g.pts[b].x - g.pts[a].x, g.pts[b].y - g.pts[a].y})
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
	at := point{math.Round(ea.x + t*dx), math.Round(ea.y + t*dy)}
	if w := g.at(at, snapSteps); g.cutBoth(i, j, e, f, w) {
		return
	}

	// The vertex nearby would turn both lines back; one of its own will do.
	if w := g.at(at, 0); !g.cutBoth(i, j, e, f, w) {
		g.err = errCrossing
	}
}

// cutBoth cuts the edges i and j at w, where w is no end of theirs and they advance through it, and reports whether it
// cut one at least.
func (g *arrangement) cutBoth(i, j int32, e, f edge, w int32) bool {
	first, second := g.advances(e, w), g.advances(f, w)
	if first {
		g.cut(i, e, w)
	}
	if second {
		g.cut(j, f, w)
	}
	return first || second
}

// advances reports whether the line of e advances from the one end of e to vertex v and from there to the other end.
func (g *arrangement) advances(e edge, v int32) bool {
	a, b, p, d := g.pts[e.a], g.pts[e.b], g.pts[v], g.lines[e.line]
	way := dotSign(d, a, b)
	return dotSign(d, a, p) == way && dotSign(d, p, b) == way
}

// pass cuts edge i at vertex v when it passes v within the snapping distance and may go through it, and reports whether
// it did. An edge may always go through a vertex that lies on it.
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
	if across := dx*py - dy*px; across*across > snapSteps*snapSteps*length2 || !g.advances(e, v) {
		return false
	}
	g.cut(i, e, v)
	return true
}

func (g *arrangement) cut(i int32, e edge, v int32) {
	a, p, d := g.pts[e.a], g.pts[v], g.lines[e.line]
	g.cuts = append(g.cuts, cut{i, v, math.Abs(d.x*(p.x-a.x) + d.y*(p.y-a.y))})
}

// apply replaces each edge that is to be cut by its pieces, in its place in the row.
func (g *arrangement) apply() {
	slices.SortFunc(g.cuts, func(p, q cut) int {
		return cmp.Or(cmp.Compare(p.edge, q.edge), cmp.Compare(p.along, q.along), cmp.Compare(p.vertex, q.vertex))
	})
	next, k := g.spare[:0], 0
	if limit := len(g.edges) + len(g.cuts); cap(next) < limit {
		next = make([]edge, 0, limit)
	}

	for i, e := range g.edges {
		if k == len(g.cuts) || int(g.cuts[k].edge) != i {
			e.fresh = false
			next = append(next, e)
			continue
		}
		a := e.a
		for ; k < len(g.cuts) && int(g.cuts[k].edge) == i; k++ {
			// Two vertices abreast of one another: the line goes through the first and is looked at again.
			if v := g.cuts[k].vertex; v != a && g.advances(edge{a: a, b: e.b, line: e.line}, v) {
				next = append(next, g.piece(e, a, v))
				a = v
			}
		}
		next = append(next, g.piece(e, a, e.b))
	}
	g.edges, g.spare = next, g.edges
}

// piece returns the part of e between two vertices.
func (g *arrangement) piece(e edge, a, b int32) edge {
	return g.ordered(edge{a: a, b: b, rise: e.rise, line: e.line, fresh: true})
}
