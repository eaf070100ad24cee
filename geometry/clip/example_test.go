package clip_test

import (
	"fmt"

	"openwork/geometry"
	"openwork/geometry/clip"

	"github.com/paulmach/orb"
)

func ExampleToRect() {
	diamond := orb.MultiPolygon{{{{10, 0}, {0, 10}, {-10, 0}, {0, -10}, {10, 0}}}}
	half := clip.ToRect(diamond, orb.Bound{Min: orb.Point{0, -20}, Max: orb.Point{20, 20}})
	fmt.Println(geometry.Area(half), "of", geometry.Area(diamond), "mm²")
	// Output: 100 of 200 mm²
}
