package scan

import (
	"fmt"
	"image"
	"math"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
)

// turnedAbout returns an outline turned by degrees counter-clockwise about a point.
func turnedAbout(mp orb.MultiPolygon, degrees float64, m orb.Point) orb.MultiPolygon {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return mapped(mp, func(p orb.Point) orb.Point {
		x, y := p[0]-m[0], p[1]-m[1]
		return orb.Point{m[0] + x*cos - y*sin, m[1] + x*sin + y*cos}
	})
}

func mapped(mp orb.MultiPolygon, f func(orb.Point) orb.Point) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, p := range mp {
		var q orb.Polygon
		for _, r := range p {
			var s orb.Ring
			for _, v := range r {
				s = append(s, f(v))
			}
			q = append(q, s)
		}
		out = append(out, q)
	}
	return out
}

// corner is a figure with no symmetry at all.
func cornerFigure() orb.MultiPolygon {
	return orb.MultiPolygon{{outlinetest.PolygonRing(orb.Point{6, 7}, orb.Point{20, 8}, orb.Point{21, 14},
		orb.Point{10, 13}, orb.Point{8, 24})}}
}

func TestCropTurnAndUpright(t *testing.T) {
	const dpi = 254.0 // ten pixels to the mm
	const away = awayWithin * outline.MMPerInch / dpi
	mp := cornerFigure()
	all := orb.MultiPolygon{mp[0], {outlinetest.Circle(33, 30, 3)}}
	data := outlinetest.PngOf(outlinetest.SheetOf(all, 40, 36, dpi, 240, 30, 2))
	crop := [4]int{30, 90, 230, 320} // 3 to 23 mm across, 4 to 27 mm up
	r, err := Read(data, "", outline.Options{DPI: dpi, Crop: crop})
	if err != nil {
		t.Fatal(err)
	}
	want := mapped(mp, func(p orb.Point) orb.Point { return orb.Point{p[0] - 3, p[1] - 4} })
	if d := outlinetest.Farthest(outlinetest.Whole(r), want, 0.02); len(r.Pieces) != 1 || d > away || r.Crop != crop ||
		math.Abs(r.HeightMM-36) > 1e-9 {
		t.Errorf("cropped: %d pieces, %.3f mm off, crop %v, height %g", len(r.Pieces), d, r.Crop, r.HeightMM)
	}
	for _, turn := range []float64{-7.3, 31, 180} {
		r, err := Read(data, "", outline.Options{DPI: dpi, Crop: crop, Turn: turn})
		if err != nil {
			t.Error(err)
			continue
		}
		if d := outlinetest.Farthest(outlinetest.Whole(r), turnedAbout(want, turn, orb.Point{10, 11.5}),
			0.02); d > away {
			t.Errorf("turned by %g: %.3f mm off", turn, d)
		}
		outlinetest.Sound(t, fmt.Sprint("turned by ", turn), outlinetest.Whole(r), false)
		back := mapped(outlinetest.Whole(r), func(p orb.Point) orb.Point {
			p = r.Pixel(p)
			return orb.Point{p[0] / 10, 36 - p[1]/10}
		})
		if d := outlinetest.Farthest(back, mp, 0.02); d > away {
			t.Errorf("turned by %g and put back on the picture: %.3f mm off", turn, d)
		}
	}
	// Quarter turns: the picture is turned clockwise first, so that as many counter-clockwise bring it back.
	lying := outlinetest.SheetOf(mp, 30, 26, dpi, 240, 30, 2)
	for quarters := range 4 {
		r, err := Read(outlinetest.PngOf(lying), "", outline.Options{DPI: dpi, Upright: quarters})
		if err != nil {
			t.Error(err)
			continue
		}
		if d := outlinetest.Farthest(outlinetest.Whole(r), mp, 0.02); d > away || r.WidthPX != 300 ||
			r.HeightPX != 260 {
			t.Errorf("%d quarter turns: %.3f mm off, %d × %d pixels", quarters, d, r.WidthPX, r.HeightPX)
		}
		b := lying.Bounds()
		next := image.NewGray(image.Rect(0, 0, b.Dy(), b.Dx()))
		for y := range b.Dy() {
			for x := range b.Dx() {
				next.SetGray(b.Dy()-1-y, x, lying.GrayAt(x, y))
			}
		}
		lying = next
	}
	for _, c := range [][4]int{{-1, 0, 100, 100}, {0, 0, 401, 100}, {50, 50, 51, 90}, {90, 0, 20, 100}} {
		if _, err := Read(data, "", outline.Options{DPI: dpi, Crop: c}); err == nil ||
			!strings.Contains(err.Error(), "is not a part of the picture of 400 × 360 pixels") {
			t.Errorf("crop %v: %v", c, err)
		}
	}
}

