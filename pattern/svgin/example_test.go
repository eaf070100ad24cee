package svgin_test

import (
	"fmt"

	"openwork/geometry"
	"openwork/pattern/outline"
	"openwork/pattern/svgin"
)

func ExampleRead() {
	drawing := `<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="20mm" viewBox="0 0 40 20">
		<rect x="5" y="5" width="10" height="10"/>
		<path fill="none" stroke="black" stroke-width="2" d="M 25 10 h 10"/>
	</svg>`
	r, err := svgin.Read([]byte(drawing), "leaf.svg", outline.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.WidthMM, "×", r.HeightMM, "mm")
	for _, piece := range r.Pieces {
		fmt.Printf("%.2f mm² in %v\n", geometry.Area(piece.Outline), piece.Outline.Bound())
	}
	// Output:
	// 40 × 20 mm
	// 100.00 mm² in {[5 5] [15 15]}
	// 20.00 mm² in {[25 9] [35 11]}
}
