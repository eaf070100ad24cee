package recognise

import (
	"math"

	"openwork/geometry"
)

// reflection is what one mirroring matrix of a group gives: whether some of its lines are mirrors and some are glides,
// and the shortest lattice vectors along and across them, in cell coordinates.
type reflection struct {
	mirrors, glides bool
	along, across   [2]int
}

// name returns the short symbol of the group, by the highest order of its rotations and what its reflections are, as in
// Schattschneider's recognition table (Amer. Math. Monthly 85, 1978).
func (g group) name() string {
	turn := 1
	var all []reflection
	for i, w := range g.ops {
		if w.det() > 0 {
			turn = max(turn, orderOf(w))
		} else {
			all = append(all, g.reflection(i))
		}
	}
	if len(all) == 0 {
		return map[int]string{1: "p1", 2: "p2", 3: "p3", 4: "p4", 6: "p6"}[turn]
	}
	mirrors, mixed := 0, 0 // reflections with mirrors, and those with both
	for _, r := range all {
		if r.mirrors {
			mirrors++
			if r.glides {
				mixed++
			}
		}
	}

	switch {
	case turn == 1 && mixed > 0:
		return "cm"
	case turn == 1 && mirrors > 0:
		return "pm"
	case turn == 1:
		return "pg"
	case turn == 2 && mixed > 0:
		return "c2mm"
	case turn == 2:
		return [3]string{"p2gg", "p2mg", "p2mm"}[min(mirrors, 2)]
	case turn == 4 && mirrors == len(all):
		return "p4mm"
	case turn == 4:
		return "p4gm"
	case turn == 6:
		return "p6mm"
	case g.length(all[0].along) < g.length(all[0].across):
		// Mirrors along the shortest lattice vectors pass between the points of order 3 that are not lattice points.
		return "p31m"
	}
	return "p3m1"
}

// orderOf returns the order of a rotation matrix, by its trace 2·cos(angle).
func orderOf(w matrix) int { return map[int]int{2: 1, -2: 2, -1: 3, 0: 4, 1: 6}[w.trace()] }

// reflection describes operation i, whose matrix mirrors.
func (g group) reflection(i int) reflection {
	w := g.ops[i]
	r := reflection{along: primitive(unit.plus(w)), across: primitive(unit.minus(w))}
	for _, s := range g.lines(i) {
		if s.glide {
			r.glides = true
		} else {
			r.mirrors = true
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
