package cutplan

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/cutplan/plantest"
)

// Plans put together keep what they cut: as many contours, each as it was but for the place, inside its own page;
// turned by a quarter its way round and its area stay.
func TestGatheredPlansKeepTheirContours(t *testing.T) {
	for _, kind := range geometrytest.Share(t, []curve.Kind{curve.Cubic, curve.Arc}, 1) {
		var lying []Lying
		at := 3.0
		contours, area, length := 0, 0.0, 0.0
		for i, d := range append(plantest.RandomDrafts(t, 77, 1), plantest.Rings()) {
			o := Defaults()
			o.Fixings.Pins.Count = 4
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			p, err := ForLayout(l, o, kind)
			if err != nil {
				t.Fatal(err)
			}
			for k := range 4 {
				quarters := (i + k) % 4
				lying = append(lying, Lying{p, orb.Point{at, 7}, quarters})
				w, h := p.Page.Max[0]-p.Page.Min[0], p.Page.Max[1]-p.Page.Min[1]
				if quarters%2 == 1 {
					w, h = h, w
				}
				page := orb.Bound{Min: orb.Point{at, 7}, Max: orb.Point{at + w, 7 + h}}
				one := Gather("One", 9000, 2000, lying[len(lying)-1:])
				for _, c := range one.Contours {
					if b := c.Path.Under(c.Map).Bound(); !within(b, page.Pad(0.03)) {
						t.Fatalf("%s: %s at %v lies off its page %v, %d quarters", d.Title, c.Class, b, page, quarters)
					}
				}
				liesTurned(t, p, one, page, quarters)
				at = page.Max[0] + 3
				contours += len(p.Contours)
				for _, c := range p.Contours {
					area, length = area+c.Path.Area(), length+c.Path.Length()
				}
			}
		}

		all := Gather("All", 9000, 2000, lying)
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
		if sheets < len(lying) || all.Made.SheetArea != 1.8e7 || all.Made.Fixings == 0 ||
			slices.ContainsFunc(all.Contours, func(c Contour) bool { return c.Path == nil }) {
			t.Errorf("%d outlines of %d sheets, %+v", sheets, len(lying), all.Made)
		}
	}
}

// liesTurned holds a plan that lies alone on a page against the plan: all of it, holes and letters too, stands where
// turning it about the page's middle puts it.
func liesTurned(t *testing.T, p, one *Plan, page orb.Bound, quarters int) {
	t.Helper()
	middle, to := p.Page.Center(), page.Center()
	sine, cosine := math.Sincos(float64(quarters) * math.Pi / 2)
	places := func(contours []Contour) map[string][]orb.Point {
		out := map[string][]orb.Point{}
		for _, c := range contours {
			key := string(c.Layer) + " " + c.Class
			start, pieces := c.Pieces(nil)
			out[key] = append(out[key], start)
			for _, q := range pieces {
				out[key] = append(out[key], q.To)
			}
		}
		return out
	}

	want, got := places(p.Contours), places(one.Contours)
	for key, all := range want {
		if len(got[key]) != len(all) {
			t.Fatalf("%s, %s: %d places of %d, turned by %d quarters", p.Title, key, len(got[key]), len(all), quarters)
		}
		for i, v := range all {
			x, y := v[0]-middle[0], v[1]-middle[1]
			v = orb.Point{to[0] + cosine*x - sine*y, to[1] + sine*x + cosine*y}
			if far(v, got[key][i]) > 1e-6 {
				t.Fatalf("%s, %s: at %v, not %v, turned by %d quarters", p.Title, key, got[key][i], v, quarters)
			}
		}
	}
}
