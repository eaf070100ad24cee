package ties

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// line is a stretch of an opening's boundary on the panel.
type line struct {
	a, b orb.Point
	crop bool // it lies on the field's edge or on a room's line, where the panel alone ends the opening
}

// index is the boundary of all openings, in squares.
type index struct {
	lines  []line
	bound  orb.Bound
	cell   float64
	nx, ny int
	first  []int32 // of each square, where its lines begin in items
	items  []int32
	seen   []int32 // of each line, the query that has it already
	query  int32
}

// maxSquares bounds the squares of an index along one side.
const maxSquares = 400

// newIndex sorts the boundary of the scene's openings into squares about as wide as a tie.
func (sc *scene) newIndex() *index {
	x := &index{bound: sc.l.Draft.SheetBound()}
	field := sc.l.Draft.FieldBound()
	crops := sc.l.Draft.Field.Edge == draft.Crop
	for _, o := range sc.s.Openings {
		for _, r := range sc.ringsOf(o.Shape) {
			for k := 0; k+1 < len(r); k++ {
				a := orb.Point{r[k][0] + o.Shift[0], r[k][1] + o.Shift[1]}
				b := orb.Point{r[k+1][0] + o.Shift[0], r[k+1][1] + o.Shift[1]}
				x.lines = append(x.lines, line{a, b, crops && alongSide(field, a, b) || sc.alongRoom(a, b)})
				x.bound = x.bound.Extend(a)
			}
		}
	}

	w, h := x.bound.Max[0]-x.bound.Min[0], x.bound.Max[1]-x.bound.Min[1]
	x.cell = math.Max(sc.wide, math.Max(w, h)/maxSquares)
	x.nx, x.ny = int(w/x.cell)+1, int(h/x.cell)+1
	x.seen = make([]int32, len(x.lines))
	x.first = make([]int32, x.nx*x.ny+1)
	for pass := range 2 {
		for k, l := range x.lines {
			x.squares(l.a, l.b, func(q int) {
				if pass == 0 {
					x.first[q+1]++
					return
				}
				x.items[x.first[q]] = int32(k)
				x.first[q]++
			})
		}
		if pass == 0 {
			for q := range x.nx * x.ny {
				x.first[q+1] += x.first[q]
			}
			x.items = make([]int32, x.first[x.nx*x.ny])
		}
	}

	copy(x.first[1:], x.first[:x.nx*x.ny])
	x.first[0] = 0
	return x
}

// squares calls visit for the squares that the box of two points meets.
func (x *index) squares(a, b orb.Point, visit func(q int)) {
	to := func(v float64, k, n int) int {
		return min(n-1, max(0, int((v-x.bound.Min[k])/x.cell)))
	}
	for j := to(math.Min(a[1], b[1]), 1, x.ny); j <= to(math.Max(a[1], b[1]), 1, x.ny); j++ {
		for i := to(math.Min(a[0], b[0]), 0, x.nx); i <= to(math.Max(a[0], b[0]), 0, x.nx); i++ {
			visit(j*x.nx + i)
		}
	}
}

// begin starts a query; what it takes is taken once.
func (x *index) begin() { x.query++ }

// take appends the lines that may lie within half mm of the line through p in direction u, from s0 to s1 mm along it.
func (x *index) take(out []int32, p, u orb.Point, s0, s1, half float64) []int32 {
	steps := max(1, int(math.Ceil((s1-s0)/x.cell)))
	for k := range steps {
		lo, hi := s0+(s1-s0)*float64(k)/float64(steps), s0+(s1-s0)*float64(k+1)/float64(steps)
		a, b := at(p, u, lo), at(p, u, hi)
		low := orb.Point{math.Min(a[0], b[0]) - half, math.Min(a[1], b[1]) - half}
		high := orb.Point{math.Max(a[0], b[0]) + half, math.Max(a[1], b[1]) + half}
		x.squares(low, high, func(q int) {
			for _, i := range x.items[x.first[q]:x.first[q+1]] {
				if x.seen[i] != x.query {
					x.seen[i] = x.query
					out = append(out, i)
				}
			}
		})
	}
	return out
}

// alongRoom reports whether a stretch lies on the line of a subject's room.
func (sc *scene) alongRoom(a, b orb.Point) bool {
	for _, r := range sc.l.Rooms {
		if r.Bound.Pad(onEdge).Contains(a) && r.Shape.Nearer(a, onEdge) && r.Shape.Nearer(b, onEdge) &&
			r.Shape.Nearer(geometry.Midpoint(a, b), onEdge) {
			return true
		}
	}
	return false
}

// alongSide reports whether a stretch lies on a side of a rectangle.
func alongSide(r orb.Bound, a, b orb.Point) bool {
	for k := range a {
		for _, side := range [2]float64{r.Min[k], r.Max[k]} {
			if math.Abs(a[k]-side) < onEdge && math.Abs(b[k]-side) < onEdge {
				return true
			}
		}
	}
	return false
}
