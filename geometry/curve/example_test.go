package curve_test

import (
	"fmt"
	"math"

	"openwork/geometry/curve"

	"github.com/paulmach/orb"
)

// A disc of 200 corners as circular arcs, within 0.02 mm.
func ExampleRing() {
	var disc orb.Ring
	for k := range 201 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k%200) / 200)
		disc = append(disc, orb.Point{20 * cos, 20 * sin})
	}
	path, deviation, ok := curve.Ring(disc, curve.Options{Kind: curve.Arc, Tolerance: curve.DefaultTolerance})
	fmt.Println(len(path.Pieces) <= 4, deviation <= curve.DefaultTolerance, ok)
	// Output: true true true
}
