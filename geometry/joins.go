package geometry

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
)

const (
	// wider is how much wider than a neck a disc must be on either side of it.
	wider = 1.01

	// leastSide is the area, in squares of a neck's width, under which its side has no room for a disc so much wider: one
	// whose middle lies on that side has at least half its area there, π/8·wider² = 0.4006, for the neck's ends are not in it.
	leastSide = 0.4

	// exactSide is how many edges of a side are summed one by one, and smallSide the part of its ring's area under which
	// they are too, because sums from the ring's beginning lose digits.
	exactSide = 32
	smallSide = 1e-6

	// leastDepth is how far behind a neck, in parts of its length, the middle of a disc lies that is wider and whose border
	// the neck's ends are not within: the root of (wider/2)² − ¼ is 0.0708.
	leastDepth = 0.07

	// blockedSteps bounds how far the boundary is followed to see whether it lies across.
	blockedSteps = 200

	// roundedAway is the part of its ring's area by which the area of a side may be wrong.
	roundedAway = 1e-11
)

// joins tells necks that join from those that have something hanging on one side. It must be asked in the order of their
// widths: what has no room for a disc has none for a wider one.
type joins struct {
	n      *necks
	area   []float64 // twice the area swept, from the first point of the ring, by the edges before each
	length []float64 // of the edges before each, mm
	full   map[int32]*spans
}

func newJoins(n *necks) *joins {
	s := n.s
	j := &joins{n: n, area: make([]float64, len(s.fr.edges)+1), length: make([]float64, len(s.fr.edges)+1), full: map[int32]*spans{}}
	for k, e := range s.fr.edges {
		o, p, q := s.pts[s.fr.ends[s.fr.rings[k]][0]], s.pts[e], s.pts[e+1]
		j.area[k+1] = j.area[k] + cross(sub(p, o), sub(q, o))
		j.length[k+1] = j.length[k] + math.Sqrt(dist2(p, q))
	}
	return j
}

// ringOf returns a ring's first edge, and how many it has.
func (n *necks) ringOf(e int) (first, count int) {
	r := n.s.fr.ends[n.s.fr.rings[e]]
	return e - (int(n.s.fr.edges[e]) - r[0]), r[1] - r[0]
}

// side is what lies between the boundary from p on edge e onwards to q on edge f and the straight line back.
type side struct {
	n            *necks
	p, q         orb.Point
	e, f         int
	runs         [2][2]int32 // the whole edges between, in one run or, over the ring's beginning, two
	area, length float64     // positive counter-clockwise; with the line back
}

func (j *joins) side(p, q orb.Point, e, f int) side {
	n, s := j.n, j.n.s
	first, count := n.ringOf(e)
	out := side{n: n, p: p, q: q, e: e, f: f}
	if e < f {
		out.runs[0] = [2]int32{int32(e + 1), int32(f)}
	} else {
		out.runs = [2][2]int32{{int32(e + 1), int32(first + count)}, {int32(first), int32(f)}}
	}
	after, before := s.pts[s.fr.edges[e]+1], s.pts[s.fr.edges[f]]
	o := s.pts[s.fr.edges[first]]
	about := func(a, b orb.Point) float64 { return cross(sub(a, o), sub(b, o)) }
	sum, edges := about(p, after)+about(before, q)+about(q, p), int32(0)
	out.length = math.Sqrt(dist2(p, after)) + math.Sqrt(dist2(before, q)) + math.Sqrt(dist2(q, p))
	for _, r := range out.runs {
		sum += j.area[r[1]] - j.area[r[0]]
		out.length += j.length[r[1]] - j.length[r[0]]
		edges += r[1] - r[0]
	}
	out.area = sum / 2
	if whole := j.area[first+count] - j.area[first]; edges < exactSide || math.Abs(sum) < smallSide*math.Abs(whole) {
		out.area = RingArea(out.ring())
	}
	return out
}

// ring returns the side's outline, closed.
func (d *side) ring() orb.Ring {
	out := orb.Ring{d.p}
	for k := d.e; k != d.f; {
		k = d.n.step(k, 1)
		out = append(out, d.n.s.pts[d.n.s.fr.edges[k]])
	}
	return append(out, d.q, d.p)
}

