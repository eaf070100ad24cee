package recognise

import (
	"math"

	"openwork/geometry"
	"openwork/pattern/symmetry"
)

// name returns the short symbol of the group, by the highest order of its rotations and what its reflections are.
func (g group) name() string {
	turn := 1
	var all []symmetry.Lines
	for i, w := range g.ops {
		if w.det() > 0 {
			turn = max(turn, orderOf(w))
		} else {
			all = append(all, g.linesOf(i))
		}
	}
	return symmetry.SymbolOf(turn, all)
}

// orderOf returns the order of a rotation matrix.
func orderOf(w matrix) int { return symmetry.TurnOrder(w.trace()) }

// linesOf says what the lines of operation i are, whose matrix mirrors.
func (g group) linesOf(i int) symmetry.Lines {
	w := g.ops[i]
	along, across := primitive(unit.plus(w)), primitive(unit.minus(w))
	r := symmetry.Lines{Short: g.length(along) < g.length(across)}
	for _, s := range g.lines(i) {
		if s.glide {
			r.Glides = true
		} else {
			r.Mirrors = true
		}
	}
	return r
}

// length returns the length in mm of a vector in cell coordinates.
func (g group) length(v [2]int) float64 {
	p := g.basis.at([2]float64{float64(v[0]), float64(v[1])})
	return math.Hypot(p[0], p[1])
}

// primitive returns the shortest whole vector along the columns of a matrix of rank one.
func primitive(m matrix) [2]int {
	v := [2]int{m[0], m[2]}
	if v == [2]int{} {
		v = [2]int{m[1], m[3]}
	}
	d := geometry.GCD(v[0], v[1])
	return [2]int{v[0] / d, v[1] / d}
}
