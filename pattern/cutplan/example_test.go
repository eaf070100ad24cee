package cutplan_test

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern/cutplan"
	"openwork/pattern/sheet/panel"
)

// A square opening in a square sheet: the beam runs half the kerf inside the opening and half of it outside the sheet.
func ExampleNew() {
	square := func(low, high float64) orb.MultiPolygon {
		return geometry.RectOutline(orb.Bound{Min: orb.Point{low, low}, Max: orb.Point{high, high}})
	}
	p, err := cutplan.New(cutplan.Sheet{
		Title:    "One square",
		Outline:  square(0, 100),
		Field:    orb.Bound{Min: orb.Point{20, 20}, Max: orb.Point{80, 80}},
		Openings: []panel.Opening{{Shape: geometry.NewShape(square(40, 60))}},
		Kerf:     0.2,
	}, cutplan.Options{}, curve.Cubic)
	if err != nil {
		fmt.Println(err)
		return
	}

	for _, c := range p.Contours {
		fmt.Printf("%s %s, %.1f mm\n", c.Layer, c.Class, c.Path.Length())
	}
	// Output:
	// cut opening, 79.2 mm
	// cut sheet, 400.8 mm
}
