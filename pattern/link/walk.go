package link

import (
	"math"

	"github.com/paulmach/orb"
)

// Predictors of where a ring's next point lies.
const (
	evenly   = iota // one step like the last one further
	changing        // the step changes as it did last
	straight        // somewhere along the last step's direction
	predictors
)

// steps codes a ring's n points in whole steps.
func (c *codec) steps(r *orb.Ring, n int, perMM float64) {
	pts := make([]step, n)
	predictor := evenly
	if c.writing {
		for i := range pts {
			v := (*r)[i]
			pts[i] = step{int64(math.Round(v[0] * perMM)), int64(math.Round(v[1] * perMM))}
		}
		predictor = c.cheapest(pts)
	}
	if predictor = c.tree(c.model.predictor[:], 2, predictor); predictor >= predictors {
		c.bad("its points are foretold in a way that is none")
		return
	}
	c.walk(pts, predictor)
	if c.writing || c.err != nil {
		return
	}
	for _, p := range pts {
		*r = append(*r, orb.Point{float64(p[0]) / perMM, float64(p[1]) / perMM})
	}
}

// cheapest tries all predictors and returns the one that takes the fewest bytes. Rings of a few points are not worth
// it.
func (c *codec) cheapest(pts []step) int {
	const few = 8
	if len(pts) < few {
		return evenly
	}
	best, shortest := 0, math.MaxInt
	for predictor := range predictors {
		trial := *c
		trial.data = nil
		trial.walk(pts, predictor)
		if n := len(trial.data); n < shortest {
			best, shortest = predictor, n
		}
	}
	return best
}

// walk codes points one after the other.
func (c *codec) walk(pts []step, predictor int) {
	var at, last, before, miss step
	for i := range pts {
		s := step{pts[i][0] - at[0], pts[i][1] - at[1]}
		if predictor == straight {
			c.onward(&s, last, before, &miss)
		} else {
			want := last
			if predictor == changing {
				want = step{2*last[0] - before[0], 2*last[1] - before[1]}
			}
			c.beside(&s, want, &miss)
		}
		at[0], at[1] = at[0]+s[0], at[1]+s[1]
		if !c.writing {
			pts[i] = at
		}
		if abs(at[0]) > reach || abs(at[1]) > reach {
			c.bad("an outline leaves the plane of a draft")
		}
		if c.err != nil {
			return
		}
		last, before = s, last
	}
}

// beside codes a step by how far it misses the one expected, first in x, then in y.
func (c *codec) beside(s *step, want step, miss *step) {
	was := *miss
	near := abs(was[0]) + abs(was[1])
	miss[0] = s[0] - want[0]
	c.residue(&c.model.along, near, 0, was[0], &miss[0])
	miss[1] = s[1] - want[1]
	c.residue(&c.model.across, near/2+abs(miss[0]), 1, was[1], &miss[1])
	s[0], s[1] = want[0]+miss[0], want[1]+miss[1]
}

// onward codes a step that goes on about as the last one did: first how far along the axis that the last one was longer
// in, then how far that misses the last one's line. Outlines often bend the same way twice, so the miss is counted
// positive to the side that they last bent to.
func (c *codec) onward(s *step, last, before step, miss *step) {
	a := 0
	if abs(last[1]) > abs(last[0]) {
		a = 1
	}
	b := 1 - a
	predictor, bend := int64(1), int64(1)
	if last[a] < 0 {
		predictor = -1
	}
	if turn := last[0]*before[1] - last[1]*before[0]; (turn > 0) == (a == 0) == (predictor > 0) {
		bend = -1
	}
	was := *miss
	miss[0] = s[a] * predictor
	c.residue(&c.model.along, abs(was[0]), 0, was[0], &miss[0])
	s[a] = miss[0] * predictor
	want := int64(0)

	// The product of longer steps would overflow: they are not predicted.
	const long = 1 << 31
	if last[a] != 0 && abs(s[a]) < long && abs(last[b]) < long {
		want = divide(s[a]*last[b], last[a])
	}
	miss[1] = (s[b] - want) * bend
	c.residue(&c.model.across, abs(miss[0]), 1, was[1], &miss[1])
	s[b] = want + miss[1]*bend
}

// residue codes a whole number that is small more often than not, given how large another one near it was and the sign
// of the one before.
func (c *codec) residue(m *[12]residue, near int64, axis int, before int64, v *int64) {
	class := 0
	for ; near > 0 && class < len(m)-1; near >>= 1 {
		class++
	}
	size := uint64(abs(*v))
	c.size(m[class].bits[:], m[class].tops[:], &size, maxBits)
	negative := *v < 0
	if size > 0 {
		sign := 0
		if before > 0 {
			sign = 1
		} else if before < 0 {
			sign = 2
		}
		c.flag(&c.model.turns[axis][sign], &negative)
	}
	if *v = int64(size); negative {
		*v = -*v
	}
}

func abs(v int64) int64 {
	if v < 0 {
		return -v
	}
	return v
}

// divide returns a/b rounded to the nearest whole number, halves away from zero.
func divide(a, b int64) int64 {
	if b < 0 {
		a, b = -a, -b
	}
	if a < 0 {
		return -((-a + b/2) / b)
	}
	return (a + b/2) / b
}
