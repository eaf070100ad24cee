package subgroups

import (
	"openwork/pattern/colouring"
	"openwork/pattern/symmetry"
)

// perms returns how the group permutes the k cosets x·h. Colour 0 is h itself, and the others are numbered as a, b and
// the operations, done again and again, first come to them.
func (c *crystal) perms(g symmetry.Group, h subgroup, k int) colouring.Perms {
	var by []element // a, b, the operations
	for _, v := range [][2]int{{1, 0}, {0, 1}} {
		step := g.Ops[0]
		step.T = [2]symmetry.Fraction{symmetry.Frac(v[0], 1), symmetry.Frac(v[1], 1)}
		_, t := c.primitive(step)
		by = append(by, element{0, t})
	}
	for _, op := range g.Ops {
		w, t := c.primitive(op)
		by = append(by, element{c.place(w), t})
	}

	cosets := make([]element, 1, k) // one operation of each
	inverses := make([]element, 1, k)
	lists := make([][]int, len(by))
	for i := range lists {
		lists[i] = make([]int, k)
	}
	for i := 0; i < len(cosets); i++ {
		for l, x := range by {
			y := c.after(x, cosets[i])
			j := 0
			for j < len(cosets) && !c.has(&h, c.after(inverses[j], y)) {
				j++
			}
			if j == len(cosets) {
				cosets, inverses = append(cosets, y), append(inverses, c.inverse(y))
			}
			lists[l][i] = j
		}
	}
	return colouring.Perms{A: lists[0], B: lists[1], Ops: lists[2:]}
}
