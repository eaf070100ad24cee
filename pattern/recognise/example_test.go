package recognise_test

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/recognise"
)

// A square laid by p1 in a square cell has more symmetry than it was laid with.
func ExampleOf() {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p1", A: 60, B: 60, Gamma: 90}
	square := orb.Ring{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}, {-10, -10}}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Square", Outline: orb.MultiPolygon{{square}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}

	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	found, err := recognise.Of(l)
	fmt.Println(found.Chosen, found.Actual, err)
	// Output: p1 p4mm <nil>
}

// Squares in a chequerboard of two colours: the colours leave them half of their translations.
func ExampleColoured() {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p4", A: 60, B: 60, Gamma: 90}
	square := orb.Ring{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}, {-10, -10}}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Square", Outline: orb.MultiPolygon{{square}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}

	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	chequered := recognise.Colours{Cells: [2]int{2, 2}, Of: func(_, _, m, n int) int { return (m + n) % 2 }}
	found, err := recognise.Coloured(l, chequered)
	fmt.Println(found.Actual, found.Permutes, found.KeptOne, found.Kept, err)

	stripes := recognise.Colours{Cells: [2]int{3, 1}, Of: func(_, _, m, _ int) int { return m }}
	found, err = recognise.Coloured(l, stripes)
	fmt.Println(found.Actual, found.Permutes, found.KeptOne, found.Kept, err)
	// Output:
	// p4mm p4mm p4mm p4mm <nil>
	// p4mm p2mm p2mm pm <nil>
}
