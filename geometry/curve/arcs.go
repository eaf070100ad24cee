package curve

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// pieces returns the way to the last joint with the fewest pieces, where each begins, and the joint it leads to.
func (c *arcChain) pieces() (out []Piece, from []orb.Point, by []int) {
	at := &c.nodes[len(c.nodes)-1]
	best := 0
	for k, s := range at.states {
		if w := at.states[best]; s.count < w.count || s.count == w.count && s.hi-s.lo > w.hi-w.lo {
			best = k
		}
	}
	s := &at.states[best]
	x := (s.lo + s.hi) / 2
	for s.node >= 0 {
		before := &c.nodes[s.node]
		leave := s.chord - s.end - x
		q := Piece{Kind: Arc, Bulge: math.Tan((s.chord - leave) / 2), To: at.at, Corner: c.js[at.joint].corner}
		if math.Abs(q.Bulge) < distance(before.at, q.To)/(4*widestRadius) {
			q.Kind, q.Bulge = Line, 0
		}
		out, from, by = append(out, q), append(from, before.at), append(by, at.joint)
		s, at = &before.states[s.from], before
		x = max(s.lo, min(s.hi, leave))
	}
	slices.Reverse(out)
	slices.Reverse(from)
	slices.Reverse(by)
	return out, from, by
}

// angleFrom returns the angle in radians from one unit vector to another.
func angleFrom(u, v orb.Point) float64 { return math.Atan2(geometry.Cross(u, v), geometry.Dot(u, v)) }
