package panel

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/sheet"
)

// Outlines whose rings touch at corners get a verdict that can be written down.
func TestTouchingRingsGetAVerdict(t *testing.T) {
	raw, err := os.ReadFile("../../../geometry/residue/testdata/touching.json")
	if err != nil {
		t.Fatal(err)
	}
	var cases []struct {
		Name    string
		Width   float64
		Outline orb.MultiPolygon
	}
	if err := json.Unmarshal(raw, &cases); err != nil || len(cases) < 4 {
		t.Fatalf("%d outlines: %v", len(cases), err)
	}
	for _, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			r := checked(t, one(geometry.Orient(c.Outline), 3, c.Width))
			if _, err := json.Marshal(r); err != nil {
				t.Error(err)
			}
			if n, _ := r.Count(sheet.Fault); n == 0 && len(c.Outline[0]) > 1 {
				t.Error("no fault, and there are islands")
			}
			if n := r.Of(sheet.Unclear, sheet.Fault).Count; n > 0 {
				t.Errorf("%d places are unclear", n)
			}
		})
	}
}

// Where the arithmetic fails the place is told as a fault, and the rest of the verdict stands. No valid outline is
// known for which it does; rings that cross are not valid, and their layout is made without asking.
func TestUnclearPlaceIsAFault(t *testing.T) {
	crossing := orb.MultiPolygon{{orb.Ring{{0, 0}, {10, 0}, {10, 10}, {5.3, 9}, {5, 13}, {2, 5}, {5, -3}, {14, 5},
		{6, 9}, {0, 10}, {0, 0}}}}
	d := one(crossing, 3, 1)
	r := checked(t, d)
	n := r.Of(sheet.Unclear, sheet.Fault).Count
	if n != r.Counts.Copies || n == 0 || r.Sound {
		t.Fatalf("%d unclear places on %d copies, sound %v", n, r.Counts.Copies, r.Sound)
	}
	for _, p := range r.Problems {
		if p.Kind == sheet.Unclear && (p.Text == "" || p.Between == nil || !d.PanelBound().Contains(p.At)) {
			t.Errorf("%+v", p)
		}
	}
	if r.OpenArea == 0 || r.SheetArea == 0 {
		t.Error("the rest of the verdict is missing")
	}
}
