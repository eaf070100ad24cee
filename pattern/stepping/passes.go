package stepping

import "github.com/paulmach/orb"

// conflicts returns the moves, in steps along u and v, between places that must not be laid while one is wet:
// neighbours, and places where the sheet lying on one covers openings of the other.
func (sh *sheet) conflicts(boxes []orb.Bound) map[cell]bool {
	out := map[cell]bool{}
	for i := -1; i <= 1; i++ {
		for j := -1; j <= 1; j++ {
			if i != 0 || j != 0 {
				out[cell{i, j}] = true
			}
		}
	}
	step := lattice{sh.f.fine.turned(sh.frame).at(sh.steps.u), sh.f.fine.turned(sh.frame).at(sh.steps.v)}
	for _, b := range boxes {
		step.meeting(sh.rect, b, func(c cell) {
			if c != (cell{}) {
				out[c], out[c.times(-1)] = true, true
			}
		})
	}
	return out
}

// passesOf parts places, given in steps along u and v, so that no two of one pass conflict; it returns each place's
// pass from 0 on. The places of a pass are at first those of one coset of the sublattice of least index that holds no
// conflict, so that the order is a regular one; then a place goes to the earliest pass where it conflicts with nothing,
// which takes away passes that only few places at the edge need.
func passesOf(places []cell, conflict map[cell]bool) (of []int, ok bool) {
	s, ok := apart(conflict)
	if !ok {
		return nil, false
	}
	number := map[cell]int{}
	of = make([]int, len(places))
	at := make(map[cell]int, len(places))
	for i, c := range places {
		r := s.residue(c)
		if _, known := number[r]; !known {
			number[r] = len(number)
		}
		of[i] = number[r]
		at[c] = of[i]
	}

	for i, c := range places {
		busy := map[int]bool{}
		for d := range conflict {
			if p, there := at[c.plus(d)]; there {
				busy[p] = true
			}
		}
		for p := range of[i] {
			if !busy[p] {
				of[i], at[c] = p, p
				break
			}
		}
	}

	// Passes that are left empty are closed up.
	used := map[int]int{}
	for p := range len(number) {
		for _, q := range of {
			if q == p {
				used[p] = len(used)
				break
			}
		}
	}

	for i := range of {
		of[i] = used[of[i]]
	}
	return of, true
}

// apart returns the sublattice of least index without a conflict in it; of those the one whose triangular form comes
// first.
func apart(conflict map[cell]bool) (steps, bool) {
	for n := 1; n <= maxPasses; n++ {
		for a := 1; a <= n; a++ {
			if n%a != 0 {
				continue
			}
			for b := range n / a {
				s := steps{a: a, b: b, d: n / a}
				good := true
				for c := range conflict {
					if s.residue(c) == (cell{}) {
						good = false
						break
					}
				}
				if good {
					return s, true
				}
			}
		}
	}
	return steps{}, false
}