func TestTwoPointsGiveTheScale(t *testing.T) {
	mp := cornerFigure()
	data := outlinetest.PngOf(outlinetest.SheetOf(mp, 30, 30, 254, 240, 30, 0))
	// From (6, 7) to (20, 8) mm, in pixels from the upper left corner.
	points := [2][2]float64{{60, 230}, {200, 220}}
	r, err := Read(data, "", outline.Options{Points: points, DistanceMM: 2 * math.Hypot(14, 1)})
	if err != nil {
		t.Fatal(err)
	}
	if r.DPISource != outline.DPIPoints || math.Abs(r.DPI-127) > 1e-9 ||
		math.Abs(geometry.Area(outlinetest.Whole(r))/geometry.Area(mp)-4) > 0.02 {
		t.Errorf("%g dpi (%s), area %g", r.DPI, r.DPISource, geometry.Area(outlinetest.Whole(r)))
	}
	for _, c := range []struct {
		o    outline.Options
		want string
	}{
		{outline.Options{Points: points, DistanceMM: 5, DPI: 300},
			"both a distance between two points and a resolution"},
		{outline.Options{Points: points, DistanceMM: 5, HeightMM: 300},
			"both a distance between two points and a resolution"},
		{outline.Options{DistanceMM: 5}, "less than 2 pixels from each other"},
		{outline.Options{Points: points, DistanceMM: 90000}, "which cannot be"},
		{outline.Options{Points: [2][2]float64{{math.NaN(), 0}, {9, 9}}, DistanceMM: 5}, "not a pair of numbers"},
		{outline.Options{Upright: 4}, "4 quarter turns are asked for; it may be 0 to 3"},
		{outline.Options{Turn: 400}, "the turn is 400; it may be from -360 to 360 degrees"},
	} {
		if _, err := Read(data, "", c.o); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, not %q", c.o, err, c.want)
		}
	}
}

// Flat looks for one level: with half of the light lost across the sheet pale ink parts from paper on one side only.
func TestFlatLight(t *testing.T) {
	mp := orb.MultiPolygon{{outlinetest.Circle(10, 12, 6)}, {outlinetest.Circle(30, 12, 6)}}
	p := outlinetest.SheetOf(mp, 40, 24, 200, 240, 170, 1)
	w := p.Bounds().Dx()
	for k, v := range p.Pix {
		p.Pix[k] = uint8(float64(v) * (1 - 0.5*float64(k%w)/float64(w)))
	}
	even, err := Read(outlinetest.PngOf(p), "", outline.Options{DPI: 200})
	if err != nil || len(even.Pieces) != 2 ||
		math.Abs(geometry.Area(outlinetest.Whole(even))/geometry.Area(mp)-1) > 0.005 {
		t.Errorf("evened: %d pieces, area %g of %g (%v)", len(even.Pieces), geometry.Area(outlinetest.Whole(even)),
			geometry.Area(mp), err)
	}
	flat, err := Read(outlinetest.PngOf(p), "", outline.Options{DPI: 200, Flat: true})
	if err == nil && math.Abs(geometry.Area(outlinetest.Whole(flat))/geometry.Area(mp)-1) < 0.2 {
		t.Errorf("flat brings the same: %g of %g", geometry.Area(outlinetest.Whole(flat)), geometry.Area(mp))
	}
	plain := outlinetest.PngOf(outlinetest.SheetOf(mp, 40, 24, 200, 240, 40, 3))
	r, err := Read(plain, "", outline.Options{DPI: 200, Flat: true})
	if err != nil || math.Abs(geometry.Area(outlinetest.Whole(r))/geometry.Area(mp)-1) > areaWithin {
		t.Errorf("even light, flat: area %g of %g (%v)", geometry.Area(outlinetest.Whole(r)), geometry.Area(mp), err)
	}
}

