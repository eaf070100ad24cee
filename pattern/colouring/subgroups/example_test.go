package subgroups_test

import (
	"fmt"

	"openwork/pattern/colouring/subgroups"
	"openwork/pattern/symmetry"
)

// The counterchanges of a field with mirrors in one direction: five kinds.
func ExampleOf() {
	g, err := symmetry.Find("pm")
	if err != nil {
		fmt.Println(err)
		return
	}
	all, err := subgroups.Of(g, 2)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range all {
		fmt.Println(c.Class, c.Kept, "a", c.A, "b", c.B, "mirror", c.Ops[1])
	}
	// Output:
	// 0 cm a [1 0] b [1 0] mirror [0 1]
	// 0 cm a [1 0] b [1 0] mirror [1 0]
	// 1 pg a [0 1] b [1 0] mirror [1 0]
	// 2 pm a [0 1] b [1 0] mirror [0 1]
	// 3 pm a [1 0] b [0 1] mirror [0 1]
	// 3 pm a [1 0] b [0 1] mirror [1 0]
	// 4 p1 a [0 1] b [0 1] mirror [1 0]
}
