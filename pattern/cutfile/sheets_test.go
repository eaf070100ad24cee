package cutfile

import (
	"bytes"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/sheet/panel"
)

// elbow is a sheet of 300 × 200 mm without its upper right quarter, away from the origin, with one opening.
func elbow() Sheet {
	opening := geometry.NewShape(geometry.RectOutline(orb.Bound{Max: orb.Point{20, 10}}))
	return Sheet{Title: "Elbow", Outline: orb.MultiPolygon{{{{50, 30}, {350, 30}, {350, 130}, {200, 130}, {200, 230}, {50, 230}, {50, 30}}}},
		Openings: []panel.Opening{{Shape: opening, Shift: orb.Point{100, 80}}},
		Field:    orb.Bound{Min: orb.Point{70, 50}, Max: orb.Point{330, 210}},
		Holes:    []orb.Point{{60, 220}, {340, 40}, {60, 40}}}
}

// A sheet that is no rectangle is cut along its outline, half the kerf outside it, and its furniture lies on it.
func TestSheetThatIsNoRectangle(t *testing.T) {
	s := elbow()
	d := pattern.Default()
	j, err := BuildSheet(d, s, Defaults(), curve.Cubic)
	if err != nil {
		t.Fatal(err)
	}
	// 300 × 200 − 150 × 100, and half the kerf along 1,000 mm; round corners take off or leave less than the kerf's square.
	if want := 45000.0; math.Abs(j.Made.SheetArea-want) > 1e-6 {
		t.Errorf("sheet area %g, want %g", j.Made.SheetArea, want)
	}
	if size := j.Page.Max[0] - j.Page.Min[0]; math.Abs(size-300-d.Sheet.Kerf) > 1e-9 || j.Made.Holes != 3 || j.Made.Openings != 1 {
		t.Errorf("page %v, %+v", j.Page, j.Made)
	}
	rim := 0.0
	on := geometry.NewShape(geometry.Transform(s.Outline, geometry.Translate(-50, -30)))
	for _, c := range j.Contours {
		if c.Class == classSheet {
			rim += c.Path.Area()
			continue
		}
		for _, p := range c.Path.Under(c.Map).Flatten(0.1) {
			if !on.Contains(p) {
				t.Fatalf("%s at %v lies off the sheet", c.Class, p)
			}
		}
	}
	if want := 45000 + 1000*d.Sheet.Kerf/2; math.Abs(rim-want) > d.Sheet.Kerf*d.Sheet.Kerf {
		t.Errorf("the outline encloses %g mm², want %g", rim, want)
	}
	for _, f := range []Format{FormatSVG, FormatDXF, FormatPDF} {
		var b bytes.Buffer
		if _, err := WriteSheet(d, s, &b, f, Defaults()); err != nil || b.Len() == 0 {
			t.Errorf("%s: %v", f, err)
		}
	}
}

func TestSheetRefusals(t *testing.T) {
	s := elbow()
	s.Holes = append(s.Holes, orb.Point{330, 200}) // where the sheet is not
	j, err := BuildSheet(pattern.Default(), s, Defaults(), curve.Cubic)
	if err != nil || j.Made.Holes != 3 || len(j.Made.Notes) == 0 {
		t.Errorf("a hole off the sheet: %v, %+v", err, j.Made)
	}
	s.Outline = append(s.Outline, s.Outline[0])
	if _, err := BuildSheet(pattern.Default(), s, Defaults(), curve.Cubic); err == nil {
		t.Error("a sheet of two pieces is cut")
	}
	d := pattern.Default()
	d.Sheet.Stock = "PVC film"
	if _, err := BuildSheet(d, elbow(), Defaults(), curve.Cubic); err == nil {
		t.Error("PVC is cut")
	}
}