// progressOf reads and returns all that was told.
func progressOf(t *testing.T, data []byte, o outline.Options) []float64 {
	t.Helper()
	var report []float64
	o.Progress = func(part float64) { report = append(report, part) }
	if _, err := Read(data, "", o); err != nil {
		t.Fatal(err)
	}
	return report
}

func TestProgressRises(t *testing.T) {
	var mp orb.MultiPolygon
	for i := range 6 {
		for j := range 6 {
			mp = append(mp, orb.Polygon{outlinetest.Circle(10+20*float64(i), 10+20*float64(j), 8),
				geometry.Reversed(outlinetest.Circle(10+20*float64(i), 10+20*float64(j), 6))})
		}
	}
	picture := outlinetest.PngOf(outlinetest.SheetOf(mp, 120, 120, 300, 240, 30, 3))
	for _, o := range []outline.Options{{DPI: 300}, {DPI: 300, Pencil: true, BridgeMM: 2}} {
		report := progressOf(t, picture, o)
		last, step := 0.0, 0.0
		for _, v := range report {
			if v < last {
				t.Fatalf("told %g after %g", v, last)
			}
			step, last = max(step, v-last), v
		}
		if last != 1 || step > 0.055 {
			t.Errorf("ends at %g with steps of up to %g", last, step)
		}
	}
}

func TestNarrowPlacesAreTold(t *testing.T) {
	// Two discs joined by a strip 1.2 mm wide, and a slit of 0.9 mm into one of them that stops short of the other
	// side.
	mp := orb.MultiPolygon{{outlinetest.PolygonRing(orb.Point{5, 5}, orb.Point{20, 5}, orb.Point{20, 11},
		orb.Point{30, 11}, orb.Point{30, 5}, orb.Point{45, 5},
		orb.Point{45, 20}, orb.Point{30, 20}, orb.Point{30, 12.2}, orb.Point{20, 12.2}, orb.Point{20, 20},
		orb.Point{5, 20})},
		{outlinetest.Box(45.9, 5, 6, 15)}}
	r, err := Read(outlinetest.PngOf(outlinetest.SheetOf(mp, 60, 25, 300, 240, 30, 3)), "",
		outline.Options{DPI: 300, OpeningMM: 1.5, BridgeMM: 2})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Narrow) != 2 {
		t.Fatalf("%d narrow places: %v", len(r.Narrow), r.Narrow)
	}
	for k, want := range []outline.Narrow{{Kind: outline.NarrowBridge, At: orb.Point{45.45, 12.5}, Width: 0.9},
		{Kind: outline.NarrowOpening, At: orb.Point{25, 11.6}, Width: 1.2}} {
		got := r.Narrow[k]
		if got.Kind != want.Kind || math.Abs(got.Width-want.Width) > 0.04 || math.Abs(got.At[0]-want.At[0]) > 7 ||
			math.Abs(got.At[1]-want.At[1]) > 8 {
			t.Errorf("place %d is %+v, not %+v", k, got, want)
		}
	}
	if all := strings.Join(r.LeftNarrow, " "); !strings.Contains(all,
		"1 place in the ink narrower than 1.5 mm; the narrowest is 1.2") ||
		!strings.Contains(all, "1 place between ink narrower than 2 mm") {
		t.Errorf("told: %q", all)
	}
	if r, err = Read(outlinetest.PngOf(outlinetest.SheetOf(mp, 60, 25, 300, 240, 30, 3)), "",
		outline.Options{DPI: 300, OpeningMM: 1.1, BridgeMM: 0.8}); err != nil || len(r.Narrow) != 0 {
		t.Errorf("nothing is as narrow as that: %v (%v)", r.Narrow, err)
	}
}
