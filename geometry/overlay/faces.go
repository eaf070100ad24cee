package overlay

import (
	"errors"
	"slices"

	"openwork/geometry"
)

// faces finds for every edge of an arrangement what lies on either side of it. Half-edge 2i runs along edge i from its
// first vertex to its second, half-edge 2i+1 back; each stands for the side on its left.
type faces struct {
	*arrangement
	start []int32 // of vertex v: where its outgoing half-edges begin in spokes
	spoke []int32 // outgoing half-edges by vertex, counter-clockwise
	place []int32 // where a half-edge stands in spoke
	cycle []int32 // the cycle of half-edges that a half-edge belongs to, all with the same face on their left
	wound [][2]int32
}

var errWinding = errors.New("winding numbers did not fit together")

func (g *faces) origin(h int32) int32 {
	if e := &g.edges[h/2]; h&1 == 0 {
		return e.a
	} else {
		return e.b
	}
}

func (g *faces) rise(h int32) [2]int32 {
	r := g.edges[h/2].rise
	if h&1 == 1 {
		r[0], r[1] = -r[0], -r[1]
	}
	return r
}

// clockwise returns the next outgoing half-edge clockwise about the origin of h.
func (g *faces) clockwise(h int32) int32 {
	v, k := g.origin(h), g.place[h]
	if k == g.start[v] {
		return g.spoke[g.start[v+1]-1]
	}
	return g.spoke[k-1]
}

// findFaces sorts the edges about their vertices, follows all cycles and computes the winding numbers of both sets of
// rings in every face.
func findFaces(g *arrangement) (*faces, error) {
	f := &faces{arrangement: g}
	f.turnAbout()
	f.follow()
	if err := f.wind(); err != nil {
		return nil, err
	}
	return f, nil
}

// turnAbout lists the half-edges out of each vertex, counter-clockwise.
func (g *faces) turnAbout() {
	n := len(g.edges)
	g.start = make([]int32, len(g.pts)+1)
	for _, e := range g.edges {
		g.start[e.a+1]++
		g.start[e.b+1]++
	}
	for v := range g.pts {
		g.start[v+1] += g.start[v]
	}
	g.spoke, g.place = make([]int32, 2*n), make([]int32, 2*n)
	next := slices.Clone(g.start)
	for i, e := range g.edges {
		g.spoke[next[e.a]], g.spoke[next[e.b]] = int32(2*i), int32(2*i+1)
		next[e.a]++
		next[e.b]++
	}
	for v := range g.pts {
		out := g.spoke[g.start[v]:g.start[v+1]]
		if len(out) > 2 {
			slices.SortFunc(out, g.compareAngle)
		}
		for k, h := range out {
			g.place[h] = g.start[v] + int32(k)
		}
	}
}

// compareAngle orders half-edges out of the same vertex by their angle, from the positive x axis on.
func (g *faces) compareAngle(h, k int32) int {
	o := g.pts[g.origin(h)]
	p, q := g.pts[g.origin(h^1)], g.pts[g.origin(k^1)]
	if hp, hq := lowerHalf(o, p), lowerHalf(o, q); hp != hq {
		return hp - hq
	}
	return -orient(o, p, q)
}

func lowerHalf(o, p point) int {
	if p.y > o.y || (p.y == o.y && p.x > o.x) {
		return 0
	}
	return 1
}

// follow gives every half-edge the number of its cycle. Where a cycle arrives at a vertex it goes on with the half-edge
// that bounds the same wedge on its left.
func (g *faces) follow() {
	g.cycle = make([]int32, 2*len(g.edges))
	for h := range g.cycle {
		g.cycle[h] = -1
	}
	for h := range g.cycle {
		if g.cycle[h] >= 0 {
			continue
		}
		c := int32(len(g.wound))
		g.wound = append(g.wound, [2]int32{})
		for k := int32(h); g.cycle[k] < 0; k = g.clockwise(k ^ 1) {
			g.cycle[k] = c
		}
	}
}

// wind computes the winding numbers of all cycles, connected piece by piece from left to right: what lies left of its
// leftmost vertex is what lies above the next edge below, and from there it goes on across every edge of the piece.
func (g *faces) wind() error {
	leftmost := g.pieces()
	known := make([]bool, len(g.wound))
	var stack []int32
	for _, v := range leftmost {
		// The face left of v lies counter-clockwise of its steepest edge.
		h := g.steepest(v)
		c := g.cycle[h]
		if known[c] {
			return errWinding
		}
		if e := g.edgeBelow(g.pts[v], func(int32) bool { return true }); e >= 0 {
			if !known[g.cycle[e]] { // its piece begins further left
				return errWinding
			}
			g.wound[c] = g.wound[g.cycle[e]]
		}
		known[c] = true
		stack = append(stack[:0], h)
		for len(stack) > 0 {
			first := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			w := g.wound[g.cycle[first]]
			for k := first; ; {
				r, other := g.rise(k), g.cycle[k^1]
				across := [2]int32{w[0] - r[0], w[1] - r[1]}
				if !known[other] {
					known[other] = true
					g.wound[other] = across
					stack = append(stack, k^1)
				} else if g.wound[other] != across {
					return errWinding
				}
				if k = g.clockwise(k ^ 1); k == first {
					break
				}
			}
		}
	}
	return nil
}

// pieces returns the leftmost (lowest of the leftmost) vertex of every connected piece, from left to right.
func (g *faces) pieces() []int32 {
	sets := geometry.NewSets(len(g.pts))
	// The root of a piece is always its leftmost vertex.
	for _, e := range g.edges {
		a, b := sets.Root(e.a), sets.Root(e.b)
		if g.pts[b].less(g.pts[a]) {
			a, b = b, a
		}
		sets.Join(a, b)
	}
	var out []int32
	for v := range sets {
		if sets[v] == int32(v) && g.start[v] != g.start[v+1] {
			out = append(out, int32(v))
		}
	}
	slices.SortFunc(out, func(v, w int32) int { return comparePoints(g.pts[v], g.pts[w]) })
	return out
}

func comparePoints(p, q point) int {
	switch {
	case p == q:
		return 0
	case p.less(q):
		return -1
	}
	return 1
}

// steepest returns, of the half-edges out of the leftmost vertex of a piece, the last counter-clockwise from straight
// down.
func (g *faces) steepest(v int32) int32 {
	out := g.spoke[g.start[v]:g.start[v+1]]
	best := out[0]
	for _, h := range out[1:] {
		if orient(g.pts[v], g.pts[g.origin(best^1)], g.pts[g.origin(h^1)]) > 0 {
			best = h
		}
	}
	return best
}
