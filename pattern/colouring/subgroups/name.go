package subgroups

import "openwork/geometry"

// name returns the short symbol of a subgroup's plane group, by the highest order of its rotations and what its
// reflections are, as in D. Schattschneider's table (American Mathematical Monthly 85, 1978).
func (c *crystal) name(h subgroup) string {
	turn := 1
	var all []reflection
	for p, w := range c.w {
		switch {
		case !h.contains(p):
		case w.det() > 0:
			turn = max(turn, map[int]int{2: 1, -2: 2, -1: 3, 0: 4, 1: 6}[w[0]+w[3]])
		default:
			all = append(all, c.reflection(&h, p))
		}
	}
	if len(all) == 0 {
		return map[int]string{1: "p1", 2: "p2", 3: "p3", 4: "p4", 6: "p6"}[turn]
	}

	mirrors, both := 0, false // how many have mirrors; whether one has glides too
	for _, r := range all {
		if r.mirrors {
			mirrors++
		}
		both = both || r.mirrors && r.glides
	}
	switch {
	case turn == 1 && both:
		return "cm"
	case turn == 1 && mirrors > 0:
		return "pm"
	case turn == 1:
		return "pg"
	case turn == 2 && both:
		return "c2mm"
	case turn == 2:
		return [3]string{"p2gg", "p2mg", "p2mm"}[mirrors]
	case turn == 4 && mirrors == len(all):
		return "p4mm"
	case turn == 4:
		return "p4gm"
	case turn == 6:
		return "p6mm"
	case all[0].short:
		return "p31m"
	}
	return "p3m1"
}

// reflection is what one mirroring matrix of a subgroup gives.
type reflection struct {
	mirrors, glides bool // some of its lines are mirrors; some are glides that are no mirrors
	short           bool // its shortest lattice vector and that given a third of a turn span the lattice
}

// reflection describes what the member p of a subgroup, whose matrix w mirrors, gives with all vectors l of the
// lattice. A line of x' = w·x + t + l glides by half of (1+w)·(t + l), and is a mirror where that is nothing. All
// (1+w)·l are the multiples of one vector d along the lines. Is d the shortest of the lattice there, then the lattice
// is rhombic for w, and mirrors and glides alternate; else half of d is the shortest, and all lines are of one kind.
func (c *crystal) reflection(h *subgroup, p int) reflection {
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

	r := reflection{mirrors: glide%(ticks*d) == 0}
	r.glides = rhombic || !r.mirrors
	for q, w := range c.w {
		if h.contains(q) && w[0]+w[3] == -1 && w.det() == 1 { // a third of a turn
			e := along.times(d)
			f := w.of(e)
			r.short = e[0]*f[1]-e[1]*f[0] == h.lattice.index() || f[0]*e[1]-f[1]*e[0] == h.lattice.index()
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
