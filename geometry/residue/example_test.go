package residue_test

import (
	"fmt"

	"openwork/geometry/residue"

	"github.com/paulmach/orb"
)

// Two squares of 10 mm with a neck of 2 mm between them: where is the region narrower than 3 mm?
func ExampleOf() {
	region := orb.MultiPolygon{{{
		{0, 0}, {10, 0}, {10, 4}, {20, 4}, {20, 0}, {30, 0}, {30, 10}, {20, 10}, {20, 6}, {10, 6}, {10, 10}, {0, 10},
		{0, 0},
	}}}
	pieces, err := residue.Of(region, 3, 0.02)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range pieces {
		fmt.Printf("%.1f mm wide, joins two parts: %v\n", p.Width, p.Joins())
	}
	// Output: 2.0 mm wide, joins two parts: true
}
