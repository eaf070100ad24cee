package residue

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// joinTouching makes places where the boundary meets itself explicit. A corner that lies on another edge becomes a
// corner of that edge too, and corners at one place get the same coordinates. Between edges that meet at one place the
// region lies in wedges; a disc rolls from the edge that leads to the place on to the one that bounds the same wedge,
// which need not be of the same ring. So two holes that touch become one line of boundary, which passes the place
// twice.
func joinTouching(rings [][]orb.Point) (split [][]orb.Point, touching bool) {
	b := &boundary{}
	for _, pts := range rings {
		b.add(pts)
	}
	if len(b.edges) == 0 {
		return rings, false
	}
	b.split(0, int32(len(b.edges)))

	on := make(map[int32][]orb.Point) // corners that lie on an edge
	at := make(map[int32]orb.Point)   // where corners go that lie beside another
	where := func(i int32) orb.Point {
		if p, ok := at[i]; ok {
			return p
		}
		return b.edges[i].a
	}
	try := func(i, j int32) { // the corner at the beginning of edge i, and edge j
		e, f := &b.edges[i], &b.edges[j]
		if j == e.next || j == b.edges[e.prev].prev {
			return // in a spike as thin as that the line stays as it is
		}
		switch v := e.a; {
		case isNear(v, f.a):
			touching = true
			if v != f.a {
				p := where(min(i, j))
				at[i], at[j] = p, p
			}
		case isNear(v, f.b):
		default:
			if q := nearestOn(f.a, f.b, v); isNear(v, q) {
				on[j], touching = append(on[j], v), true
			}
		}
	}

	b.pairs(touchSlack, func(i, j int32) {
		try(i, j)
		try(j, i)
	})
	if len(on) == 0 && len(at) == 0 {
		return rings, touching
	}

	split = make([][]orb.Point, len(rings))
	for k, r := range b.rings {
		for i := r[0]; i < r[1]; i++ {
			split[k] = append(split[k], where(i))
			more, from := on[i], b.edges[i].a
			slices.SortFunc(more, func(p, q orb.Point) int { return cmp.Compare(dist2(from, p), dist2(from, q)) })
			split[k] = append(split[k], more...)
		}
		split[k] = distinct(split[k])
	}
	return slices.DeleteFunc(split, func(pts []orb.Point) bool { return len(pts) < 3 }), true
}

func isNear(p, q orb.Point) bool { return dist2(p, q) <= touchSlack*touchSlack }

// arm is an edge as seen from the corner where it begins or ends.
type arm struct {
	edge  int32
	angle float64
	out   bool // it begins here
}

// rewire gives every edge the next one round the same wedge of the region, where more than one line of boundary passes
// through a corner, and puts the edges in the order of the lines that result.
func (b *boundary) rewire() {
	through := make(map[orb.Point][]int32, len(b.edges))
	for i := range b.edges {
		through[b.edges[i].a] = append(through[b.edges[i].a], int32(i))
	}
	changed := false
	for i := range b.edges {
		passing := through[b.edges[i].a]
		if len(passing) > 1 && passing[0] == int32(i) {
			changed = b.wedges(passing) || changed
		}
	}
	if changed {
		b.renumber()
	}
}

// wedges pairs the edges that end at a corner with those that begin there. Where their directions cannot be told apart
// the lines stay as they are.
func (b *boundary) wedges(begin []int32) bool {
	arms := make([]arm, 0, 2*len(begin))
	for _, i := range begin {
		d, back := b.edges[i].d, b.edges[b.edges[i].prev].d
		arms = append(arms, arm{i, math.Atan2(d[1], d[0]), true},
			arm{b.edges[i].prev, math.Atan2(-back[1], -back[0]), false})
	}
	slices.SortFunc(arms, func(x, y arm) int { return cmp.Compare(x.angle, y.angle) })
	for k := range arms {
		if arms[k].out == arms[(k+1)%len(arms)].out {
			return false
		}
	}
	changed := false
	for k, x := range arms {
		if y := arms[(k+1)%len(arms)]; x.out { // the region lies to the left of x, up to y
			changed = changed || b.edges[y.edge].next != x.edge
			b.edges[y.edge].next, b.edges[x.edge].prev = x.edge, y.edge
		}
	}
	return changed
}

// renumber puts the edges in the order in which they follow each other.
func (b *boundary) renumber() {
	old := b.edges
	b.edges, b.rings, b.nodes = make([]edge, 0, len(old)), nil, nil
	seen := make([]bool, len(old))
	for i := range old {
		first := int32(len(b.edges))
		for k := int32(i); !seen[k]; k = old[k].next {
			seen[k] = true
			if old[old[k].next].next == k {
				seen[old[k].next] = true
				break // there and back: no region lies between
			}
			e := old[k]
			e.prev, e.next, e.ring = int32(len(b.edges))-1, int32(len(b.edges))+1, int32(len(b.rings))
			b.edges = append(b.edges, e)
		}
		if last := int32(len(b.edges)); last > first {
			b.edges[first].prev, b.edges[last-1].next = last-1, first
			b.rings = append(b.rings, [2]int32{first, last})
		}
	}
}
