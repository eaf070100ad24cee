package symmetry_test

import (
	"fmt"

	"openwork/pattern/symmetry"
)

// Groups are found by their short symbol, and by the older one.
func ExampleFind() {
	g, err := symmetry.Find("p4g")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(g.Symbol, g.Orbifold, g.System, len(g.Ops))
	// Output: p4gm 4*2 square 8
}

// The cell must be one that the group allows.
func ExampleGroup_CheckCell() {
	g, _ := symmetry.Find("p6")
	fmt.Println(g.CheckCell(symmetry.Cell{A: 60, B: 60, Gamma: 90}))
	fmt.Println(g.CheckCell(g.FitCell(symmetry.Cell{A: 60, B: 60, Gamma: 90})))
	// Output:
	// gamma: p6 has a hexagonal cell, whose angle is 120 degrees, not 90
	// <nil>
}
