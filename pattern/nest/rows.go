package nest

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// span is a stretch of a row, in mm from the left.
type span struct{ from, to float64 }

// form is a piece turned by quarters, and mirrored about the rising diagonal or not, cut into level rows from the lower
// left corner of its box on: what it covers anywhere in a row's height. Box and rows are grown by half the space all
// round.
type form struct {
	wide, high float64
	rows       [][]span
}

// newForm returns a piece turned by quarters, then mirrored, in rows of a height; a space and a height in mm.
func newForm(q Piece, quarters int, mirrored bool, space, step float64) *form {
	rings, wide, high := q.turned(quarters)
	if mirrored {
		wide, high = high, wide
		for _, r := range rings {
			for i, v := range r {
				r[i] = orb.Point{v[1], v[0]}
			}
		}
	}
	f := &form{wide: wide + space, high: high + space}
	f.rows = rowsOf(rings, space/2, step, int(math.Ceil((f.high-slack)/step)))
	return f
}

// rowsOf returns what rings cover in each of n rows of a height, grown by so many mm, and moved by as many to the right
// and upward. Row k lies from k to k+1 heights; what only touches it from above or below is not in it.
func rowsOf(rings []orb.Ring, grown, step float64, n int) [][]span {
	rows := make([][]span, n)
	crossings := make([][]float64, n) // of the rings with the middle of each row
	for _, ring := range rings {
		for i, b := range ring[1:] {
			a, b := orb.Point{ring[i][0] + grown, ring[i][1] + grown}, orb.Point{b[0] + grown, b[1] + grown}
			first := max(0, int((math.Min(a[1], b[1])-grown)/step)-1)
			last := min(n-1, int((math.Max(a[1], b[1])+grown)/step)+1)
			for k := first; k <= last; k++ {
				low, up := float64(k)*step+slack, float64(k+1)*step-slack
				if s, ok := capsule(a, b, grown, low, up); ok {
					rows[k] = append(rows[k], s)
				}
				if middle := (low + up) / 2; (a[1] <= middle) != (b[1] <= middle) {
					crossings[k] = append(crossings[k], a[0]+(b[0]-a[0])*(middle-a[1])/(b[1]-a[1]))
				}
			}
		}
	}

	// Between two edges a row is either inside all through its height or nowhere.
	for k := range rows {
		slices.Sort(crossings[k])
		for i := 1; i < len(crossings[k]); i += 2 {
			rows[k] = append(rows[k], span{crossings[k][i-1], crossings[k][i]})
		}
		rows[k] = united(rows[k])
	}
	return rows
}

// capsule returns how far the points that lie within a radius of a segment reach to the left and right between two
// heights; false where none lies there.
func capsule(a, b orb.Point, radius, low, up float64) (span, bool) {
	s := span{math.Inf(1), math.Inf(-1)}
	for _, c := range []orb.Point{a, b} {
		if d := math.Max(0, math.Max(low-c[1], c[1]-up)); d <= radius {
			w := math.Sqrt(radius*radius - d*d)
			s.from, s.to = math.Min(s.from, c[0]-w), math.Max(s.to, c[0]+w)
		}
	}

	// The sides of the strip about the segment, which lie to the left and right of it.
	n := orb.Point{}
	if l := math.Hypot(b[0]-a[0], b[1]-a[1]); l > 0 {
		n = orb.Point{radius * (b[1] - a[1]) / l, radius * (a[0] - b[0]) / l}
	}
	for _, sign := range []float64{1, -1} {
		p, q := orb.Point{a[0] + sign*n[0], a[1] + sign*n[1]}, orb.Point{b[0] + sign*n[0], b[1] + sign*n[1]}
		if p[1] > q[1] {
			p, q = q, p
		}
		if q[1] < low || p[1] > up || p[1] == q[1] && radius > 0 {
			continue // the ends of a level one are those of the discs
		}
		for _, y := range []float64{math.Max(low, p[1]), math.Min(up, q[1])} {
			x := p[0]
			if q[1] > p[1] {
				x += (q[0] - p[0]) * (y - p[1]) / (q[1] - p[1])
			}
			s.from, s.to = math.Min(s.from, x), math.Max(s.to, x)
		}
	}
	return s, s.from <= s.to
}

// united returns spans in order, those that meet as one.
func united(spans []span) []span {
	slices.SortFunc(spans, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	out := spans[:0]
	for _, s := range spans {
		if n := len(out); n > 0 && s.from <= out[n-1].to+slack {
			out[n-1].to = math.Max(out[n-1].to, s.to)
			continue
		}
		out = append(out, s)
	}
	return slices.Clip(out)
}

// ground is a sheet of stock in rows: what is covered of each.
type ground struct {
	wide, high, step float64
	free             float64 // mm² that pieces do not cover
	rows             [][]span
	tried            map[*form]spot // before which a form has no place; what lies there never gets less
	work             *int           // spans compared
}

// spot is a place for a form's lower left corner: a row and how far to the right.
type spot struct {
	row int
	x   float64
}

func newGround(wide, high, step float64, work *int) *ground {
	return &ground{wide, high, step, wide * high, make([][]span, int(math.Ceil(high/step))+1), map[*form]spot{}, work}
}

// lowest returns the lowest, leftmost place that is free for a form, its lower left corner on a row's lower edge and in
// no row from limit on.
func (g *ground) lowest(f *form, limit int) (spot, bool) {
	at := g.tried[f]
	limit = min(limit, int(math.Floor((g.high-f.high+slack)/g.step))+1)
	widest := g.wide - f.wide + slack
	hint := 0 // row of the form that was in the way last
	for ; at.row < limit; at = (spot{at.row + 1, 0}) {
		hint = max(0, hint-1)
		if at.x, hint = g.leftmost(f, at, hint, widest); at.x <= widest {
			g.tried[f] = at
			return at, true
		}
	}
	g.tried[f] = at
	return at, false
}

// leftmost returns how far to the right from a place on a form is free in its row, more than widest where nowhere, and
// the form's row that was in the way last.
func (g *ground) leftmost(f *form, at spot, hint int, widest float64) (x float64, last int) {
	x = at.x
	n := len(f.rows)
	for k, free := hint%n, 0; free < n; k = (k + 1) % n {
		moved := g.past(f.rows[k], g.rows[at.row+k], x)
		free++
		if moved > x {
			if x, hint, free = moved, k, 1; x > widest {
				break
			}
		}
	}
	return x, hint
}

// past returns how far to the right a row of a form has to lie, from x on, to meet nothing in a row of the ground.
func (g *ground) past(row, covered []span, x float64) float64 {
	for again := true; again; {
		again = false
		for _, s := range row {
			i, _ := slices.BinarySearchFunc(covered, x+s.from+slack, func(c span, v float64) int {
				return cmp.Compare(c.to, v)
			})
			*g.work++
			for ; i < len(covered) && covered[i].from < x+s.to-slack; i++ {
				*g.work++
				if covered[i].to > x+s.from+slack {
					x, again = covered[i].to-s.from, len(row) > 1
				}
			}
		}
	}
	return x
}

// take covers what a form of an area in mm² covers at a place.
func (g *ground) take(f *form, at spot, area float64) {
	g.free -= area
	for k, row := range f.rows {
		covered := g.rows[at.row+k]
		for _, s := range row {
			covered = append(covered, span{s.from + at.x, s.to + at.x})
		}
		g.rows[at.row+k] = united(covered)
	}
}
