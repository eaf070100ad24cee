package geometry

import (
	"math"

	"github.com/paulmach/orb"
)

const (
	// sharpTurn in radians: where the boundary turns by more, the corner is looked at by itself; turns that are gentler
	// are an allowance of the edge before them.
	sharpTurn = 0.15

	// facingSlack in radians covers rounding where directions are compared.
	facingSlack = 1e-6
)

// Facing returns boxes round all places where the region's boundary faces itself across less than width mm: of the
// shape itself when inside is true, else of the plane round it. Boxes nearer to each other than apart mm come as one.
// Where there is none nothing of the region is narrower than width but for crumbs in corners.
//
// The reason: let r be half the width. A piece of the region that no disc of radius r reaches, and that joins two parts
// of what discs reach or juts out from one by more than r, holds the centre of a disc of a radius below r that touches
// the boundary at two points seen from the centre 120 degrees or more apart. For along a medial line of the region (H.
// Blum, 1967) whose touching points are less far apart the radius of the touching disc falls by more than half of the
// way gone, so that the line ends before it has gone 2r from where the radius is r, and what the discs on it cover ends
// within r of the disc there; and where two parts are joined, the radius has a minimum between them, with touching
// points opposite each other. For the same reason such a piece touches a box, and reaches no further than 3r from it.
//
// The answer is on the safe side: a box may be there although nothing is narrow. Outer rings must run counter-clockwise
// and holes clockwise. The time grows with the number of pairs of edges nearer to each other than width.
func (s *Shape) Facing(width float64, inside bool, apart float64) []orb.Bound {
	f := facing{s: s, width: width, apart: apart}
	f.prepare(inside)
	if !s.Empty() {
		f.pairs(0, 0)
	}
	for i := range f.corners {
		c := &f.corners[i]
		f.fromCorner(c)
		for j := i + 1; j < len(f.corners); j++ {
			if d := &f.corners[j]; f.cornerCorner(c, d) {
				f.take(c.p, d.p, d.p)
			}
		}
	}
	return f.boxes
}

// boxHolds reports whether all of b lies in a.
func boxHolds(a, b orb.Bound) bool { return a.Contains(b.Min) && a.Contains(b.Max) }

// sideways is an edge from p to q; u points into the region at right angles, give or take turn radians at its end.
type sideways struct {
	p, q, u      orb.Point
	length, turn float64
}

// corner is a point where the boundary turns sharply away from the region: into it lead all directions within half
// radians of u.
type corner struct {
	p, u orb.Point
	half float64
}

type facing struct {
	s       *Shape
	width   float64
	sides   []sideways
	at      []int32 // of each of the shape's points: the side that begins there, −1 for none
	corners []corner
	apart   float64
	boxes   []orb.Bound
}

func (f *facing) prepare(inside bool) {
	f.sides = make([]sideways, 0, len(f.s.fr.edges))
	f.at = make([]int32, len(f.s.pts))
	for k := range f.at {
		f.at[k] = -1
	}
	into := 1.0 // the region lies to the left of its edges, the plane round it to the right
	if !inside {
		into = -1
	}

	for _, ends := range f.s.fr.ends {
		ring := f.s.pts[ends[0] : ends[1]+1]
		first := len(f.sides)
		for k := range ring[1:] {
			d := Sub(ring[k+1], ring[k])
			n := norm(d)
			if n == 0 {
				continue
			}
			f.at[ends[0]+k] = int32(len(f.sides))
			f.sides = append(f.sides, sideways{p: ring[k], q: ring[k+1],
				u: orb.Point{-d[1] / n * into, d[0] / n * into}, length: n})
		}
		own := f.sides[first:]
		for k := range own {
			a, b := &own[k], &own[(k+1)%len(own)]
			turn := math.Atan2(a.u[0]*b.u[1]-a.u[1]*b.u[0], a.u[0]*b.u[0]+a.u[1]*b.u[1])
			switch {
			case turn*into > 0 && turn*into < math.Pi-facingSlack: // a pocket: nothing touches at its corner
			case math.Abs(turn) < sharpTurn:
				a.turn = math.Abs(turn) + facingSlack
			default:
				mid := orb.Point{a.u[0] + b.u[0], a.u[1] + b.u[1]}
				if n := norm(mid); n > 1e-9 {
					mid = orb.Point{mid[0] / n, mid[1] / n}
				} else { // back on itself: straight on
					mid = orb.Point{a.u[1] * into, -a.u[0] * into}
				}
				f.corners = append(f.corners, corner{a.q, mid, math.Abs(turn)/2 + facingSlack})
			}
		}
	}
}

// pairs takes the edges of two nodes of the shape's tree that face each other, no deeper than the sum of their depths.
func (f *facing) pairs(k, l int32) {
	if f.s.boxes[k].gap2(f.s.boxes[l]) >= f.width*f.width {
		return
	}
	one, two := f.s.fr.nodes[k], f.s.fr.nodes[l]
	switch {
	case k == l && one.left != 0:
		f.pairs(one.left, one.left)
		f.pairs(one.left, one.right)
		f.pairs(one.right, one.right)
	case one.left == 0 && two.left == 0:
		f.leaves(one, two)
	case dividesFirst(one, two):
		f.pairs(one.left, l)
		f.pairs(one.right, l)
	default:
		f.pairs(k, two.left)
		f.pairs(k, two.right)
	}
}

