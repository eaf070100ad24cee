package say_test

import (
	"fmt"

	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/say"
)

// The same cell, spoken of in millimetres and in inches.
func ExampleWords_Fit() {
	d := draft.Default()
	d.Panel.Width, d.Panel.Height, d.Field.Margin = 600, 900, 0
	d.Repeat.A, d.Repeat.B = 200, 180

	fmt.Println(say.About(d, sheet.Unit{}).Fit(""))
	d.Repeat.B = 200
	fmt.Println(say.About(d, sheet.Unit{Inches: true}).Fit(""))
	// Output:
	// 3 across and 5 down fill the field exactly.
	// 3 across fill the width exactly; down there are 4 and 3.937 in left over.
}

func ExampleResized() {
	was := draft.Default().Repeat
	is := was
	is.A *= 1.1
	fmt.Println(say.Resized(was, is))
	// Output: The cell is 10 % wider.
}
