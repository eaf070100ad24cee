package colouring

import (
	"fmt"
	"slices"

	"openwork/pattern/symmetry"
)

// Check says why p is not a perfect colouring of the group's fields by k colours; nil when it is one: a homomorphism of
// the group onto a transitive group of permutations of the colours 0 … k−1. The error's text begins with the name of
// the member at fault ("a", "b", "ops", "ops[2]"), so that a reader can put the way to it before.
//
// The group is given by its two translations and its operations over the conventional cell, so that it is enough to
// hold the products of these: a with b, each operation with a and b, and each two operations.
func Check(g symmetry.Group, p Perms, k int) error {
	if k < 1 || k > MaxColours {
		return fmt.Errorf("ops: a colouring has from 1 to %d colours, not %d", MaxColours, k)
	}
	if len(p.Ops) != len(g.Ops) {
		return fmt.Errorf("ops: %s has %d operations, and each needs its permutation of the colours; %d are given",
			g.Symbol, len(g.Ops), len(p.Ops))
	}
	perms, names := p.generators()
	for i, perm := range perms {
		if err := checkPerm(perm, k); err != nil {
			return fmt.Errorf("%s: %w", names[i], err)
		}
	}

	for c, to := range p.Ops[0] {
		if c != to {
			return fmt.Errorf("ops[0]: the identity leaves every copy alone, so it must leave every colour alone; "+
				"colour %d becomes %d", c, to)
		}
	}
	if err := p.checkTranslations(g); err != nil {
		return err
	}
	if err := p.checkProducts(g); err != nil {
		return err
	}
	return checkReach(perms)
}

// checkPerm says why a list is not a permutation of k colours.
func checkPerm(perm []int, k int) error {
	if len(perm) != k {
		return fmt.Errorf("must list what each of the %d colours becomes; it lists %d", k, len(perm))
	}
	from := make([]int, k) // one more than the colour that becomes this one
	for c, to := range perm {
		if to < 0 || to >= k {
			return fmt.Errorf("colour %d becomes %d, and colours are from 0 to %d", c, to, k-1)
		}
		if from[to] > 0 {
			return fmt.Errorf("colours %d and %d both become %d; each colour must come from one", from[to]-1, c, to)
		}
		from[to] = c + 1
	}
	return nil
}

// checkTranslations holds a·b = b·a, and op·a = (the translation that op makes of a)·op, and so for b.
func (p Perms) checkTranslations(g symmetry.Group) error {
	for c := range p.A {
		if x, y := p.A[p.B[c]], p.B[p.A[c]]; x != y {
			return fmt.Errorf("b: the order of a and b must not matter; colour %d becomes %d by b and then a, but %d "+
				"by a and then b", c, x, y)
		}
	}
	for i, op := range g.Ops {
		for k, perm := range [2][]int{p.A, p.B} {
			for c, to := range perm {
				x, y := p.Ops[i][to], p.Colour(i, op.W[0][k], op.W[1][k], c)
				if x != y {
					return fmt.Errorf("ops[%d]: after %s it is itself moved by %d along a and %d along b in %s; "+
						"colour %d becomes %d by the one and %d by the other", i, [2]string{"a", "b"}[k], op.W[0][k],
						op.W[1][k], g.Symbol, c, x, y)
				}
			}
		}
	}
	return nil
}

// checkProducts holds ops[i]·ops[j] = aᵐ·bⁿ·ops[l] for the l, m, n that the group says.
func (p Perms) checkProducts(g symmetry.Group) error {
	for i, first := range g.Ops {
		for j, then := range g.Ops {
			product := then.After(first)
			l := g.Index(product)
			if l < 0 { // never, in a group
				return fmt.Errorf("ops[%d]: after operation %d it is no operation of %s", j, i, g.Symbol)
			}
			m, n := shift(g.Ops[l], product)
			for c, to := range p.Ops[i] {
				if x, y := p.Ops[j][to], p.Colour(l, m, n, c); x != y {
					return fmt.Errorf("ops[%d]: after operation %d it is operation %d moved by %d along a and %d "+
						"along b in %s; colour %d becomes %d by the one and %d by the other", j, i, l, m, n, g.Symbol,
						c, x, y)
				}
			}
		}
	}
	return nil
}

// checkReach says which colour never comes from colour 0.
func checkReach(perms [][]int) error {
	reached := []int{0}
	for i := 0; i < len(reached); i++ {
		for _, perm := range perms {
			if to := perm[reached[i]]; !slices.Contains(reached, to) {
				reached = append(reached, to)
			}
		}
	}
	for c := range perms[0] {
		if !slices.Contains(reached, c) {
			return fmt.Errorf("ops: no operation makes colour %d of colour 0; all colours must come from each other",
				c)
		}
	}
	return nil
}

// opNames returns "ops[0]", "ops[1]" and so on.
func opNames(n int) []string {
	names := make([]string, n)
	for i := range names {
		names[i] = fmt.Sprintf("ops[%d]", i)
	}
	return names
}
