package pen_test

import (
	"fmt"

	"openwork/geometry"
	"openwork/geometry/pen"

	"github.com/paulmach/orb"
)

// Four round points of a circle of 10 mm, closed: the curve through them is that circle, to the width of a hair.
func ExampleThrough() {
	var points []pen.Point
	for _, at := range []orb.Point{{10, 0}, {0, 10}, {-10, 0}, {0, -10}} {
		points = append(points, pen.Point{At: at, Round: true})
	}
	ring := pen.Ring{Nodes: pen.Through(points, true)}
	fmt.Printf("%.0f mm²\n", geometry.RingArea(ring.Polygon()))
	// Output: 314 mm²
}
