// Package colouring holds perfect colourings of a field: every operation of the plane group permutes the colours. It
// says what a set of permutations must be to colour a field so, and which colour each copy then has. What permutations
// there are is found in the package subgroups below this one, which only the engine links.
package colouring

import "openwork/pattern/symmetry"

// MaxColours is how many colours a perfect colouring has at most.
const MaxColours = 12

// Perms gives the permutation of the colours for the generators of a plane group. A permutation of k colours is a list
// of the numbers 0 … k−1: colour i becomes list[i]. Products are as those of maps, the right one first.
type Perms struct {
	A   []int   `json:"a"`   // of the translation by one conventional cell along a
	B   []int   `json:"b"`   // of the translation along b
	Ops [][]int `json:"ops"` // of each operation of symmetry.Group.Ops, in the same order
}

// Colour returns the colour of the copy that operation op, moved by m cells along a and n along b, makes of a motif of
// the given colour: Aᵐ·Bⁿ·Ops[op] of it. The permutations must have passed Check, and op and colour be in range.
func (p Perms) Colour(op, m, n, colour int) int {
	return power(p.A, m, power(p.B, n, p.Ops[op][colour]))
}

// power returns what a permutation, done n times (undone −n times), makes of a colour.
func power(perm []int, n, colour int) int {
	if n == 0 {
		return colour
	}
	length := 1 // of the colour's cycle
	for c := perm[colour]; c != colour && length < len(perm); c = perm[c] {
		length++
	}
	for range ((n % length) + length) % length {
		colour = perm[colour]
	}
	return colour
}

// generators returns all permutations: A, B and Ops, with what each is called.
func (p Perms) generators() (perms [][]int, names []string) {
	return append([][]int{p.A, p.B}, p.Ops...), append([]string{"a", "b"}, opNames(len(p.Ops))...)
}

// shift returns the whole cells by which one operation lies off another with the same matrix.
func shift(from, to symmetry.Op) (m, n int) {
	return to.T[0].Plus(from.T[0].Times(-1)).Num, to.T[1].Plus(from.T[1].Times(-1)).Num
}
