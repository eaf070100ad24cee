package simplify_test

import (
	"fmt"
	"math"

	"openwork/geometry"
	"openwork/geometry/simplify"

	"github.com/paulmach/orb"
)

// A disc of a thousand points, drawn within 0.05 mm: the area stays, though there are few points left.
func ExampleOutline() {
	var disc orb.Ring
	for k := range 1001 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k%1000) / 1000)
		disc = append(disc, orb.Point{10 * cos, 10 * sin})
	}
	few, err := simplify.Outline(orb.MultiPolygon{{disc}}, simplify.Options{Tolerance: 0.05})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(geometry.Points(few) < 40, math.Abs(geometry.Area(few)-100*math.Pi) < 0.5)
	// Output: true true
}
