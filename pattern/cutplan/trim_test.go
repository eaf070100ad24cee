package cutplan

import (
	"math"
	"strings"
	"testing"

	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
)

// A sheet that has the stock's own edge has no cut along it: what is cut is less by its outline, and of openings that
// run out over the edge their lines inside stay. A part is cut out all the same.
func TestOutlineIsNotCut(t *testing.T) {
	bleeding := plantest.Rings()
	bleeding.Field = draft.Field{Origin: bleeding.Field.Origin, Edge: draft.Crop}
	for _, c := range []struct {
		name    string
		d       draft.Draft
		notches bool
	}{{"openings inside", plantest.Rings(), false}, {"openings over the edge", bleeding, true}} {
		for _, trim := range []Trim{TrimMark, TrimNone} {
			t.Run(c.name+", "+string(trim), func(t *testing.T) {
				c.d.Sheet.Kerf = 0.2
				whole, _ := built(t, c.d, Options{StockEdge: true, Order: Shortest})
				p, _ := built(t, c.d, Options{Trim: trim, Order: Shortest})
				if (p.Made.Notches > 0) != c.notches || p.Made.Openings != whole.Made.Openings {
					t.Fatalf("%d openings over the edge", p.Made.Notches)
				}
				b := c.d.SheetBound()
				along, marked := 0.0, 0
				for _, k := range whole.Contours {
					along += edgeLength(k, b.Min, b.Max)
				}
				for _, k := range p.Contours {
					if k.Layer == Cut && edgeLength(k, b.Min, b.Max) > 0 {
						t.Errorf("a cut of %s runs along the stock's edge", k.Class)
					}
					if k.Layer == Mark && k.Class == ClassSheet {
						marked++
						if got := k.Path.Bound(); got != b {
							t.Errorf("the outline is marked at %v, the sheet is %v", got, b)
						}
					}
				}
				if got := whole.Made.CutLength - p.Made.CutLength; along < 100 || math.Abs(got-along) > 1e-6 {
					t.Errorf("%.4f mm are saved, %.4f mm lie along the edge", got, along)
				}
				if want := map[Trim]int{TrimMark: 1}[trim]; marked != want || p.Page != b {
					t.Errorf("%d outlines are marked, want %d; page %v, sheet %v", marked, want, p.Page, b)
				}
				if p.Made.Checksum == whole.Made.Checksum || !strings.Contains(strings.Join(p.FactLines(), "\n"),
					"Outline: not cut; it is the stock's own edge") {
					t.Errorf("facts %q", p.FactLines())
				}
			})
		}
	}
}

// edgeLength returns how much of a contour runs along the sides of a box, in mm.
func edgeLength(c Contour, low, high [2]float64) float64 {
	ring, sum := c.Path.Under(c.Map).Flatten(0.001), 0.0
	for i := 1; i < len(ring); i++ {
		p, q := ring[i-1], ring[i]
		for axis := range 2 {
			for _, side := range []float64{low[axis], high[axis]} {
				if math.Abs(p[axis]-side) < 1e-3 && math.Abs(q[axis]-side) < 1e-3 {
					sum += far(p, q)
				}
			}
		}
	}
	return sum
}

func TestAPartIsCutOut(t *testing.T) {
	_, l := built(t, plantest.Rings(), Options{})
	s, err := OfLayout(l)
	if err != nil {
		t.Fatal(err)
	}
	s.Part = true
	p, err := New(s, Options{Trim: TrimNone}, 0)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(ofClass(p, ClassSheet)); n != 1 ||
		!strings.Contains(strings.Join(p.Made.Notes, " "), "The outline is cut") {
		t.Errorf("%d outlines, notes %q", n, p.Made.Notes)
	}
}
