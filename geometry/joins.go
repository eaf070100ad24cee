package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

const (
	// wider is how much wider than a neck a disc must be on either side of it.
	wider = 1.01

	// minSide is the area, in squares of a neck's width, under which its side has no room for a disc so much wider: one
	// whose middle lies on that side has at least half its area there, π/8·wider² = 0.4006, for the neck's ends are not
	// in it.
	minSide = 0.4

	// exactSide is how many edges of a side are summed one by one, and smallSide the part of its ring's area under
	// which they are too, because sums from the ring's beginning lose digits.
	exactSide = 32
	smallSide = 1e-6

	// minDepth is how far behind a neck, in parts of its length, the middle of a disc lies that is wider and whose
	// border the neck's ends are not within: the root of (wider/2)² − ¼ is 0.0708.
	minDepth = 0.07

	// blockedSteps bounds how far the boundary is followed to see whether it lies across.
	blockedSteps = 200

	// roundedAway is the part of its ring's area by which the area of a side may be wrong.
	roundedAway = 1e-11
)

// joins separates necks that join from those that have something hanging on one side. It must be asked in the order of
// their widths: what has no room for a disc has none for a wider one.
type joins struct {
	n      *necks
	area   []float64 // twice the area swept, from the first point of the ring, by the edges before each
	length []float64 // of the edges before each, mm
	full   map[int32]*spans
}

func newJoins(n *necks) *joins {
	s := n.s
	j := &joins{n: n, area: make([]float64, len(s.fr.edges)+1), length: make([]float64, len(s.fr.edges)+1),
		full: map[int32]*spans{}}
	for k, e := range s.fr.edges {
		o, p, q := s.pts[s.fr.ends[s.fr.rings[k]][0]], s.pts[e], s.pts[e+1]
		j.area[k+1] = j.area[k] + Cross(Sub(p, o), Sub(q, o))
		j.length[k+1] = j.length[k] + math.Sqrt(dist2(p, q))
	}
	return j
}

// ringOf returns a ring's first edge, and how many it has.
func (n *necks) ringOf(e int) (first, count int) {
	r := n.s.fr.ends[n.s.fr.rings[e]]
	return e - (int(n.s.fr.edges[e]) - r[0]), r[1] - r[0]
}

// known returns what is known of a ring that has count edges.
func (j *joins) known(ring int32, count int) *spans {
	if j.full[ring] == nil {
		j.full[ring] = newSpans(count)
	}
	return j.full[ring]
}

// tested returns the sides of a neck that must have room, and where they begin and end on the ring. A side of the
// region itself runs counter-clockwise when the region is the shape; the plane around the shape has its bays clockwise,
// and its unbounded side counter-clockwise, which always has room.
func (j *joins) tested(c candidate) (sides []side, from, to []int) {
	first, count := j.n.ringOf(c.e)
	for _, d := range [2]side{j.side(c.P, c.Q, c.e, c.f), j.side(c.Q, c.P, c.f, c.e)} {
		if (d.area > 0) != j.n.inside {
			continue
		}
		a, b := j.place(d.p, d.e, first), j.place(d.q, d.f, first)
		if b < a {
			b += 2 * count
		}
		sides, from, to = append(sides, d), append(from, a), append(to, b)
	}
	return sides, from, to
}

// possible reports whether a neck is clear and may have room on both sides, without a search.
func (j *joins) possible(c candidate) bool {
	if s := j.n.s; s.fr.rings[c.e] == s.fr.rings[c.f] {
		_, count := j.n.ringOf(c.e)
		known := j.known(s.fr.rings[c.e], count)
		sides, from, to := j.tested(c)
		for k, d := range sides {
			if math.Abs(d.area) < minSide*c.Width*c.Width || known.hold(from[k], to[k]) {
				return false
			}
		}
	}
	return j.n.clear(c.Neck)
}

// joins reports whether no side of a possible neck hangs.
func (j *joins) joins(c candidate) bool {
	s := j.n.s
	if s.fr.rings[c.e] != s.fr.rings[c.f] {
		return true
	}
	_, count := j.n.ringOf(c.e)
	known := j.known(s.fr.rings[c.e], count)
	sides, from, to := j.tested(c)
	for k, d := range sides {
		if known.hold(from[k], to[k]) {
			return false
		}
		if !d.room(c.Width / 2 * wider) {
			known.add(from[k], to[k])
			return false
		}
	}
	return true
}

// place numbers the corners of a ring and the insides of its edges.
func (j *joins) place(p orb.Point, e, first int) int {
	s := j.n.s
	switch p {
	case s.pts[s.fr.edges[e]]:
		return 2 * (e - first)
	case s.pts[s.fr.edges[e]+1]:
		return 2 * (e + 1 - first)
	}
	return 2*(e-first) + 1
}

