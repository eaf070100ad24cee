package scan

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
	"golang.org/x/image/tiff"
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

// jittered is a ring whose points are moved by a random wave of an amplitude in mm, waves of about this length.
func jittered(r orb.Ring, amplitude, wave float64, seed int64) orb.Ring {
	rng := rand.New(rand.NewSource(seed))
	var phase, turns [8]float64
	for k := range phase {
		phase[k], turns[k] = 2*math.Pi*rng.Float64(), (0.7+0.6*rng.Float64())/wave
	}
	out, s := slices.Clone(r), 0.0
	n := len(r) - 1
	for k := range n {
		p, q := r[(k+n-1)%n], r[(k+1)%n]
		dx, dy := q[0]-p[0], q[1]-p[1]
		d := math.Hypot(dx, dy)
		h := 0.0
		for i := range phase {
			h += math.Sin(2*math.Pi*turns[i]*s + phase[i])
		}
		h *= amplitude / 2.5 // of eight waves at random phases the most is about that
		out[k] = orb.Point{r[k][0] - dy/d*h, r[k][1] + dx/d*h}
		s += math.Hypot(r[k+1][0]-r[k][0], r[k+1][1]-r[k][1])
	}
	out[n] = out[0]
	return out
}

// roughness is the sum of all turns of an outline's corners less a full one, in radians: 0 for what is convex.
func roughness(r orb.Ring) float64 {
	n, sum := len(r)-1, 0.0
	for k := range n {
		p, q, s := r[(k+n-1)%n], r[k], r[k+1]
		ux, uy, vx, vy := q[0]-p[0], q[1]-p[1], s[0]-q[0], s[1]-q[1]
		sum += math.Abs(math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy))
	}
	return sum - 2*math.Pi
}

func TestSmoothingRoundsJitterAndKeepsCorners(t *testing.T) {
	const seed, size = 4, 0.3
	// Dense, so that its sides can jitter.
	var square orb.Ring
	corners := []orb.Point{{8, 8}, {38, 10}, {36, 37}, {7, 35}}
	for k, a := range corners {
		b := corners[(k+1)%4]
		for i := range 300 {
			f := float64(i) / 300
			square = append(square, orb.Point{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1])})
		}
	}
	square = append(square, square[0])
	for _, c := range []struct {
		name    string
		ring    orb.Ring
		corners []orb.Point
	}{{"disc", outlinetest.Circle(22, 22, 15), nil}, {"square", square, corners}} {
		drawn := orb.MultiPolygon{{jittered(c.ring, 0.15, 1.5, seed)}}
		data := outlinetest.PngOf(outlinetest.SheetOf(drawn, 44, 44, 300, 240, 30, 3))
		rough, err := Read(data, "", outline.Options{DPI: 300})
		if err != nil {
			t.Fatal(err)
		}
		even, err := Read(data, "", outline.Options{DPI: 300, SmoothingMM: size})
		if err != nil {
			t.Fatal(err)
		}
		outlinetest.Sound(t, c.name, outlinetest.Whole(even), false)
		before, after := roughness(outlinetest.Whole(rough)[0][0]), roughness(outlinetest.Whole(even)[0][0])
		moved := outlinetest.Farthest(outlinetest.Whole(even), outlinetest.Whole(rough), 0.02)
		toTrue, was := outlinetest.Farthest(outlinetest.Whole(even), orb.MultiPolygon{{c.ring}}, 0.02),
			outlinetest.Farthest(outlinetest.Whole(rough), orb.MultiPolygon{{c.ring}}, 0.02)
		miss := outlinetest.CornerMiss(c.corners, outlinetest.Whole(even))
		t.Logf("%s, seed %d: turns %.1f → %.1f rad, moved %.3f mm, from the true shape %.3f → %.3f mm, corners %.3f "+
			"mm off, area %.4f",
			c.name, seed, before, after, moved, was, toTrue, miss,
			geometry.Area(outlinetest.Whole(even))/geometry.Area(orb.MultiPolygon{{c.ring}})-1)
		if after > before/4 || moved > size+2*outline.DefaultTolerance || toTrue > 0.75*was || miss > was+0.05 {
			t.Errorf("%s is not smoothed as it should be", c.name)
		}
	}
	// What is smooth stays.
	clean := orb.MultiPolygon{{square}}
	r, err := Read(outlinetest.PngOf(outlinetest.SheetOf(clean, 44, 44, 300, 240, 30, 3)), "",
		outline.Options{DPI: 300, SmoothingMM: size})
	if err != nil || outlinetest.Farthest(outlinetest.Whole(r), clean, 0.02) > 0.08 ||
		outlinetest.CornerMiss(corners, outlinetest.Whole(r)) > 0.12 {
		t.Errorf("a clean square is moved by %.3f mm, its corners by %.3f (%v)",
			outlinetest.Farthest(outlinetest.Whole(r), clean, 0.02),
			outlinetest.CornerMiss(corners, outlinetest.Whole(r)), err)
	}
}

