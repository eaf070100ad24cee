package geometry

import (
	"slices"
	"sort"

	"github.com/paulmach/orb"
)

// sweep goes over the points of all rings from left to right and keeps the edges that the sweep line meets, from bottom
// to top. Points, and edges by the point they run from, are numbered ring after ring.
type sweep struct {
	pts     []orb.Point // without the repeated last points
	ringOf  []int32
	edges   []sweptEdge
	rings   []sweptRing
	line    []int32 // the edges on the sweep line
	passes  []int32 // by pass: the event that met it last
	met     []int32 // by ring: the event that met it last
	left    []int32 // at an event: edges from the left, bottom to top
	right   []int32 // at an event: edges to the right, bottom to top
	opening []int32 // at an event: passes met once
}

// sweptEdge is the edge that runs from a point to the next of its ring: the end that the sweep meets first, the other,
// and whether the ring runs that way.
type sweptEdge struct {
	l, r    int32
	forward bool
}

// sweptRing is a ring and what the sweep finds out about it.
type sweptRing struct {
	polygon, ring int
	start, end    int   // points start…end−1
	first         int32 // the first point that the sweep meets, −1 before that
	ccw           bool
	parent        int // the innermost ring it lies in, −1 when in none
}

func newSweep(mp orb.MultiPolygon) *sweep {
	s := &sweep{}
	n := 0
	for _, p := range mp {
		for _, r := range p {
			n += len(r) - 1
		}
	}
	s.pts, s.ringOf = make([]orb.Point, 0, n), make([]int32, 0, n)
	for i, p := range mp {
		for j, r := range p {
			start := len(s.pts)
			s.pts = append(s.pts, r[:len(r)-1]...)
			for range len(r) - 1 {
				s.ringOf = append(s.ringOf, int32(len(s.rings)))
			}
			s.rings = append(s.rings, sweptRing{polygon: i, ring: j, start: start, end: len(s.pts), first: -1,
				parent: -1})
		}
	}

	s.passes, s.met = make([]int32, 2*n), make([]int32, len(s.rings))
	s.edges = make([]sweptEdge, n)
	for e := range s.edges {
		if k, m := int32(e), s.next(int32(e)); before(s.pts[k], s.pts[m]) {
			s.edges[e] = sweptEdge{k, m, true}
		} else {
			s.edges[e] = sweptEdge{m, k, false}
		}
	}
	return s
}

// next and previous go round the ring of a point.
func (s *sweep) next(k int32) int32 {
	if r := &s.rings[s.ringOf[k]]; int(k)+1 == r.end {
		return int32(r.start)
	}
	return k + 1
}

func (s *sweep) previous(k int32) int32 {
	if r := &s.rings[s.ringOf[k]]; int(k) == r.start {
		return int32(r.end - 1)
	}
	return k - 1
}

// side says whether p lies above edge e (1), below it (−1) or on its line.
func (s *sweep) side(e int32, p orb.Point) int {
	return turnOf(s.pts[s.edges[e].l], s.pts[s.edges[e].r], p)
}

// run sweeps over everything and returns the first fault. Until a fault is met, edges keep their order on the line
// between the points where they begin and end, so that each event finds its place by halving.
func (s *sweep) run() error {
	order := make([]int32, len(s.pts))
	for k := range order {
		order[k] = int32(k)
	}
	slices.SortFunc(order, func(a, b int32) int {
		switch p, q := s.pts[a], s.pts[b]; {
		case before(p, q):
			return -1
		case before(q, p):
			return 1
		}
		return int(a - b)
	})

	for i, event := 0, int32(1); i < len(order); event++ {
		j := i + 1
		for j < len(order) && s.pts[order[j]] == s.pts[order[i]] {
			j++
		}
		if err := s.meet(order[i:j], event); err != nil {
			return err
		}
		i = j
	}
	return nil
}

