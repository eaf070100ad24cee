package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// NeckFinder finds narrow places of a shape, or of the plane around it, the narrowest first, without going through all
// pairs of edges: pairs of stretches of the boundary wait in the order of their distance, and those are passed over
// whose normals do not face each other. It is not safe for use from two goroutines.
type NeckFinder struct {
	n     necks
	cones []cone // of the tree's nodes
}

// NeckFinder returns a finder for the shape itself when inside is true, else for the plane around it. The shape's outer
// rings must run counter-clockwise and its holes clockwise.
func (s *Shape) NeckFinder(inside bool) *NeckFinder {
	f := &NeckFinder{n: necks{s: s, limit: math.Inf(1), inside: inside}}
	if !s.Empty() {
		f.cones = s.cones(inside)
	}
	return f
}

// Narrowest returns the narrowest neck under limit mm (math.Inf(1) for no limit) whose middle lies in the window and
// which accept takes; ok is false where there is none. Of necks exactly as wide it is the first along the boundary.
func (f *NeckFinder) Narrowest(limit float64, window orb.Bound, accept func(Neck) bool) (found Neck, ok bool) {
	q := &neckQueue{f: f, limit2: limit * limit, window: &box{window.Min[0], window.Min[1], window.Max[0],
		window.Max[1]}}
	q.run(func(c candidate) bool {
		mid := orb.Point{(c.P[0] + c.Q[0]) / 2, (c.P[1] + c.Q[1]) / 2}
		if ok = window.Contains(mid) && f.n.clear(c.Neck) && accept(c.Neck); ok {
			found = c.Neck
		}
		return ok
	})
	return found, ok
}

// cone holds the directions of the normals of a stretch of boundary: those no more than half away from mid, in radians.
type cone struct{ mid, half float32 }

const wholeCone = 4 // radians: any direction

// coneSlack in radians covers squareSlack, and the rounding of float32.
const coneSlack = 2e-6

// cones returns for every node of the tree the directions in which a neck may leave its edges, at corners too.
func (s *Shape) cones(inside bool) []cone {
	// The direction of every edge's normal, turned on continuously along the ring, and what the corners at its ends
	// add.
	lo, hi, here := make([]float64, len(s.fr.edges)), make([]float64, len(s.fr.edges)), make([]float64, len(s.fr.edges))
	side := -math.Pi / 2
	if inside {
		side = math.Pi / 2
	}
	direction := func(e int) orb.Point { return Sub(s.pts[s.fr.edges[e]+1], s.pts[s.fr.edges[e]]) }
	for first := 0; first < len(s.fr.edges); {
		last := first
		for last+1 < len(s.fr.edges) && s.fr.rings[last+1] == s.fr.rings[first] {
			last++
		}
		d := direction(first)
		angle := math.Atan2(d[1], d[0]) + side
		before := direction(last)
		turn := math.Atan2(before[0]*d[1]-before[1]*d[0], before[0]*d[0]+before[1]*d[1])
		for e := first; e <= last; e++ {
			next := direction(e + 1 - (last+1-first)*((e+1-first)/(last+1-first)))
			on := math.Atan2(d[0]*next[1]-d[1]*next[0], d[0]*next[0]+d[1]*next[1])
			here[e] = angle
			lo[e], hi[e] = angle+min(0, -turn, on), angle+max(0, -turn, on)
			if math.Abs(turn) > 3.14 || math.Abs(on) > 3.14 { // straight back: either way round
				lo[e], hi[e] = angle-wholeCone, angle+wholeCone
			}
			angle, turn, d = angle+on, on, next
		}
		first = last + 1
	}

	out := make([]cone, len(s.fr.nodes))
	var span func(k int32) (float64, float64)
	span = func(k int32) (a, b float64) {
		n := s.fr.nodes[k]
		if n.left != 0 {
			a, b = span(n.left)
			c, d := span(n.right)
			a, b = min(a, c), max(b, d)
		} else {
			a, b = math.Inf(1), math.Inf(-1)
			for e := n.lo; e < n.hi; e++ {
				a, b = min(a, lo[e]), max(b, hi[e])
			}
		}
		if s.fr.rings[n.lo] != s.fr.rings[n.hi-1] || b-a >= 2*math.Pi {
			out[k] = cone{0, wholeCone}
			return a, b
		}
		mid := math.Remainder((a+b)/2, 2*math.Pi)
		out[k] = cone{float32(mid), float32((b-a)/2 + coneSlack)}
		return a, b
	}

	span(0)
	return out
}

// holds reports whether some direction no more than slack from the given one lies in the cone.
func (c cone) holds(direction, slack float64) bool {
	return math.Abs(math.Remainder(direction-float64(c.mid), 2*math.Pi)) <= float64(c.half)+slack
}

// waiting is a pair of the tree's nodes, or a neck found, with the square of the least or the true distance across.
type waiting struct {
	d2   float64
	a, b int32
	neck int32 // index into neckQueue.found, -1 for a pair of nodes
}

// neckQueue is one search.
type neckQueue struct {
	f      *NeckFinder
	limit2 float64
	window *box                                // in which middles must lie, nil for anywhere
	skip   func(a, b int32, gap2 float64) bool // whether two nodes hold no neck that is wanted, nil for never
	wanted func(candidate) bool                // whether a neck is to wait, nil for always
	items  []waiting
	found  []candidate
}

