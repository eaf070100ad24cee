package offset_test

import (
	"fmt"

	"openwork/geometry"
	"openwork/geometry/offset"

	"github.com/paulmach/orb"
)

// An outline grown by 2 mm: a square of 10 mm gains four strips and four quarters of a disc.
func ExampleOffset() {
	square := orb.MultiPolygon{{{{0, 0}, {10, 0}, {10, 10}, {0, 10}, {0, 0}}}}
	grown, err := offset.Offset(square, 2, 0.001)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f mm²\n", geometry.Area(grown)) // 100 + 4·20 + π·4
	// Output: 192.6 mm²
}