// straight returns the parts of the side's outline that are not whole edges.
func (d *side) straight() [3][2]orb.Point {
	s := d.n.s
	return [3][2]orb.Point{{d.p, s.pts[s.fr.edges[d.e]+1]}, {s.pts[s.fr.edges[d.f]], d.q}, {d.q, d.p}}
}

func (d *side) contains(x orb.Point) bool {
	in := false
	for _, g := range d.straight() {
		in = in != rayCrosses(g[0], g[1], x)
	}
	for _, r := range d.runs {
		in = in != d.n.s.crossedOften(x, r[0], r[1])
	}
	return in
}

// border reports whether the side's outline comes nearer to x than reach mm.
func (d *side) border(x orb.Point, reach float64) bool {
	for _, g := range d.straight() {
		if dist2(x, nearestOn(g[0], g[1], x)) < reach*reach {
			return true
		}
	}
	return d.n.s.nearer(x, reach*reach, d.runs[0][0], d.runs[0][1]) || d.n.s.nearer(x, reach*reach, d.runs[1][0], d.runs[1][1])
}

func (d *side) bound() orb.Bound {
	b := orb.Bound{Min: d.p, Max: d.p}.Extend(d.q)
	for _, r := range d.runs {
		b = d.n.s.extend(b, r[0], r[1], 0)
	}
	return b
}

// room reports whether some point of the side lies at least radius from the shape's boundary. Points nearer than that to
// a line of length L cover no more than about radius·L on one side of it, so that a side of twice that area has room
// without a search.
func (d *side) room(radius float64) bool {
	return math.Abs(d.area) > 2*radius*d.length || d.n.s.search(d.bound(), radius, d.contains, d.border)
}