func (q *neckQueue) before(i, j int) bool {
	a, b := &q.items[i], &q.items[j]
	switch {
	case a.d2 != b.d2:
		return a.d2 < b.d2
	case a.neck < 0 || b.neck < 0: // a pair of stretches may hold one as narrow that comes before
		return a.neck < b.neck
	}
	c, d := &q.found[a.neck], &q.found[b.neck]
	return c.e < d.e || (c.e == d.e && c.f < d.f)
}

// push and pop keep the items as a binary heap.
func (q *neckQueue) push(w waiting) {
	q.items = append(q.items, w)
	for i := len(q.items) - 1; i > 0 && q.before(i, (i-1)/2); i = (i - 1) / 2 {
		q.items[i], q.items[(i-1)/2] = q.items[(i-1)/2], q.items[i]
	}
}

func (q *neckQueue) pop() waiting {
	out, last := q.items[0], len(q.items)-1
	q.items[0] = q.items[last]
	q.items = q.items[:last]
	for i := 0; ; {
		first := i
		for k := 2*i + 1; k <= 2*i+2 && k < last; k++ {
			if q.before(k, first) {
				first = k
			}
		}
		if first == i {
			return out
		}
		q.items[i], q.items[first] = q.items[first], q.items[i]
		i = first
	}
}

// run offers necks in the order of their width, not yet looked at whether something lies across, until take takes one.
func (q *neckQueue) run(take func(candidate) bool) {
	s := q.f.n.s
	if s.Empty() || !(q.limit2 > 0) {
		return
	}
	q.f.n.limit = math.Sqrt(q.limit2)
	q.pair(0, 0)

	for len(q.items) > 0 {
		w := q.pop()
		if w.neck >= 0 {
			if take(q.found[w.neck]) {
				return
			}
			continue
		}
		i, j := w.a, w.b
		if q.skip != nil && q.skip(i, j, w.d2) {
			continue
		}
		a, b := s.fr.nodes[i], s.fr.nodes[j]
		switch {
		case i == j && a.left != 0:
			q.pair(a.left, a.left)
			q.pair(a.left, a.right)
			q.pair(a.right, a.right)
		case a.left == 0 && b.left == 0:
			q.leaves(a, b)
		case dividesFirst(a, b):
			q.pair(a.left, j)
			q.pair(a.right, j)
		default:
			q.pair(i, b.left)
			q.pair(i, b.right)
		}
	}
}

// pair lets two nodes wait, unless no neck under the limit can lie between them.
func (q *neckQueue) pair(i, j int32) {
	s := q.f.n.s
	a, b := s.boxes[i], s.boxes[j]
	gap2 := a.gap2(b)
	if gap2 >= q.limit2 {
		return
	}
	if !q.inWindow(a, b) {
		return
	}
	one, two := q.f.cones[i], q.f.cones[j]
	if !one.holds(float64(two.mid)+math.Pi, float64(two.half)) {
		return
	}
	if gap2 > 0 {
		// Every way from a to b leads within a wedge about the way between their middles.
		dx, dy := (b.minX+b.maxX-a.minX-a.maxX)/2, (b.minY+b.maxY-a.minY-a.maxY)/2
		size := (math.Hypot(a.maxX-a.minX, a.maxY-a.minY) + math.Hypot(b.maxX-b.minX, b.maxY-b.minY)) / 2
		if far := math.Hypot(dx, dy); size < far {
			way, spread := math.Atan2(dy, dx), math.Asin(size/far)
			if !one.holds(way, spread) || !two.holds(way+math.Pi, spread) {
				return
			}
		}
	}
	q.push(waiting{gap2, i, j, -1})
}

// inWindow reports whether the middle between a point of box a and one of box b, nearer to each other than the limit,
// may lie in the window. Then neither is further from it than half the limit.
func (q *neckQueue) inWindow(a, b box) bool {
	if q.window == nil {
		return true
	}
	if a.gap2(*q.window) > q.limit2/4 || b.gap2(*q.window) > q.limit2/4 {
		return false
	}
	mid := box{(a.minX + b.minX) / 2, (a.minY + b.minY) / 2, (a.maxX + b.maxX) / 2, (a.maxY + b.maxY) / 2}
	return mid.gap2(*q.window) == 0
}

// edgeBox returns the box of an edge, by its index in the frame.
func (s *Shape) edgeBox(e int32) box {
	p, q := s.pts[s.fr.edges[e]], s.pts[s.fr.edges[e]+1]
	return box{min(p[0], q[0]), min(p[1], q[1]), max(p[0], q[0]), max(p[1], q[1])}
}

// leaves lets the necks between the edges of two leaves wait.
func (q *neckQueue) leaves(a, b node) {
	n := &q.f.n
	n.found = n.found[:0]
	for e := a.lo; e < a.hi; e++ {
		one := n.s.edgeBox(e)
		for f := max(b.lo, e+1); f < b.hi; f++ {
			if two := n.s.edgeBox(f); one.gap2(two) < q.limit2 && q.inWindow(one, two) {
				n.pair(int(e), int(f))
			}
		}
	}
	for _, c := range n.found {
		if q.wanted != nil && !q.wanted(c) {
			continue
		}
		q.found = append(q.found, c)
		q.push(waiting{c.Width * c.Width, 0, 0, int32(len(q.found) - 1)})
	}
}
