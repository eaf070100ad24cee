package pattern_test

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// tile is a draft of one square of 20 mm in a square cell.
func tile(group string, cell float64) draft.Draft {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: group, A: cell, B: cell, Gamma: 90}
	square := orb.Ring{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}, {-10, -10}}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Square", Outline: orb.MultiPolygon{{square}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{15, 15}, Scale: 1}}
	return d
}

// A command makes a new draft; the one it is given stays as it was.
func ExampleApply() {
	d := tile("p4", 60)
	next, err := pattern.Apply(d, pattern.Command{Name: "place", ID: "m", Values: map[string]float64{"x": 20}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d.Motifs[0].At, next.Motifs[0].At)
	// Output: [15 15] [20 15]
}

// A layout has one image of every motif for each operation of the group, and copies of them over the panel.
func ExampleNewLayout() {
	l, err := pattern.NewLayout(tile("p4", 60), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	copies, err := l.Copies()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(l.InCell(), "in a cell,", len(copies), "on the panel")
	// Output: 4 in a cell, 600 on the panel
}

// Every command is one step back.
func ExampleHistory_Do() {
	h := pattern.NewHistory(tile("p4", 60))
	if err := h.Do(pattern.Command{Name: "group", Text: "p4mm"}); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(h.Draft().Repeat.Group, "undo", h.UndoLabel())
	h.Undo()
	fmt.Println(h.Draft().Repeat.Group)
	// Output:
	// p4mm undo plane group
	// p4
}
