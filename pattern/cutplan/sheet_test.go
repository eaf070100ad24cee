package cutplan

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern/draft"
	"openwork/pattern/sheet/panel"
)

// elbow is a sheet of 300 × 200 mm without its upper right quarter, away from the origin, with one opening.
func elbow() Sheet {
	opening := geometry.NewShape(geometry.RectOutline(orb.Bound{Max: orb.Point{20, 10}}))
	s := PartOf(draft.Default())
	s.Title = "Elbow"
	s.Outline = orb.MultiPolygon{{{{50, 30}, {350, 30}, {350, 130}, {200, 130}, {200, 230}, {50, 230}, {50, 30}}}}
	s.Openings = []panel.Opening{{Shape: opening, Shift: orb.Point{100, 80}}}
	s.Field = orb.Bound{Min: orb.Point{70, 50}, Max: orb.Point{330, 210}}
	s.Holes = []orb.Point{{60, 220}, {340, 40}, {60, 40}}
	return s
}

// A sheet that is no rectangle is cut along its outline, half the kerf outside it, and its furniture lies on it.
func TestSheetThatIsNoRectangle(t *testing.T) {
	s := elbow()
	j, err := New(s, Defaults(), curve.Cubic)
	if err != nil {
		t.Fatal(err)
	}
	// 300 × 200 − 150 × 100, and half the kerf along 1,000 mm; round corners take off or leave less than the kerf's
	// square.
	if want := 45000.0; math.Abs(j.Made.SheetArea-want) > 1e-6 {
		t.Errorf("sheet area %g, want %g", j.Made.SheetArea, want)
	}
	if size := j.Page.Max[0] - j.Page.Min[0]; math.Abs(size-300-s.Kerf) > 1e-9 || j.Made.Holes != 3 ||
		j.Made.Openings != 1 {
		t.Errorf("page %v, %+v", j.Page, j.Made)
	}
	rim := 0.0
	on := geometry.NewShape(geometry.Transform(s.Outline, geometry.Translate(-50, -30)))
	for _, c := range j.Contours {
		if c.Class == ClassSheet {
			rim += c.Path.Area()
			continue
		}
		for _, p := range c.Path.Under(c.Map).Flatten(0.1) {
			if !on.Contains(p) {
				t.Fatalf("%s at %v lies off the sheet", c.Class, p)
			}
		}
	}
	if want := 45000 + 1000*s.Kerf/2; math.Abs(rim-want) > s.Kerf*s.Kerf {
		t.Errorf("the outline encloses %g mm², want %g", rim, want)
	}
}

func TestSheetRefusals(t *testing.T) {
	s := elbow()
	s.Holes = append(s.Holes, orb.Point{330, 200}) // where the sheet is not
	j, err := New(s, Defaults(), curve.Cubic)
	if err != nil || j.Made.Holes != 3 || len(j.Made.Notes) == 0 {
		t.Errorf("a hole off the sheet: %v, %+v", err, j.Made)
	}
	s.Outline = append(s.Outline, s.Outline[0])
	if _, err := New(s, Defaults(), curve.Cubic); err == nil {
		t.Error("a sheet of two pieces is cut")
	}
	s = elbow()
	s.Stock = "PVC film"
	if _, err := New(s, Defaults(), curve.Cubic); err == nil {
		t.Error("PVC is cut")
	}
}
