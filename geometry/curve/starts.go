package curve

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// maxStarts is how many corners Starts returns at most: enough to choose the one on the way.
const maxStarts = 8

// Starts returns the pieces of a closed path at whose beginning a cut may start so that it shows least: those that
// begin at a corner, the sharpest first; of a path without corners the arc of least radius, or the first piece, which
// begins where Ring found the tightest bend.
func (p Path) Starts() []int {
	type corner struct {
		piece int
		turn  float64
	}
	n := len(p.Pieces)
	var sharpest [maxStarts + 1]corner // the last place is for the one that falls out
	held := 0
	for i, q := range p.Pieces {
		if !q.Corner {
			continue
		}
		next := (i + 1) % n
		u, v := q.leave(p.From(i)), p.Pieces[next].enter(q.To)
		c := corner{next, math.Abs(math.Atan2(geometry.Cross(u, v), geometry.Dot(u, v)))}
		k := held
		for ; k > 0 && sharpest[k-1].turn < c.turn; k-- {
			sharpest[k] = sharpest[k-1]
		}
		sharpest[k] = c
		held = min(held+1, maxStarts)
	}

	if held == 0 {
		return []int{p.tightestArc()}
	}
	out := make([]int, held)
	for i := range out {
		out[i] = sharpest[i].piece
	}
	return out
}

// tightestArc returns the arc of least radius, 0 when there is none.
func (p Path) tightestArc() int {
	best, most := 0, 0.0
	for i, q := range p.Pieces {
		if q.Kind != Arc {
			continue
		}
		if bend := math.Abs(q.Bulge) / (distance(p.From(i), q.To) * (1 + q.Bulge*q.Bulge)); bend > most {
			best, most = i, bend
		}
	}
	return best
}

// enter returns the direction in which a piece begins, not of unit length.
func (q Piece) enter(from orb.Point) orb.Point {
	switch q.Kind {
	case Cubic:
		for _, c := range []orb.Point{q.C1, q.C2} {
			if c != from {
				return geometry.Sub(c, from)
			}
		}
	case Arc:
		return turned(geometry.Sub(q.To, from), -2*math.Atan(q.Bulge))
	}
	return geometry.Sub(q.To, from)
}

// leave returns the direction in which a piece ends.
func (q Piece) leave(from orb.Point) orb.Point {
	switch q.Kind {
	case Cubic:
		for _, c := range []orb.Point{q.C2, q.C1} {
			if c != q.To {
				return geometry.Sub(q.To, c)
			}
		}
	case Arc:
		return turned(geometry.Sub(q.To, from), 2*math.Atan(q.Bulge))
	}
	return geometry.Sub(q.To, from)
}
