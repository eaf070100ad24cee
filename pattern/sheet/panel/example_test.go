package panel_test

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
)

// Squares of 20 mm stand 22 mm apart, and the sheet asks for bridges of 3 mm.
func ExampleCheck() {
	d := draft.Default()
	d.Panel = draft.Panel{Width: 200, Height: 200}
	d.Field.Edge = draft.Whole
	d.Repeat = draft.Repeat{Group: "p1", A: 22, B: 40, Gamma: 90}
	square := orb.Ring{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}, {-10, -10}}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Square", Outline: orb.MultiPolygon{{square}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}

	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	report, err := panel.Check(l)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("holds:", report.Sound)
	fmt.Println(report.Of(sheet.Bridge, sheet.Fault))
	fmt.Printf("narrowest %.2f mm\n", *report.NarrowestBetween)
	// Output:
	// holds: false
	// 24 bridges too thin
	// narrowest 2.00 mm
}