// joins reports whether the neck is clear and no side of it hangs. What costs least is asked first.
func (j *joins) joins(c candidate) bool {
	s := j.n.s
	if s.fr.rings[c.e] != s.fr.rings[c.f] {
		return j.n.clear(c.Neck)
	}
	first, count := j.n.ringOf(c.e)
	known := j.full[s.fr.rings[c.e]]
	if known == nil {
		known = newSpans(count)
		j.full[s.fr.rings[c.e]] = known
	}
	sides := [2]side{j.side(c.P, c.Q, c.e, c.f), j.side(c.Q, c.P, c.f, c.e)}
	var from, to [2]int
	for k, d := range sides {
		// A side of the region itself runs counter-clockwise when the region is the shape; the plane around the shape
		// has its bays clockwise, and its unbounded side counter-clockwise, which always has room.
		if (d.area > 0) != j.n.inside {
			continue
		}
		if from[k], to[k] = j.place(d.p, d.e, first), j.place(d.q, d.f, first); to[k] < from[k] {
			to[k] += 2 * count
		}
		if math.Abs(d.area) < leastSide*c.Width*c.Width || known.hold(from[k], to[k]) {
			return false
		}
	}
	if !j.n.clear(c.Neck) {
		return false
	}
	for k, d := range sides {
		if (d.area > 0) == j.n.inside && !d.room(c.Width/2*wider) {
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

// hopeless reports whether every neck from an edge of node a to one of node b, at least the root of gap2 long, has no room
// on one side or leads through what is not in the region.
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

	// The area of the side from the first point of a's stretch to the first of b's, and by how much it changes at most when
	// the ends move along their stretches: a segment no longer than far sweeps over no more than half its length times
	// the way of its end.
	p, q, o := s.pts[s.fr.edges[one.lo]], s.pts[s.fr.edges[two.lo]], s.pts[s.fr.edges[first]]
	area := (j.area[two.lo] - j.area[one.lo] + cross(sub(q, o), sub(p, o))) / 2
	x, y := s.boxes[a], s.boxes[b]
	far := math.Hypot(max(x.maxX, y.maxX)-min(x.minX, y.minX), max(x.maxY, y.maxY)-min(x.minY, y.minY))
	change := far / 2 * (j.length[one.hi] - j.length[one.lo] + j.length[two.hi] - j.length[two.lo])
	whole := (j.area[first+count] - j.area[first]) / 2
	within := (whole > 0) == j.n.inside // the region lies inside this ring
	if whole < 0 {
		area, whole = -area, -whole
	}
	return hopelessArea(area, change+roundedAway*whole, whole, leastSide*gap2, within) || (!within && j.cramped(a, b, gap2))
}

// cramped reports whether no bay that a neck from node a to node b cuts off has room for a disc wider than the gap between
// them. The disc's middle lies at least leastDepth of the neck's length behind it. Where both stretches are smaller than
// that part of the gap, it lies behind the segment between their outer ends as well.
func (j *joins) cramped(a, b int32, gap2 float64) bool {
	s := j.n.s
	one, two, gap := s.fr.nodes[a], s.fr.nodes[b], math.Sqrt(gap2)
	if one.left == 0 || two.left == 0 || max(s.boxes[a].size(), s.boxes[b].size()) >= leastDepth*gap {
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

// blocked reports whether the boundary crosses every segment from node a to node b, as seen from where it first crosses the
// one between their middles: a line of boundary that leads, between the two, from one side of all such segments to the
// other.
func (s *Shape) blocked(a, b int32) bool {
	x, y := s.boxes[a], s.boxes[b]
	p := orb.Point{(x.minX + x.maxX) / 2, (x.minY + x.maxY) / 2}
	q := orb.Point{(y.minX + y.maxX) / 2, (y.minY + y.maxY) / 2}
	far, near, wide := math.Sqrt(dist2(p, q)), x.size()/2, max(x.size(), y.size())/2
	end := far - y.size()/2
	if near >= end {
		return false
	}
	w := orb.Point{(q[0] - p[0]) / far, (q[1] - p[1]) / far}
	_, hit := s.rayEdge(orb.Point{p[0] + near*w[0], p[1] + near*w[1]}, w, end-near)
	if hit < 0 {
		return false
	}
	r := s.ends(hit)
	// side follows the boundary from the hit edge and returns on which side it leaves, 0 where it does so elsewhere.
	side := func(k, step int) int {
		for range blockedSteps {
			v := sub(s.pts[k], p)
			if along := dot(v, w); along <= near || along >= end {
				return 0
			}
			switch off := cross(w, v); {
			case off > wide:
				return 1
			case off < -wide:
				return -1
			}
			if k += step; k < r[0] {
				k = r[1] - 1
			} else if k > r[1] {
				k = r[0] + 1
			}
		}
		return 0
	}
	return side(int(hit), -1)*side(int(hit)+1, 1) < 0
}

// ends returns the first and last point of the ring whose edge begins at point k.
func (s *Shape) ends(k int32) [2]int {
	i := sort.Search(len(s.fr.ends), func(i int) bool { return s.fr.ends[i][1] > int(k) })
	return s.fr.ends[i]
}

// hopelessArea reports whether a neck cuts off less than least, whatever its side's area, which is within change of the
// given one: within a ring of a whole area off the one end or the other, outside it off a bay. An area that no
// neck can have counts as well.
func hopelessArea(area, change, whole, least float64, within bool) bool {
	if within {
		return area+change < least || area-change > whole-least
	}
	return area-change > -least && area+change < whole+least
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

// crossedOften reports whether a ray from p crosses the edges lo…hi−1 an odd number of times.
func (s *Shape) crossedOften(p orb.Point, lo, hi int32) bool {
	in := false
	stack := [64]int32{}
	top := 1
	for top > 0 {
		top--
		k := stack[top]
		b, n := s.boxes[k], s.fr.nodes[k]
		if p[1] < b.minY || p[1] > b.maxY || p[0] > b.maxX || n.hi <= lo || n.lo >= hi {
			continue
		}
		if n.left != 0 {
			stack[top], stack[top+1] = n.left, n.right
			top += 2
			continue
		}
		for _, e := range s.fr.edges[max(lo, n.lo):min(hi, n.hi)] {
			if rayCrosses(s.pts[e], s.pts[e+1], p) {
				in = !in
			}
		}
	}
	return in
}

// extend returns b with the edges lo…hi−1 that lie in node k.
func (s *Shape) extend(b orb.Bound, lo, hi, k int32) orb.Bound {
	n := s.fr.nodes[k]
	switch {
	case n.hi <= lo || n.lo >= hi:
	case n.lo >= lo && n.hi <= hi:
		x := s.boxes[k]
		b = b.Extend(orb.Point{x.minX, x.minY}).Extend(orb.Point{x.maxX, x.maxY})
	case n.left != 0:
		b = s.extend(s.extend(b, lo, hi, n.left), lo, hi, n.right)
	default:
		for _, e := range s.fr.edges[max(lo, n.lo):min(hi, n.hi)] {
			b = b.Extend(s.pts[e]).Extend(s.pts[e+1])
		}
	}
	return b
}
