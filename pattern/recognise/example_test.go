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
