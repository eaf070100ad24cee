package draft_test

import (
	"fmt"
	"strings"

	"openwork/pattern/draft"
)

// squares is a small draft: one square of 20 mm, four to a cell of p4.
const squares = `{
  "openwork": 1,
  "panel": {"width": 300, "height": 200},
  "repeat": {"group": "p4", "a": 60, "b": 60, "gamma": 90},
  "silhouettes": [{"id": "s", "outline": [[[[-10, -10], [10, -10], [10, 10], [-10, 10], [-10, -10]]]]}],
  "motifs": [{"id": "m", "silhouette": "s", "at": [15, 15]}]
}`

// A draft's file needs little; what it leaves out has the defaults of the schema.
func ExampleDecode() {
	d, err := draft.Decode(strings.NewReader(squares))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d.Repeat.Group, len(d.Motifs), d.Sheet.Stock, d.Field.Origin)
	// Output: p4 1 polyester film [150 100]
}

// An error names the place in the file.
func ExampleDecode_mistake() {
	_, err := draft.Decode(strings.NewReader(strings.Replace(squares, `"width": 300`, `"width": 3`, 1)))
	fmt.Println(err)
	// Output: panel.width: 3 is out of range; it may be from 10 to 20000 mm
}

func ExampleDraft_FieldMap() {
	d := draft.Default()
	d.Field.Turn = 90
	fmt.Println(d.FieldMap().Apply([2]float64{10, 0}))
	// Output: [300 460]
}
