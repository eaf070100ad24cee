package colouring_test

import (
	"fmt"

	"openwork/pattern/colouring"
	"openwork/pattern/symmetry"
)

// A counterchange: half turns, and steps along a, exchange the two colours.
func ExampleCheck() {
	g, err := symmetry.Find("p2")
	if err != nil {
		fmt.Println(err)
		return
	}
	p := colouring.Perms{A: []int{1, 0}, B: []int{0, 1}, Ops: [][]int{{0, 1}, {1, 0}}}
	fmt.Println(colouring.Check(g, p, 2))
	fmt.Println(p.Colour(1, 0, 0, 0), p.Colour(1, 1, 0, 0), p.Colour(0, -3, 7, 0))

	p.Ops[1] = []int{0, 0}
	fmt.Println(colouring.Check(g, p, 2))
	// Output:
	// <nil>
	// 1 0 1
	// ops[1]: colours 0 and 1 both become 0; each colour must come from one
}
