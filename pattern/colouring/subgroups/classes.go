// Package subgroups finds all perfect colourings of a plane group by k colours.
//
// The operations that keep one colour are a subgroup of index k, and the group permutes the colours as it permutes that
// subgroup's cosets; so colourings are subgroups, told apart up to conjugation, which only names the colours anew. A
// subgroup is a sublattice of the translations, some of the point group, and for each of these a translation modulo the
// sublattice (search.go). Whole numbers decide everything.
//
// Two colourings are of one kind when an affine map carries the group to itself and the one subgroup to the other, as
// in T. W. Wieting, "The Mathematical Theory of Chromatic Plane Ornaments", Marcel Dekker 1982 (normaliser.go).
package subgroups

import (
	"cmp"
	"fmt"
	"slices"

	"openwork/pattern/colouring"
	"openwork/pattern/symmetry"
)

// Class is a class of conjugate subgroups of a plane group, as the perfect colouring that it gives.
type Class struct {
	Kept       string `json:"kept"`       // short symbol of the plane group that keeps a colour: the subgroup's own
	Class      int    `json:"class"`      // from 0; equal for those equal under an affine map that keeps the group
	Conjugates int    `json:"conjugates"` // subgroups in the class
	colouring.Perms
}

// Of returns the classes of subgroups of index k of one of the seventeen groups, in an order that is always the same:
// by Class, and those that keep more of the point group first. Colour 0 is the one that the class's first subgroup
// keeps. It is an error when k is not from 1 to colouring.MaxColours.
func Of(g symmetry.Group, k int) ([]Class, error) {
	if k < 1 || k > colouring.MaxColours {
		return nil, fmt.Errorf("a perfect colouring has from 1 to %d colours, not %d", colouring.MaxColours, k)
	}
	c := newCrystal(g)
	all := c.subgroups(k)
	place := make(map[subgroup]int, len(all))
	for i, h := range all {
		place[h] = i
	}
	conjugate := orbits(all, place, c.inner())
	alike := orbits(all, place, c.normaliser())

	out := make([]Class, 0, len(all))
	firsts := make([]subgroup, 0, len(all)) // of each class
	row := map[int]int{}                    // of out, by the first conjugate
	for i, h := range all {
		if r, ok := row[conjugate[i]]; ok {
			out[r].Conjugates++
			continue
		}
		row[i] = len(out)
		out = append(out, Class{Kept: c.name(h), Class: alike[i], Conjugates: 1})
		firsts = append(firsts, h)
	}
	for i, h := range firsts {
		out[i].Perms = c.perms(g, h, k)
	}

	rank := classRanks(out, firsts)
	slices.SortStableFunc(out, func(a, b Class) int { return cmp.Compare(rank[a.Class], rank[b.Class]) })
	for i := range out {
		out[i].Class = rank[out[i].Class]
	}
	return out, nil
}

// classRanks numbers the classes under affine maps: more of the point group kept first, then the later in the Tables.
func classRanks(classes []Class, firsts []subgroup) map[int]int {
	type kind struct{ class, points, number int }
	var kinds []kind
	for i, c := range classes {
		k := kind{class: c.Class, points: firsts[i].order()}
		if g, err := symmetry.Find(c.Kept); err == nil { // always
			k.number = g.Number
		}
		if !slices.ContainsFunc(kinds, func(o kind) bool { return o.class == k.class }) {
			kinds = append(kinds, k)
		}
	}
	slices.SortStableFunc(kinds, func(a, b kind) int { return cmp.Or(b.points-a.points, b.number-a.number) })

	rank := map[int]int{}
	for i, k := range kinds {
		rank[k.class] = i
	}
	return rank
}
