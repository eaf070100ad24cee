package geometry

import (
	"fmt"
	"math"
	"strconv"

	"github.com/paulmach/orb"
)

// Limits of CheckOutline.
const (
	// MaxCoordinate in mm bounds the coordinates of an outline: 100 m, far over any panel. Below it differences and
	// products of coordinates stay far from the ends of what a float64 holds.
	MaxCoordinate = 1e5

	// areaSlack is the part of the square of a ring's size below which the ring has no area. RingArea's rounding is
	// some 1e-16 of that square for each corner, so for 20,000 corners the sign of the area is sure well above 1e-12;
	// and a ring 100 mm long whose area is less is a hair of 1e-10 mm, which nothing cuts.
	areaSlack = 1e-11
)

// OutlineError says what is wrong with an outline and where.
type OutlineError struct {
	Polygon, Ring int       // indexes into the outline; −1 when the fault is not in one of them
	Edge          int       // edge k runs from point k of the ring to point k+1; −1 when the whole ring is meant
	At            orb.Point // a place in mm where the fault can be seen; meaningful when Edge ≥ 0
	Reason        string    // a clause without the place: "the ring crosses itself"

	number bool // the fault is in the numbers of point Edge, so that At cannot be told
}

// Path returns the indexes that lead to the fault, as in a file: "[0][1]", or "[0][1][17]" for a point's numbers.
func (e *OutlineError) Path() string {
	s := ""
	for _, i := range []int{e.Polygon, e.Ring} {
		if i >= 0 {
			s += "[" + strconv.Itoa(i) + "]"
		}
	}
	if e.number {
		s += "[" + strconv.Itoa(e.Edge) + "]"
	}
	return s
}

// Text returns the reason with the place in mm, where there is one: "the ring crosses itself near (12.3, 4.5) mm".
func (e *OutlineError) Text() string {
	if e.Edge < 0 || e.number {
		return e.Reason
	}
	short := func(v float64) string { return strconv.FormatFloat(math.Round(v*1e3)/1e3+0, 'f', -1, 64) }
	return e.Reason + " near (" + short(e.At[0]) + ", " + short(e.At[1]) + ") mm"
}

// Error returns path and text together.
func (e *OutlineError) Error() string { return "outline" + e.Path() + ": " + e.Text() }

// CheckOutline says what keeps an outline from being one that the rest of this package can work with; nil when nothing
// does. An error is always an *OutlineError. An outline is good when
//   - it has a polygon, every polygon a ring, and every ring is closed (its last point repeats its first);
//   - all numbers are finite and none is over MaxCoordinate in size;
//   - a ring has at least three corners, no point follows itself, and no two parts of a ring meet, not even in a point;
//   - two rings neither cross nor run along one another; they may touch in single points;
//   - holes lie in their outer ring and not in one another, and polygons do not overlap (one may lie in another's
//     hole);
//   - outer rings run counter-clockwise and holes clockwise;
//   - no ring is so thin that rounding decides which way it runs.
//
// There is no tolerance in where rings meet: the sign behind every decision is that of the exact value for the numbers
// given, so the answer does not depend on where a ring starts or in which order rings stand. Turning an outline rounds
// its numbers and may end a touch, or make one.
//
// Method: one sweep along x over all edges (M. I. Shamos and D. Hoey, "Geometric intersection problems", FOCS 1976),
// stopped by the first fault; the order of edges along the sweep line also tells which ring lies in which. It takes
// time for sorting the points, and for moving the edges that the sweep line meets when one is put between them.
func CheckOutline(mp orb.MultiPolygon) error {
	if len(mp) == 0 {
		return &OutlineError{Polygon: -1, Ring: -1, Edge: -1, Reason: "the outline is empty"}
	}
	for i, p := range mp {
		if len(p) == 0 {
			return &OutlineError{Polygon: i, Ring: -1, Edge: -1, Reason: "the polygon has no ring"}
		}
		for j, r := range p {
			if err := checkRing(i, j, r); err != nil {
				return err
			}
		}
	}
	s := newSweep(mp)
	if err := s.run(); err != nil {
		return err
	}
	if err := s.nesting(); err != nil {
		return err
	}
	return s.sizes(mp)
}