// A picture beyond what can be followed is read with several pixels as one.
func TestLargePicturesAreReduced(t *testing.T) {
	if testing.Short() {
		t.Skip("81 million pixels")
	}
	const w, h, side = 9000, 9000, 6000
	p := outlinetest.Flat(240, w, h)
	for y := 1500; y < 1500+side; y++ {
		row := p.Pix[y*p.Stride:]
		for x := 2000; x < 2000+side; x++ {
			row[x] = 30
		}
	}
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, p); err != nil {
		t.Fatal(err)
	}
	p = nil
	r, err := Read(b.Bytes(), "", outline.Options{DPI: 2540})
	if err != nil {
		t.Fatal(err)
	}
	want := orb.MultiPolygon{{outlinetest.Box(20, 15, 60, 60)}}
	if d := outlinetest.CornerMiss(want[0][0], outlinetest.Whole(r)); d > 0.02 || r.WidthPX != w || r.WidthMM != 90 {
		t.Errorf("corners are %.4f mm off; %d pixels, %g mm wide", d, r.WidthPX, r.WidthMM)
	}
	if all := strings.Join(r.Left, " "); !strings.Contains(all, "each 2 × 2 of them were taken as one") {
		t.Errorf("told: %q", all)
	}
	if r, err = Read(b.Bytes(), "", outline.Options{DPI: 2540, Crop: [4]int{1900, 1400, 2400, 1900}}); err != nil ||
		strings.Contains(strings.Join(r.Left, " "), "as one") {
		t.Errorf("a part of it is reduced too: %q (%v)", r.Left, err)
	}
}

// The picture that is handed back to be shown is the whole upright one, reduced: light where the paper is, dark where
// the ink is, turned as asked.
func TestLookIsTheUprightPicture(t *testing.T) {
	const w, h = 4000, 300
	img := image.NewGray(image.Rect(0, 0, w, h))
	for k := range img.Pix {
		img.Pix[k] = 230
	}
	for y := 100; y < 200; y++ {
		for x := 300; x < 900; x++ {
			img.SetGray(x, y, color.Gray{Y: 20})
		}
	}
	var b bytes.Buffer
	if err := tiff.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	for upright, at := range []image.Point{{150 * 3, 150}, {150, w - 450}} { // of the ink, before it is reduced
		r, err := Read(b.Bytes(), "a.tif", outline.Options{DPI: 300, Upright: upright, Crop: [4]int{}, Look: true})
		if err != nil {
			t.Fatal(err)
		}
		size := r.Look.Bounds().Size()
		if max(size.X, size.Y) > 1600 || max(size.X, size.Y) < 1200 || (upright == 1) != (size.Y > size.X) {
			t.Errorf("turned %d: %v px", upright, size)
			continue
		}
		by := max(r.WidthPX, r.HeightPX) / max(size.X, size.Y)
		if v := r.Look.GrayAt(at.X/by, at.Y/by).Y; v > 40 {
			t.Errorf("turned %d: ink is %d", upright, v)
		}
		if v := r.Look.GrayAt(size.X-2, size.Y/2).Y; v < 200 && upright == 0 {
			t.Errorf("paper is %d", v)
		}
	}
}