// meet goes over one place, where the given points of rings lie.
func (s *sweep) meet(here []int32, event int32) error {
	p := s.pts[here[0]]
	lo := sort.Search(len(s.line), func(k int) bool { return s.side(s.line[k], p) <= 0 })
	hi := lo
	for hi < len(s.line) && s.side(s.line[hi], p) == 0 {
		hi++
	}

	// What comes from the left lies together on the line; what runs through goes on to the right, with what begins
	// here.
	s.left, s.right = append(s.left[:0], s.line[lo:hi]...), s.right[:0]
	ending := 0
	for _, e := range s.left {
		if s.pts[s.edges[e].r] == p {
			ending++
		} else {
			s.right = append(s.right, e)
		}
	}
	for _, k := range here {
		for _, e := range [2]int32{k, s.previous(k)} {
			if s.edges[e].l == k {
				s.right = append(s.right, e)
			} else {
				ending--
			}
		}
	}

	if ending != 0 {
		// Cannot be while the order on the line is right; kept so that a mistake shows as a fault and not as silence.
		return s.fault(here[0], here[0], p, "crosses")
	}
	slices.SortFunc(s.right, func(a, b int32) int { return -s.fan(p, a, b) })
	for k := 1; k < len(s.right); k++ {
		if s.fan(p, s.right[k-1], s.right[k]) == 0 {
			return s.along(s.right[k-1], s.right[k], p)
		}
	}
	if len(s.left)+len(s.right) > 2 {
		if err := s.passing(p, event); err != nil {
			return err
		}
	}
	s.nest(lo, here)
	s.line = slices.Replace(s.line, lo, hi, s.right...)
	if len(s.right) == 0 {
		return s.cross(lo-1, lo)
	}
	if err := s.cross(lo-1, lo); err != nil {
		return err
	}
	return s.cross(lo+len(s.right)-1, lo+len(s.right))
}

// fan says whether edge b leaves p above edge a (1), below it (−1), or the same way (0).
func (s *sweep) fan(p orb.Point, a, b int32) int {
	return turnOf(p, s.pts[s.edges[a].r], s.pts[s.edges[b].r])
}

// passing looks at a place that more than one stretch of ring goes through. Round the place every stretch, or pass,
// has two arms; passes that do not cross have their arms nested like brackets.
func (s *sweep) passing(p orb.Point, event int32) error {
	s.opening = s.opening[:0]
	twice := int32(-1)
	arm := func(e int32) error {
		pass := s.passOf(e, p)
		if s.passes[pass] == event {
			if last := s.opening[len(s.opening)-1]; last != pass {
				return s.fault(s.edgeOf(last), e, p, "crosses")
			}
			s.opening = s.opening[:len(s.opening)-1]
			return nil
		}
		if s.met[s.ringOf[e]] == event {
			twice = e
		}
		s.passes[pass], s.met[s.ringOf[e]] = event, event
		s.opening = append(s.opening, pass)
		return nil
	}

	for _, e := range s.left {
		if err := arm(e); err != nil {
			return err
		}
	}
	for k := len(s.right) - 1; k >= 0; k-- {
		if err := arm(s.right[k]); err != nil {
			return err
		}
	}
	if twice >= 0 {
		return s.fault(twice, twice, p, "touches")
	}
	return nil
}

// passOf numbers the stretch of ring that takes edge e through p: by its corner there, or, counted on from the corners,
// by the edge that has p in its course.
func (s *sweep) passOf(e int32, p orb.Point) int32 {
	switch n := s.next(e); p {
	case s.pts[e]:
		return e
	case s.pts[n]:
		return n
	}
	return int32(len(s.pts)) + e
}

func (s *sweep) edgeOf(pass int32) int32 {
	if int(pass) < len(s.pts) {
		return pass
	}
	return pass - int32(len(s.pts))
}

// nest finds out, for every ring that begins here, which way it runs and what it lies in, from the edge below it.
func (s *sweep) nest(lo int, here []int32) {
	fresh := false
	for _, k := range here {
		fresh = fresh || s.rings[s.ringOf[k]].first < 0
	}

	for k := 0; fresh && k < len(s.right); k++ {
		e := s.edges[s.right[k]]
		r := &s.rings[s.ringOf[e.l]]
		if r.first >= 0 {
			continue
		}

		// Both edges of the ring begin here and this is the lower one.
		r.first, r.ccw = e.l, e.forward
		below := int32(-1)
		if k > 0 {
			below = s.right[k-1]
		} else if lo > 0 {
			below = s.line[lo-1]
		}
		if below >= 0 {
			r.parent = int(s.ringOf[below])
			if q := s.rings[r.parent]; s.edges[below].forward != q.ccw {
				r.parent = q.parent
			}
		}
	}
}