// checkRing looks at the points of a ring one by one.
func checkRing(i, j int, r orb.Ring) error {
	fault := func(edge int, number bool, reason string) error {
		e := &OutlineError{Polygon: i, Ring: j, Edge: edge, Reason: reason, number: number}
		if edge >= 0 {
			e.At = r[edge]
		}
		return e
	}
	for k, v := range r {
		// Written so that what is not a number fails as well.
		if !(math.Abs(v[0]) <= math.MaxFloat64 && math.Abs(v[1]) <= math.MaxFloat64) {
			return fault(k, true, "a coordinate is not a finite number")
		}
		if math.Abs(v[0]) > MaxCoordinate || math.Abs(v[1]) > MaxCoordinate {
			return fault(k, true, fmt.Sprintf("a coordinate is over %g mm", float64(MaxCoordinate)))
		}
	}

	if len(r) < 4 {
		return fault(-1, false, fmt.Sprintf(
			"the ring has too few points, %d; it needs at least three corners and its first point again at the end",
			len(r)))
	}
	if r[0] != r[len(r)-1] {
		return fault(-1, false, "the ring is not closed; its last point must repeat its first")
	}
	for k := range len(r) - 1 {
		if r[k] == r[k+1] {
			return fault(k, false, "the ring has the same point twice running")
		}
	}
	return nil
}

// nesting holds what lies in what against what the outline says.
func (s *sweep) nesting() error {
	for k, r := range s.rings {
		e := &OutlineError{Polygon: r.polygon, Ring: r.ring, Edge: int(r.first) - r.start, At: s.pts[r.first]}
		shell := k - r.ring
		switch {
		case r.ring == 0 && (r.parent < 0 || s.rings[r.parent].ring > 0):
			// Free, or in a hole: of another polygon, since a ring in its own hole makes that one lie outside its outer
			// ring.
		case r.ring == 0:
			e.Reason = fmt.Sprintf("the polygon lies over polygon [%d]", s.rings[r.parent].polygon)
			return e
		case r.parent == shell:
		case r.parent >= 0 && s.rings[r.parent].ring > 0 && s.rings[r.parent].polygon == r.polygon:
			e.Reason = fmt.Sprintf("the hole lies in another hole, ring %s", s.name(r.parent))
			return e
		case s.within(k, shell):
			e.Reason = fmt.Sprintf("another ring, %s, lies between the hole and its outer ring", s.name(r.parent))
			return e
		default:
			e.Reason = fmt.Sprintf("the hole lies outside its outer ring %s", s.name(shell))
			return e
		}
		if r.ccw != (r.ring == 0) {
			if e.Reason = "the outer ring runs clockwise; it must run counter-clockwise"; r.ring > 0 {
				e.Reason = "the hole runs counter-clockwise; it must run clockwise"
			}
			e.Edge = -1
			return e
		}
	}
	return nil
}

// within reports whether ring k lies in ring outer, at any depth. Depths are bounded by the number of rings, since a
// ring's parent was met by the sweep before it.
func (s *sweep) within(k, outer int) bool {
	for k = s.rings[k].parent; k >= 0; k = s.rings[k].parent {
		if k == outer {
			return true
		}
	}
	return false
}

// sizes finds rings too thin to have an area.
func (s *sweep) sizes(mp orb.MultiPolygon) error {
	for _, r := range s.rings {
		ring := mp[r.polygon][r.ring]
		b := ring.Bound()
		w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
		if math.Abs(RingArea(ring)) <= areaSlack*(w*w+h*h) {
			return &OutlineError{Polygon: r.polygon, Ring: r.ring, Edge: int(r.first) - r.start, At: s.pts[r.first],
				Reason: "the ring has no area"}
		}
	}
	return nil
}
