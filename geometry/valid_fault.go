package geometry

import "github.com/paulmach/orb"

// cross says whether the edges at places i and i+1 = j of the line cross between their ends.
func (s *sweep) cross(i, j int) error {
	if i < 0 || j >= len(s.line) {
		return nil
	}
	a, b := s.line[i], s.line[j]
	p0, p1, q0, q1 := s.pts[s.edges[a].l], s.pts[s.edges[a].r], s.pts[s.edges[b].l], s.pts[s.edges[b].r]
	// On the line b lies above a: they cross when an end of one lies beyond the other.
	if turnOf(p0, p1, q0)*turnOf(p0, p1, q1) >= 0 || turnOf(q0, q1, p0)*turnOf(q0, q1, p1) >= 0 {
		return nil
	}
	at, ok := SegmentsMeet(p0, p1, q0, q1)
	if !ok {
		at = q0 // rounding: they cross so flatly that any point will do
	}
	return s.fault(a, b, at, "crosses")
}

// along is the fault of two edges that lie on one another.
func (s *sweep) along(a, b int32, p orb.Point) error {
	if s.next(a) == b || s.next(b) == a {
		return s.fault(a, b, p, "folds back on")
	}
	return s.fault(a, b, p, "runs along")
}

// fault blames the later of two edges' rings.
func (s *sweep) fault(a, b int32, at orb.Point, verb string) error {
	if s.ringOf[a] > s.ringOf[b] {
		a, b = b, a
	}
	r := s.rings[s.ringOf[b]]
	object := "itself"
	if s.ringOf[a] != s.ringOf[b] {
		object = "ring " + s.name(int(s.ringOf[a]))
	}
	return &OutlineError{Polygon: r.polygon, Ring: r.ring, Edge: int(b) - r.start, At: at, Reason: "the ring " + verb +
		" " + object}
}

func (s *sweep) name(k int) string {
	return (&OutlineError{Polygon: s.rings[k].polygon, Ring: s.rings[k].ring, Edge: -1}).Path()
}
