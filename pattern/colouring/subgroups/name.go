package subgroups

import (
	"openwork/geometry"
	"openwork/pattern/symmetry"
)

// name returns the short symbol of a subgroup's plane group, by the highest order of its rotations and what its
// reflections are.
func (c *crystal) name(h subgroup) string {
	turn := 1
	var all []symmetry.Lines
	for p, w := range c.w {
		switch {
		case !h.contains(p):
		case w.det() > 0:
			turn = max(turn, symmetry.TurnOrder(w[0]+w[3]))
		default:
			all = append(all, c.lines(&h, p))
		}
	}
	return symmetry.SymbolOf(turn, all)
}

// lines says what the member p of a subgroup, whose matrix w mirrors, gives with all vectors l of the lattice. A line
// of x' = w·x + t + l glides by half of (1+w)·(t + l), and is a mirror where that is nothing. All (1+w)·l are the
// multiples of one vector d along the lines. Is d the shortest of the lattice there, then the lattice is rhombic for
// w, and mirrors and glides alternate; else half of d is the shortest, and all lines are of one kind.
func (c *crystal) lines(h *subgroup, p int) symmetry.Lines {
	along := alongOf(c.w[p])
	k := 0
	if along[0] == 0 {
		k = 1
	}
	// steps says how many times along a vector's (1+w)-multiple is.
	steps := func(v vector) int { return v.plus(c.w[p].of(v))[k] / along[k] }
	u, v := h.lattice.basis()
	d := geometry.GCD(steps(u), steps(v))
	rhombic := d%2 != 0 || !h.lattice.has(along.times(d/2))
	glide := steps(c.moved(p, h.shiftOf(p)).t)

	r := symmetry.Lines{Mirrors: glide%(ticks*d) == 0}
	r.Glides = rhombic || !r.Mirrors
	for q, w := range c.w {
		if h.contains(q) && w[0]+w[3] == -1 && w.det() == 1 { // a third of a turn
			e := along.times(d)
			f := w.of(e)
			// The vector along a line and that given a third of a turn span the lattice.
			r.Short = e[0]*f[1]-e[1]*f[0] == h.lattice.index() || f[0]*e[1]-f[1]*e[0] == h.lattice.index()
		}
	}
	return r
}

// alongOf returns the primitive vector along the line that a mirroring matrix keeps: a part of each column of 1 + w.
func alongOf(w matrix) vector {
	v := vector{1 + w[0], w[2]}
	if v == (vector{}) {
		v = vector{w[1], 1 + w[3]}
	}
	d := geometry.GCD(v[0], v[1])
	return vector{v[0] / d, v[1] / d}
}
