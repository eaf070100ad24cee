package symmetry

// Lines says what the lines of one mirroring matrix of a plane group are.
type Lines struct {
	Mirrors, Glides bool // some are mirrors; some are glides that are no mirrors
	// Short: the lattice's shortest vector along them is shorter than its shortest across. It matters where there are
	// turns by a third and none by a sixth: mirrors then pass between the points of order 3 that are no lattice points.
	Short bool
}

// SymbolOf returns the short symbol of the plane group with turns of the order given at most, and lines of each of its
// mirroring matrices: D. Schattschneider's table (American Mathematical Monthly 85, 1978).
func SymbolOf(turn int, all []Lines) string {
	if len(all) == 0 {
		return map[int]string{1: "p1", 2: "p2", 3: "p3", 4: "p4", 6: "p6"}[turn]
	}

	mirrors, both := 0, false // how many have mirrors; whether one has glides too
	for _, l := range all {
		if l.Mirrors {
			mirrors++
		}
		both = both || l.Mirrors && l.Glides
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
		return [3]string{"p2gg", "p2mg", "p2mm"}[min(mirrors, 2)]
	case turn == 4 && mirrors == len(all):
		return "p4mm"
	case turn == 4:
		return "p4gm"
	case turn == 6:
		return "p6mm"
	case all[0].Short:
		return "p31m"
	}
	return "p3m1"
}

// TurnOrder returns the order of a rotation by the trace of its matrix, 2·cos(angle).
func TurnOrder(trace int) int { return map[int]int{2: 1, -2: 2, -1: 3, 0: 4, 1: 6}[trace] }
