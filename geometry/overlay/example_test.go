package overlay_test

import (
	"fmt"

	"openwork/geometry"
	"openwork/geometry/overlay"

	"github.com/paulmach/orb"
)

var (
	left  = orb.MultiPolygon{{{{0, 0}, {6, 0}, {6, 6}, {0, 6}, {0, 0}}}}
	right = orb.MultiPolygon{{{{4, 3}, {10, 3}, {10, 9}, {4, 9}, {4, 3}}}}
)

func ExampleUnion() {
	both, err := overlay.Union(left, right)
	fmt.Println(len(both), "polygon,", geometry.Area(both), "mm²", err)
	// Output: 1 polygon, 66 mm² <nil>
}

func ExampleIntersection() {
	common, err := overlay.Intersection(left, right)
	fmt.Println(common.Bound(), err)
	// Output: {[4 3] [6 6]} <nil>
}

func ExampleDifference() {
	rest, err := overlay.Difference(left, right)
	fmt.Println(geometry.Area(rest), "mm²", err)
	// Output: 30 mm² <nil>
}
