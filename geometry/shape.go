package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

// box is an axis-parallel rectangle in mm.
type box struct{ minX, minY, maxX, maxY float64 }

func (b box) moved(x, y float64) box { return box{b.minX + x, b.minY + y, b.maxX + x, b.maxY + y} }

// gap2 returns the squared distance between two boxes, 0 when they meet.
func (b box) gap2(c box) float64 {
	dx := max(0, max(b.minX-c.maxX, c.minX-b.maxX))
	dy := max(0, max(b.minY-c.maxY, c.minY-b.maxY))
	return dx*dx + dy*dy
}

// frame is what the placed images of one outline share: where rings begin, and a binary tree over the edges ring by
// ring. The edges of a ring follow each other and are local already; only the rings are put in order.
type frame struct {
	edges []int32  // edge k runs from point edges[k] to point edges[k]+1
	rings []int32  // ring of edge k
	polys []int32  // first point of each polygon
	ends  [][2]int // first and last point of each ring; they are equal points
	nodes []node   // children follow their parent
}

// node is a node of the tree: edges lo…hi−1; a leaf has left = 0.
type node struct{ lo, hi, left, right int32 }

// dividesFirst reports whether, of two nodes that are not both leaves, the first is the one to look into: the one that
// has more edges, so that a walk over pairs goes no deeper than the sum of their depths.
func dividesFirst(a, b node) bool { return b.left == 0 || (a.left != 0 && a.hi-a.lo >= b.hi-b.lo) }

// Shape is an outline placed in the plane and ready for questions: the points of all its rings, one after another, and
// a box for every node of its tree. It is read-only once made, apart from Place.
type Shape struct {
	pts   []orb.Point
	boxes []box
	fr    *frame
	area  float64
	heart orb.Point
}

// NewShape prepares an outline. The outline's rings must be closed; rings of fewer than four points are passed over.
func NewShape(mp orb.MultiPolygon) *Shape {
	s := &Shape{fr: &frame{}}
	for _, p := range mp {
		first := true
		for _, r := range p {
			if len(r) < 4 {
				continue
			}
			start := len(s.pts)
			if first {
				s.fr.polys = append(s.fr.polys, int32(start))
				first = false
			}
			s.pts = append(s.pts, r...)
			s.fr.ends = append(s.fr.ends, [2]int{start, len(s.pts) - 1})
			s.area += RingArea(r)
		}
	}

	s.fr.addEdges(s.pts)
	if len(s.fr.edges) > 0 {
		s.fr.split(0, int32(len(s.fr.edges)))
	}
	s.boxes = make([]box, len(s.fr.nodes))
	s.refit()
	s.heart = Centroid(mp)
	return s
}

// addEdges lists the edges ring by ring, rings near each other one after another.
func (f *frame) addEdges(pts []orb.Point) {
	bounds := make([]orb.Bound, len(f.ends))
	for k, e := range f.ends {
		bounds[k] = orb.MultiPoint(pts[e[0]:e[1]]).Bound()
	}
	for _, k := range NearOrder(bounds) {
		for i := f.ends[k][0]; i < f.ends[k][1]; i++ {
			f.edges = append(f.edges, int32(i))
			f.rings = append(f.rings, int32(k))
		}
	}
}

// split appends the node over edges lo…hi−1 and, below it, its halves. Its depth is the logarithm of the edges.
func (f *frame) split(lo, hi int32) int32 {
	k := int32(len(f.nodes))
	f.nodes = append(f.nodes, node{lo: lo, hi: hi})
	if hi-lo > leafEdges {
		mid := (lo + hi) / 2
		l := f.split(lo, mid)
		r := f.split(mid, hi)
		f.nodes[k].left, f.nodes[k].right = l, r
	}
	return k
}