// hopeless reports whether every neck from an edge of node a to one of node b, at least the root of gap2 long, has no
// room on one side or leads through what is not in the region.
func (j *joins) hopeless(a, b int32, gap2 float64) bool {
	s := j.n.s
	one, two := s.fr.nodes[a], s.fr.nodes[b]
	ring := s.fr.rings[one.lo]
	if a != b && gap2 > 0 && (one.left != 0 || two.left != 0) && s.blocked(a, b) {
		return true
	}
	if a == b || ring != s.fr.rings[one.hi-1] || ring != s.fr.rings[two.lo] || ring != s.fr.rings[two.hi-1] {
		return false
	}
	first, count := j.n.ringOf(int(one.lo))
	if known := j.full[ring]; known != nil {
		lo, hi := int(one.lo)-first, int(one.hi)-first
		if known.hold(2*lo, 2*(int(two.hi)-first)) || known.hold(2*(int(two.lo)-first), 2*(hi+count)) {
			return true
		}
	}

	// The area of the side from the first point of a's stretch to the first of b's, and by how much it changes at most
	// when the ends move along their stretches: a segment no longer than far sweeps over no more than half its length
	// times the way of its end.
	p, q, o := s.pts[s.fr.edges[one.lo]], s.pts[s.fr.edges[two.lo]], s.pts[s.fr.edges[first]]
	area := (j.area[two.lo] - j.area[one.lo] + Cross(Sub(q, o), Sub(p, o))) / 2
	x, y := s.boxes[a], s.boxes[b]
	far := math.Hypot(max(x.maxX, y.maxX)-min(x.minX, y.minX), max(x.maxY, y.maxY)-min(x.minY, y.minY))
	change := far / 2 * (j.length[one.hi] - j.length[one.lo] + j.length[two.hi] - j.length[two.lo])
	whole := (j.area[first+count] - j.area[first]) / 2
	within := (whole > 0) == j.n.inside // the region lies inside this ring
	if whole < 0 {
		area, whole = -area, -whole
	}
	return hopelessArea(area, change+roundedAway*whole, whole, minSide*gap2, within) ||
		(!within && j.cramped(a, b, gap2))
}

// cramped reports whether no bay that a neck from node a to node b cuts off has room for a disc wider than the gap
// between them. The disc's middle lies at least minDepth of the neck's length behind it. Where both stretches are
// smaller than that part of the gap, it lies behind the segment between their outer ends as well.
func (j *joins) cramped(a, b int32, gap2 float64) bool {
	s := j.n.s
	one, two, gap := s.fr.nodes[a], s.fr.nodes[b], math.Sqrt(gap2)
	if one.left == 0 || two.left == 0 || max(s.boxes[a].size(), s.boxes[b].size()) >= minDepth*gap {
		return false
	}
	at := func(e int32) orb.Point { return s.pts[s.fr.edges[e]] }
	after := func(e int32) orb.Point { return s.pts[s.fr.edges[e]+1] }
	for _, d := range [2]side{
		j.side(at(one.lo), after(two.hi-1), int(one.lo), int(two.hi-1)),
		j.side(at(two.lo), after(one.hi-1), int(two.lo), int(one.hi-1)),
	} {
		if (d.area > 0) == j.n.inside {
			return !d.room(gap / 2 * wider)
		}
	}
	return false
}

func (b box) size() float64 { return math.Hypot(b.maxX-b.minX, b.maxY-b.minY) }

// hopelessArea reports whether a neck cuts off less than least, whatever its side's area, which is within change of the
// given one: within a ring of a whole area off the one end or the other, outside it off a bay. An area that no
// neck can have counts as well.
func hopelessArea(area, change, whole, limit float64, within bool) bool {
	if within {
		return area+change < limit || area-change > whole-limit
	}
	return area-change > -limit && area+change < whole+limit
}

// spans are stretches of a ring that are known to have no room. A stretch that ends beyond the ring's beginning ends at
// twice the number of edges and more.
type spans struct {
	count int
	ends  []int // binary indexed: the furthest end of the stretches that begin at some places
}

func newSpans(count int) *spans { return &spans{count, make([]int, 2*count+2)} }

// add takes a stretch. One that begins or ends within an edge is taken from or to the corner.
func (s *spans) add(from, to int) {
	from, to = from+from%2, to-to%2
	for i := from + 1; i < len(s.ends); i += i & -i {
		s.ends[i] = max(s.ends[i], to)
	}
}

// hold reports whether one of the stretches holds this one.
func (s *spans) hold(from, to int) bool {
	furthest := 0
	for i := min(from+1, len(s.ends)-1); i > 0; i -= i & -i {
		furthest = max(furthest, s.ends[i])
	}
	if furthest >= to && furthest > 0 {
		return true
	}
	for i := len(s.ends) - 1; i > 0; i -= i & -i {
		furthest = max(furthest, s.ends[i])
	}
	return furthest >= to+2*s.count
}
