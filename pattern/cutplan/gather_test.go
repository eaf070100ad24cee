package cutplan

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/pattern/cutplan/plantest"
)

// Plans put together keep what they cut: as many contours, each as it was but for the place, inside its own page;
// turned by a quarter its way round and its area stay.
func TestGatheredPlansKeepTheirContours(t *testing.T) {
	for _, kind := range []curve.Kind{curve.Cubic, curve.Arc} {
		var lying []Lying
		at := 3.0
		contours, area, length := 0, 0.0, 0.0
		for i, d := range append(plantest.RandomDrafts(t, 77, 1), plantest.Rings()) {
			o := Defaults()
			o.Fixings.Pins.Count = 4
			_, l := built(t, d, o)
			p, err := ForLayout(l, o, kind)
			if err != nil {
				t.Fatal(err)
			}
			for k := range 2 {
				turned := (i+k)%2 == 1
				lying = append(lying, Lying{p, orb.Point{at, 7}, turned})
				w, h := p.Page.Max[0]-p.Page.Min[0], p.Page.Max[1]-p.Page.Min[1]
				if turned {
					w, h = h, w
				}
				page := orb.Bound{Min: orb.Point{at, 7}, Max: orb.Point{at + w, 7 + h}}
				one := Gather("One", 5000, 2000, lying[len(lying)-1:])
				for _, c := range one.Contours {
					if b := c.Path.Under(c.Map).Bound(); !within(b, page.Pad(0.03)) {
						t.Fatalf("%s: %s at %v lies off its page %v; turned: %v", d.Title, c.Class, b, page, turned)
					}
				}
				at = page.Max[0] + 3
				contours += len(p.Contours)
				for _, c := range p.Contours {
					area, length = area+c.Path.Area(), length+c.Path.Length()
				}
			}
		}

		all := Gather("All", 5000, 2000, lying)
		marksDone, gotArea, gotLength := false, 0.0, 0.0
		for _, c := range all.Contours {
			gotArea, gotLength = gotArea+c.Path.Area(), gotLength+c.Path.Length()
			if c.Layer == Cut {
				marksDone = true
			} else if marksDone {
				t.Fatal("a mark is made after a cut")
			}
		}
		if len(all.Contours) != contours || math.Abs(gotArea-area) > 1e-6*area ||
			math.Abs(gotLength-length) > 1e-6*length {
			t.Errorf("%d contours of %d, %g mm² of %g, %g mm of %g", len(all.Contours), contours, gotArea, area,
				gotLength, length)
		}
		sheets := 0
		for _, c := range all.Contours {
			if c.Class == ClassSheet {
				sheets++
			}
		}
		if sheets < len(lying) || all.Made.SheetArea != 1e7 || all.Made.Fixings == 0 ||
			slices.ContainsFunc(all.Contours, func(c Contour) bool { return c.Path == nil }) {
			t.Errorf("%d outlines of %d sheets, %+v", sheets, len(lying), all.Made)
		}
	}
}
