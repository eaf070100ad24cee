package geometry_test

import (
	"fmt"
	"math"

	"openwork/geometry"

	"github.com/paulmach/orb"
)

// square is an upright square, counter-clockwise as outer rings run.
func square(x, y, side float64) orb.MultiPolygon {
	return geometry.RectOutline(orb.Bound{Min: orb.Point{x, y}, Max: orb.Point{x + side, y + side}})
}

func ExampleArea() {
	plate := square(0, 0, 10)
	plate[0] = append(plate[0], geometry.Reversed(square(4, 4, 2)[0][0])) // a hole
	fmt.Println(geometry.Area(plate), "mm²,", geometry.Length(plate), "mm of edge")
	// Output: 96 mm², 48 mm of edge
}

func ExampleContains() {
	fmt.Println(geometry.Contains(square(0, 0, 10), orb.Point{3, 3}),
		geometry.Contains(square(0, 0, 10), orb.Point{30, 3}))
	// Output: true false
}

func ExampleOverlapArea() {
	a := geometry.NewShape(square(0, 0, 10))
	fmt.Printf("%.1f mm²\n", geometry.OverlapArea(a, a, orb.Point{6, 7})) // with itself, moved
	// Output: 12.0 mm²
}

func ExampleDistance() {
	a := geometry.NewShape(square(0, 0, 10))
	near := geometry.Distance(a, a, orb.Point{13, 14}, math.Inf(1))
	fmt.Printf("%.1f mm, from %v to %v\n", near.D, near.P, near.Q)
	// Output: 5.0 mm, from [10 10] to [13 14]
}

func ExampleTransform() {
	quarter := geometry.TurnDegrees(90).Moved(20, 0)
	fmt.Println(geometry.SnapOutline(geometry.Transform(square(0, 0, 10), quarter)).Bound())
	// Output: {[10 0] [20 10]}
}

func ExampleSets() {
	sets := geometry.NewSets(5)
	sets.Join(0, 3)
	sets.Join(3, 4)
	fmt.Println(sets.Root(4) == sets.Root(0), sets.Root(1) == sets.Root(0))
	// Output: true false
}