// leaves is pairs for two leaves.
func (f *facing) leaves(one, two node) {
	for e := one.lo; e < one.hi; e++ {
		i := f.at[f.s.fr.edges[e]]
		if i < 0 {
			continue
		}
		a := &f.sides[i]
		for g := max(two.lo, e+1); g < two.hi; g++ {
			j := f.at[f.s.fr.edges[g]]
			if j < 0 {
				continue
			}
			b := &f.sides[j]
			if a.u[0]*b.u[0]+a.u[1]*b.u[1] <= -0.5+a.turn+b.turn+facingSlack && f.edges(a, b) {
				f.take(a.p, a.q, b.p)
				f.take(a.q, b.p, b.q)
			}
		}
	}
}

// fromCorner takes the edges that face a corner.
func (f *facing) fromCorner(c *corner) {
	at := box{c.p[0], c.p[1], c.p[0], c.p[1]}
	stack := [64]int32{}
	top := 1
	for top > 0 {
		top--
		k := stack[top]
		if f.s.boxes[k].gap2(at) >= f.width*f.width {
			continue
		}
		n := f.s.fr.nodes[k]
		if n.left != 0 {
			stack[top], stack[top+1] = n.right, n.left
			top += 2
			continue
		}
		for _, e := range f.s.fr.edges[n.lo:n.hi] {
			if j := f.at[e]; j >= 0 && f.cornerEdge(c, &f.sides[j]) {
				f.take(c.p, f.sides[j].p, f.sides[j].q)
			}
		}
	}
}

// take adds a box round three points, and joins it with those near it.
func (f *facing) take(a, b, c orb.Point) {
	box := orb.Bound{Min: a, Max: a}.Extend(b).Extend(c)
	for _, o := range f.boxes {
		if boxHolds(o, box) {
			return
		}
	}
	kept := f.boxes[:0]
	for _, b := range f.boxes {
		if box.Pad(f.apart).Intersects(b) {
			box = box.Union(b)
		} else {
			kept = append(kept, b)
		}
	}
	f.boxes = append(kept, box)
}

// edges reports whether two edges face each other nearer than the width. Their directions already do.
func (f *facing) edges(a, b *sideways) bool {
	c := Sub(b.p, a.p)
	far := f.width + a.length + b.length
	if Dot(c, c) >= far*far || !ahead(a, b, far) || !ahead(b, a, far) {
		return false
	}
	_, _, d2 := segmentsNear(a.p, a.q, b.p, b.q)
	return d2 < f.width*f.width
}

// ahead reports whether some of b, no further than far, lies on the region's side of a.
func ahead(a, b *sideways, far float64) bool {
	return max(Dot(Sub(b.p, a.p), a.u), Dot(Sub(b.q, a.p), a.u)) > -far*a.turn-facingSlack
}

// cornerEdge reports whether an edge faces a corner nearer than the width. The touching point on the edge lies no more
// than 30 degrees aside from the foot of the corner on it, and the way to it no more than 30 degrees beside a direction
// that leads into the region.
func (f *facing) cornerEdge(c *corner, b *sideways) bool {
	if c.p == b.p || c.p == b.q {
		return false
	}
	height := Dot(Sub(c.p, b.p), b.u)
	along, length := Sub(b.q, b.p), b.length
	far := length + norm(Sub(c.p, b.p))
	if height <= -far*b.turn || height >= f.width {
		return false
	}
	along = orb.Point{along[0] / length, along[1] / length}
	foot := Dot(Sub(c.p, b.p), along)
	room := max(height, 0)*math.Tan(math.Pi/6+min(b.turn, 1)) + far*b.turn + facingSlack
	low, high := max(0, foot-room), min(length, foot+room)
	if low > high {
		return false
	}
	at := func(t float64) orb.Point {
		return Sub(orb.Point{b.p[0] + t*along[0], b.p[1] + t*along[1]}, c.p)
	}
	d, e := at(low), at(high)
	if near := at(min(max(foot, low), high)); norm(near) >= f.width {
		return false
	}
	spread := angleBetween(d, e)
	if angleBetween(c.u, d) > c.half+spread+math.Pi/6+b.turn+facingSlack {
		return false
	}
	return !f.filled(c, b, at((low+high)/2), height, (high-low)/2)
}

// filled reports whether every disc that touches a corner and an edge is cut by the boundary elsewhere, so that none of
// them lies in the region. way leads from the corner to the middle of the stretch of the edge that is asked about, half
// of which is half mm long. When the touching point moves by t along the edge the radius changes by no more than 0.6 t,
// and the centre moves by no more than 1.2 t.
func (f *facing) filled(c *corner, b *sideways, way orb.Point, height, half float64) bool {
	if height < half {
		return false
	}
	r := Dot(way, way) / (2 * height)
	spare := r - 2*half - 4*r*b.turn
	if spare <= 0 {
		return false
	}
	m := orb.Point{c.p[0] + way[0] + r*b.u[0], c.p[1] + way[1] + r*b.u[1]}
	return f.s.DistanceTo(m, spare).Found
}

// cornerCorner reports whether two corners face each other nearer than the width.
func (f *facing) cornerCorner(c, d *corner) bool {
	way := Sub(d.p, c.p)
	if n := norm(way); n == 0 || n >= f.width {
		return false
	}
	back := orb.Point{-way[0], -way[1]}
	return angleBetween(c.u, way) <= c.half+math.Pi/6+facingSlack &&
		angleBetween(d.u, back) <= d.half+math.Pi/6+facingSlack
}

func angleBetween(p, q orb.Point) float64 {
	return math.Abs(math.Atan2(p[0]*q[1]-p[1]*q[0], Dot(p, q)))
}
