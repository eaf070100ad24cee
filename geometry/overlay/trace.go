package overlay

import (
	"errors"
	"math"
	"slices"
)

var errBoundary = errors.New("a boundary did not close")

// loop is a simple ring of vertices with the region on its left.
type loop struct {
	ring []int32
	area float64 // in steps², negative for a hole
}

// rim is one connected piece of the boundary of one connected piece of the region: either an outer loop with the holes
// that touch it, or holes that touch one another.
type rim struct {
	loops    []loop
	leftmost int32
	outer    int // index of the outer loop, or -1
	face     int // index of the polygon
}

// region is the outline of all faces that a rule picks.
type region struct {
	*faces
	inside []bool  // by cycle
	rimOf  []int32 // by half-edge, for those with the region on their left only
	rims   []rim
}

// trace returns the outlines of the faces that inside picks by their winding numbers.
func (g *faces) trace(inside func(a, b int32) bool) ([][]loop, error) {
	r := &region{faces: g, inside: make([]bool, len(g.wound)), rimOf: make([]int32, len(g.cycle))}
	for c, w := range g.wound {
		r.inside[c] = inside(w[0], w[1])
	}
	for h := range r.rimOf {
		r.rimOf[h] = -1
	}
	depth := make([]int32, len(g.pts)) // 1 + place of a vertex on the path, for split
	for h := range r.rimOf {
		if !r.bounds(int32(h)) || r.rimOf[h] >= 0 {
			continue
		}
		path, err := r.walk(int32(h))
		if err != nil {
			return nil, err
		}
		if err := r.addRim(path, depth); err != nil {
			return nil, err
		}
	}
	return r.assemble()
}

// bounds reports whether the region lies left of h and not right of it.
func (r *region) bounds(h int32) bool { return r.inside[r.cycle[h]] && !r.inside[r.cycle[h^1]] }

// walk follows the boundary from h on, keeping to the same wedge of the region at every vertex, and returns the
// vertices.
func (r *region) walk(h int32) ([]int32, error) {
	id := int32(len(r.rims))
	var path []int32
	for k := h; r.rimOf[k] < 0; {
		r.rimOf[k] = id
		path = append(path, r.origin(k))
		back := k ^ 1
		k = r.clockwise(back)
		for !r.bounds(k) {
			if k == back || r.bounds(k^1) {
				return nil, errBoundary
			}
			k = r.clockwise(k)
		}
		if r.rimOf[k] >= 0 && k != h {
			return nil, errBoundary
		}
	}
	return path, nil
}

// addRim splits a path at the vertices it visits more than once and keeps the simple loops that result.
func (r *region) addRim(path []int32, depth []int32) error {
	m := rim{leftmost: path[0], outer: -1}
	var open []int32
	for _, v := range path {
		if r.pts[v].less(r.pts[m.leftmost]) {
			m.leftmost = v
		}
		if d := depth[v]; d > 0 {
			m.loops = append(m.loops, r.newLoop(open[d-1:]))
			for _, u := range open[d:] {
				depth[u] = 0
			}
			open = open[:d]
			continue
		}
		open = append(open, v)
		depth[v] = int32(len(open))
	}

	for _, u := range open {
		depth[u] = 0
	}
	m.loops = append(m.loops, r.newLoop(open))
	for i, l := range m.loops {
		if len(l.ring) < 3 || l.area == 0 {
			return errBoundary
		}
		if l.area > 0 {
			if m.outer >= 0 {
				return errBoundary
			}
			m.outer = i
		}
	}

	r.rims = append(r.rims, m)
	return nil
}

// newLoop copies a simple ring, beginning at its leftmost vertex. The sign of its area is that of its turn there, which
// is exact.
func (r *region) newLoop(ring []int32) loop {
	k := 0
	for i, v := range ring {
		if r.pts[v].less(r.pts[ring[k]]) {
			k = i
		}
	}
	l := loop{ring: append(slices.Clone(ring[k:]), ring[:k]...)}
	n := len(l.ring)
	o, sum := r.pts[l.ring[0]], 0.0
	for i := 1; i+1 < n; i++ {
		p, q := r.pts[l.ring[i]], r.pts[l.ring[i+1]]
		sum += (p.x-o.x)*(q.y-o.y) - (p.y-o.y)*(q.x-o.x)
	}
	turn := orient(r.pts[l.ring[n-1]], o, r.pts[l.ring[1%n]])
	l.area = float64(turn) * math.Max(math.Abs(sum)/2, math.SmallestNonzeroFloat64)
	return l
}

// sliver reports whether a loop is thinner than anything meant.
func (r *faces) sliver(l loop) bool {
	length := 0.0
	for i, v := range l.ring {
		p, q := r.pts[v], r.pts[l.ring[(i+1)%len(l.ring)]]
		length += math.Hypot(q.x-p.x, q.y-p.y)
	}
	return math.Abs(l.area) <= sliverWidth*length/2
}

// assemble gives the holes to their polygons: outer loop first, then holes. Rims are taken from left to right, so that
// the rim found below the leftmost vertex of another has been placed before.
func (r *region) assemble() ([][]loop, error) {
	order := make([]int, len(r.rims))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int {
		return comparePoints(r.pts[r.rims[i].leftmost], r.pts[r.rims[j].leftmost])
	})
	for i := range r.rims {
		r.rims[i].face = -1
	}
	var polys [][]loop
	for _, i := range order {
		m := &r.rims[i]
		if m.outer >= 0 {
			m.face = len(polys)
			polys = append(polys, []loop{m.loops[m.outer]})
			continue
		}
		h := r.edgeBelow(r.pts[m.leftmost], func(i int32) bool { return r.bounds(2*i) || r.bounds(2*i+1) })
		if h < 0 || !r.bounds(h) || r.rims[r.rimOf[h]].face < 0 {
			return nil, errBoundary
		}
		m.face = r.rims[r.rimOf[h]].face
	}

	for _, i := range order {
		for k, l := range r.rims[i].loops {
			if f := r.rims[i].face; k != r.rims[i].outer {
				polys[f] = append(polys[f], l)
			}
		}
	}
	return polys, nil
}