// refit computes the boxes from the points, children before parents.
func (s *Shape) refit() {
	for k := len(s.fr.nodes) - 1; k >= 0; k-- {
		n := s.fr.nodes[k]
		if n.left != 0 {
			l, r := s.boxes[n.left], s.boxes[n.right]
			s.boxes[k] = box{min(l.minX, r.minX), min(l.minY, r.minY),
				max(l.maxX, r.maxX), max(l.maxY, r.maxY)}
			continue
		}
		b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
		for _, e := range s.fr.edges[n.lo:n.hi] {
			p, q := s.pts[e], s.pts[e+1]
			b.minX = min(b.minX, min(p[0], q[0]))
			b.minY = min(b.minY, min(p[1], q[1]))
			b.maxX = max(b.maxX, max(p[0], q[0]))
			b.maxY = max(b.maxY, max(p[1], q[1]))
		}
		s.boxes[k] = b
	}
}

// Place writes the image of s under m into dst and returns it; dst may be nil or a shape to reuse. Where m mirrors, the
// image's rings run the other way round; distances do not mind, and Area follows the size alone.
func (s *Shape) Place(m Map, dst *Shape) *Shape {
	if dst == nil {
		dst = &Shape{}
	}
	if cap(dst.pts) < len(s.pts) {
		dst.pts = make([]orb.Point, len(s.pts))
	}
	if cap(dst.boxes) < len(s.boxes) {
		dst.boxes = make([]box, len(s.boxes))
	}
	dst.pts, dst.boxes, dst.fr = dst.pts[:len(s.pts)], dst.boxes[:len(s.boxes)], s.fr
	for i, p := range s.pts {
		dst.pts[i] = orb.Point{m.A*p[0] + m.B*p[1] + m.X, m.C*p[0] + m.D*p[1] + m.Y}
	}
	dst.area = s.area * math.Abs(m.Det())
	dst.heart = m.Apply(s.heart)
	dst.refit()
	return dst
}

// Empty reports whether the shape has no edges.
func (s *Shape) Empty() bool { return len(s.fr.edges) == 0 }

// Edges returns how many edges the shape's rings have.
func (s *Shape) Edges() int { return len(s.fr.edges) }

// Polygons returns how many polygons the shape has.
func (s *Shape) Polygons() int { return len(s.fr.polys) }

// Area returns the shape's area in mm².
func (s *Shape) Area() float64 { return s.area }

// Centroid returns the shape's centre of area.
func (s *Shape) Centroid() orb.Point { return s.heart }

// Bound returns the shape's box; of an empty shape a box at the origin.
func (s *Shape) Bound() orb.Bound {
	if s.Empty() {
		return orb.Bound{}
	}
	b := s.boxes[0]
	return orb.Bound{Min: orb.Point{b.minX, b.minY}, Max: orb.Point{b.maxX, b.maxY}}
}

// Contains reports whether p lies inside; on the boundary the answer may be either.
func (s *Shape) Contains(p orb.Point) bool {
	if s.Empty() {
		return false
	}
	in := false
	stack := [64]int32{}
	top := 1
	for top > 0 {
		top--
		k := stack[top]
		b := s.boxes[k]
		if p[1] < b.minY || p[1] > b.maxY || p[0] > b.maxX {
			continue
		}
		n := s.fr.nodes[k]
		if n.left != 0 {
			stack[top], stack[top+1] = n.left, n.right
			top += 2
			continue
		}
		for _, e := range s.fr.edges[n.lo:n.hi] {
			if rayCrosses(s.pts[e], s.pts[e+1], p) {
				in = !in
			}
		}
	}
	return in
}

// Outline returns the shape as an outline, outer rings counter-clockwise. Which ring is a hole follows from the outline
// the shape was made from.
func (s *Shape) Outline() orb.MultiPolygon {
	var mp orb.MultiPolygon
	next := 0
	for _, e := range s.fr.ends {
		ring := append(orb.Ring(nil), s.pts[e[0]:e[1]+1]...)
		if next < len(s.fr.polys) && int(s.fr.polys[next]) == e[0] {
			mp = append(mp, orb.Polygon{})
			next++
		}
		mp[len(mp)-1] = append(mp[len(mp)-1], ring)
	}
	return Orient(mp)
}
