package contour_test

import (
	"fmt"

	"openwork/geometry/contour"

	"github.com/paulmach/orb"
)

// One high sample among low ones: the line at half its height is a diamond about it.
func ExampleWalk() {
	grid := contour.Grid[uint8]{Width: 3, Height: 3, Values: []uint8{
		0, 0, 0,
		0, 200, 0,
		0, 0, 0,
	}}
	err := contour.Walk(grid, 100, func(ring orb.Ring, area float64) bool {
		fmt.Println(len(ring)-1, "points,", area, "square units")
		return true
	})
	fmt.Println(err)
	// Output:
	// 4 points, 0.5 square units
	// <nil>
}
