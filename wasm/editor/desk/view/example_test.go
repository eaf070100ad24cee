package view_test

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/wasm/editor/desk/view"
)

// A panel is fitted to a canvas; what lies in its middle is found under the middle of the canvas.
func ExampleView_Fit() {
	v := view.View{Width: 900, Height: 700}
	v.Fit(orb.Bound{Max: orb.Point{600, 900}})
	m := v.Middle()
	fmt.Println(v.Panel(m[0], m[1]), v.Whole)
	// Output: [300 450] true
}
