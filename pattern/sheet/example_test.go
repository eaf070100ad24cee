package sheet_test

import (
	"fmt"

	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// Sentences are in the unit that a person reads.
func ExampleWords_Sentence() {
	p := sheet.Problem{Kind: sheet.Bridge, Severity: sheet.Fault, Measured: 2.4, Required: 3}
	for _, inches := range []bool{false, true} {
		w := sheet.Words{Unit: sheet.Unit{Inches: inches}, Draft: draft.Default()}
		fmt.Println(w.Sentence(p))
	}
	// Output:
	// Bridge of 2.4 mm, at least 3 needed.
	// Bridge of 0.094 in, at least 0.118 needed.
}

func ExampleTotal_String() {
	fmt.Println(sheet.Total{Kind: sheet.Island, Severity: sheet.Fault, Count: 3, AtLeast: true})
	// Output: at least 3 islands that would drop out
}
