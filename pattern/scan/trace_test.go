package scan

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/gif"
	"maps"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

// Figures that a known drawing must come back within.
const (
	areaWithin   = 0.002 // of the area
	awayWithin   = 0.6   // pixels, of any point along the outline from the true curve
	cornerWithin = 1.0   // pixels, of a true corner from the nearest corner of the outline
	pointsWithin = 2.0   // times what leaving out points of the true curve needs
	commonWithin = 0.995 // least overlap over union
)

var allDrawings = flag.Bool("drawings", false, "scan known drawings spoiled in every way at every resolution")

func TestKnownDrawingsComeBack(t *testing.T) {
	type job struct {
		dpi    float64
		spoils []outlinetest.Spoil
	}
	worst := map[string]float64{}
	all := outlinetest.Spoils
	jobs := []job{{150, all}, {300, all}, {600, []outlinetest.Spoil{all[0], all[4]}}}
	if !*allDrawings {
		jobs = []job{{150, all[1:2]}, {300, []outlinetest.Spoil{all[0], all[2], all[3]}}, {600, all[4:5]}}
	}
	for _, j := range jobs {
		truths := outlinetest.Truths()
		if !*allDrawings {
			truths = geometrytest.Share(t, truths, 2)
		}
		for _, tr := range truths {
			need := outlinetest.ChordPoints(tr.Outline, outline.DefaultTolerance)
			fine := outlinetest.Coverage(tr.Outline, int(outlinetest.TruthSize*outlinetest.CommonCells),
				int(outlinetest.TruthSize*outlinetest.CommonCells), outlinetest.CommonCells)
			for _, s := range j.spoils {
				const seed = 7
				r, err := Read(outlinetest.Scan(tr, s, j.dpi, seed), tr.Name, outline.Options{DPI: j.dpi})
				if err != nil {
					t.Errorf("%s, %g dpi, %s: %v", tr.Name, j.dpi, s.Name, err)
					continue
				}
				mp, px := outlinetest.Whole(r), outline.MMPerInch/j.dpi
				if len(mp) != len(tr.Outline) || len(mp[0]) != len(tr.Outline[0]) {
					t.Errorf("%s, %g dpi, %s: %d pieces, the first with %d rings; the drawing has %d and %d",
						tr.Name, j.dpi, s.Name, len(mp), len(mp[0]), len(tr.Outline), len(tr.Outline[0]))
					continue
				}
				outlinetest.Sound(t, tr.Name, mp, false)
				for _, f := range []struct {
					what      string
					got, most float64
				}{
					{"area is off by a part of", math.Abs(geometry.Area(mp)/geometry.Area(tr.Outline) - 1), areaWithin},
					{"pixels from outline to truth:", outlinetest.Farthest(mp, tr.Outline, px/4) / px, awayWithin},
					{"pixels from truth to outline:", outlinetest.Farthest(tr.Outline, mp, px/4) / px, cornerWithin},
					{"not common, as a part of what either covers:", 1 - outlinetest.OverlapOverUnion(mp, fine),
						1 - commonWithin},
					{"pixels from a corner:", outlinetest.CornerMiss(tr.Corners, mp) / px, cornerWithin},
					{"points, times those needed:", float64(geometry.Points(mp)) / float64(need), pointsWithin},
				} {
					worst[f.what] = math.Max(worst[f.what], f.got)
					if f.got > f.most {
						t.Errorf("%s, %g dpi, %s, seed %d: %s %.4g, at most %g", tr.Name, j.dpi, s.Name, seed, f.what,
							f.got, f.most)
					}
				}
			}
		}
	}
	for what, v := range worst {
		t.Logf("at worst, %s %.4g", what, v)
	}
}

func TestPiecesHolesSpecksAndFrame(t *testing.T) {
	mp := orb.MultiPolygon{
		// A hole of 9 mm², a pinhole of 0.09.
		{outlinetest.Box(5, 6, 10, 8), geometry.Reversed(outlinetest.Box(7, 8, 3, 3)),
			geometry.Reversed(outlinetest.Box(12, 12, 0.3, 0.3))},
		{outlinetest.Box(8, 9, 1, 1)},       // an island in the hole
		{outlinetest.Box(20, 2, 4, 4)},      // another piece
		{outlinetest.Box(2, 18, 0.5, 0.5)},  // a speck of 0.25 mm²
		{outlinetest.Box(26, 18, 0.5, 0.5)}, // and another
	}
	data := outlinetest.PngOf(outlinetest.SheetOf(mp, 30, 20, 300, 240, 20, 4))
	r, err := Read(data, "sheet", outline.Options{DPI: 300})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Pieces) != 3 {
		t.Fatalf("%d pieces, not 3", len(r.Pieces))
	}
	for k, want := range []struct {
		area  float64
		rings int
		min   orb.Point
	}{{71, 2, orb.Point{5, 6}}, {16, 1, orb.Point{20, 2}}, {1, 1, orb.Point{8, 9}}} {
		o := r.Pieces[k].Outline
		if a := geometry.Area(o); math.Abs(a-want.area) > 0.02*math.Sqrt(want.area) || len(o) != 1 ||
			len(o[0]) != want.rings {
			t.Errorf("piece %d has %.3f mm² and %d rings, not %g and %d", k, a, len(o[0]), want.area, want.rings)
		}
		if b := o.Bound().Min; math.Hypot(b[0]-want.min[0], b[1]-want.min[1]) > 0.05 {
			t.Errorf("piece %d begins at %v, not %v", k, b, want.min)
		}
	}
	if all := strings.Join(r.Left, " "); !strings.Contains(all, "2 specks under 0.5 mm² left out.") ||
		!strings.Contains(all, "1 pinhole under 0.2 mm² filled.") {
		t.Errorf("what was left out is told as %q", all)
	}
	if r.WidthPX != 354 || r.HeightPX != 236 || math.Abs(r.HeightMM-236*25.4/300) > 1e-9 {
		t.Errorf("size is %d × %d pixels, %g mm high", r.WidthPX, r.HeightPX, r.HeightMM)
	}
	if r, err = Read(data, "sheet", outline.Options{DPI: 300, SpecksMM2: -1, PinholesMM2: -1}); err != nil ||
		len(r.Pieces) != 5 || len(r.Pieces[0].Outline[0]) != 3 {
		t.Errorf("with everything kept: %d pieces (%v), not 5", len(r.Pieces), err)
	}
	if r, err = Read(data, "sheet", outline.Options{DPI: 300, PinholesMM2: 20}); err != nil || len(r.Pieces) != 2 ||
		math.Abs(geometry.Area(r.Pieces[0].Outline)-80) > 0.1 {
		t.Errorf("with the hole filled there are %d pieces (%v); the island in it must go too", len(r.Pieces), err)
	}
}

func TestLevelIsReportedAndRepeats(t *testing.T) {
	tr := outlinetest.Truths()[5]
	data := outlinetest.Scan(tr, outlinetest.Spoils[4], 200, 1)
	first, err := Read(data, "", outline.Options{DPI: 200})
	if err != nil {
		t.Fatal(err)
	}
	if first.Level < 0.3 || first.Level > 0.7 {
		t.Errorf("the level found is %g", first.Level)
	}
	again, err := Read(data, "", outline.Options{DPI: 200, Level: first.Level})
	if err != nil ||
		math.Abs(geometry.Area(outlinetest.Whole(again))/geometry.Area(outlinetest.Whole(first))-1) > 1e-9 {
		t.Errorf("the same level typed gives another outline (%v)", err)
	}
	lighter, err := Read(data, "", outline.Options{DPI: 200, Level: first.Level + 0.15})
	if err != nil || geometry.Area(outlinetest.Whole(lighter)) <= geometry.Area(outlinetest.Whole(first)) {
		t.Errorf("a lighter level must take more for ink (%v)", err)
	}
}

func TestLightOnDark(t *testing.T) {
	mp := orb.MultiPolygon{{outlinetest.Circle(10, 10, 6)}}
	data := outlinetest.PngOf(outlinetest.SheetOf(mp, 20, 20, 300, 30, 220, 4))
	r, err := Read(data, "", outline.Options{DPI: 300, Invert: true})
	if err != nil || len(r.Pieces) != 1 || math.Abs(geometry.Area(outlinetest.Whole(r))/(36*math.Pi)-1) > areaWithin {
		t.Errorf("light on dark: %d pieces (%v)", len(r.Pieces), err)
	}
	again, err := Read(data, "", outline.Options{DPI: 300, Invert: true, Level: r.Level})
	if err != nil || math.Abs(geometry.Area(outlinetest.Whole(again))/geometry.Area(outlinetest.Whole(r))-1) > 1e-9 {
		t.Errorf("the same level typed gives another outline (%v)", err)
	}
	r, err = Read(data, "", outline.Options{DPI: 300})
	if err != nil || !strings.Contains(strings.Join(r.Left, " "), "light on dark") {
		t.Errorf("a dark picture is read without a word: %q (%v)", r.Left, err)
	}
}

// A shape that runs over the picture's edge is closed along it.
func TestPictureBorderIsPaper(t *testing.T) {
	mp := orb.MultiPolygon{{outlinetest.Box(-5, 5, 15, 8)}}
	r, err := Read(outlinetest.PngOf(outlinetest.SheetOf(mp, 20, 20, 254, 255, 0, 0)), "", outline.Options{DPI: 254})
	if err != nil || len(r.Pieces) != 1 {
		t.Fatal(r, err)
	}
	if b := outlinetest.Whole(r).Bound(); math.Abs(b.Min[0]) > 0.02 || math.Abs(b.Max[0]-10) > 0.02 ||
		math.Abs(geometry.Area(outlinetest.Whole(r))-80) > 0.2 {
		t.Errorf("box %v, area %g", b, geometry.Area(outlinetest.Whole(r)))
	}
	if all := strings.Join(r.Left, " "); !strings.Contains(all, "1 piece cut off by the picture's edge.") {
		t.Errorf("told: %q", all)
	}
}

// Every kind of picture and of pixel gives the same outline.
func TestKindsOfPictures(t *testing.T) {
	grey := outlinetest.SheetOf(orb.MultiPolygon{{outlinetest.Circle(10, 12, 6)}}, 20, 20, 300, 255, 0, 0)
	b := grey.Bounds()
	clear := image.NewNRGBA(b) // ink in its alpha alone
	deep, pale, cmyk := image.NewGray16(b), image.NewPaletted(b, nil), image.NewCMYK(b)
	for k := range 256 {
		pale.Palette = append(pale.Palette, color.Gray{uint8(k)})
	}
	rgba, nrgba64 := image.NewRGBA(b), image.NewNRGBA64(b)
	for y := range b.Dy() {
		for x := range b.Dx() {
			c := grey.GrayAt(x, y)
			clear.Set(x, y, color.NRGBA{0, 0, 0, 255 - c.Y})
			for _, p := range []interface{ Set(x, y int, c color.Color) }{deep, pale, cmyk, rgba, nrgba64} {
				p.Set(x, y, c)
			}
		}
	}
	want, err := Read(outlinetest.PngOf(grey), "", outline.Options{DPI: 300})
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{"alpha": outlinetest.PngOf(clear), "16 bit": outlinetest.PngOf(deep),
		"palette": outlinetest.PngOf(pale), "RGBA": outlinetest.PngOf(rgba), "16 bit RGBA": outlinetest.PngOf(nrgba64)}
	var w bytes.Buffer
	if err := gif.Encode(&w, pale, nil); err != nil {
		t.Fatal(err)
	}
	files["GIF"] = bytes.Clone(w.Bytes())
	w.Reset()
	if err := bmp.Encode(&w, grey); err != nil {
		t.Fatal(err)
	}
	files["BMP"] = bytes.Clone(w.Bytes())
	w.Reset()
	if err := tiff.Encode(&w, grey, nil); err != nil {
		t.Fatal(err)
	}
	files["TIFF"] = bytes.Clone(w.Bytes())
	for name, data := range files {
		r, err := Read(data, name, outline.Options{DPI: 300})
		if err != nil ||
			math.Abs(geometry.Area(outlinetest.Whole(r))/geometry.Area(outlinetest.Whole(want))-1) > 1e-3 ||
			outlinetest.Farthest(outlinetest.Whole(r), outlinetest.Whole(want), 0.05) > 0.06 {
			t.Errorf("%s: %d pieces, area %g for %g (%v)", name, len(r.Pieces), geometry.Area(outlinetest.Whole(r)),
				geometry.Area(outlinetest.Whole(want)), err)
		}
	}
}

// What a scan or photo may look like besides noise: a shadow along a fold, a vignette, a lamp to one side, a faint
// pencil, and several of these at once.
func TestUnevenPaper(t *testing.T) {
	mp := orb.MultiPolygon{{outlinetest.Circle(22, 22, 15), geometry.Reversed(outlinetest.Circle(24, 20, 6))}}
	const dpi = 200.0
	n := int(math.Floor(outlinetest.TruthSize * dpi / outline.MMPerInch))
	ink := outlinetest.GaussBlur(outlinetest.Coverage(mp, n, n, dpi/outline.MMPerInch), n, n, 0.8)
	papers := map[string]func(x, y, c float64) float64{ // x and y from 0 to 1
		"shadow along a fold": func(x, _, c float64) float64 {
			return (230 - 190*c) * (1 - 0.35*math.Exp(-(x-0.3)*(x-0.3)/0.02))
		},
		"vignette": func(x, y, c float64) float64 {
			return (240 - 200*c) * (1 - 0.8*((x-0.5)*(x-0.5)+(y-0.5)*(y-0.5)))
		},
		"half the light lost": func(x, y, c float64) float64 { return (245 - 200*c) * (1 - 0.5*x) },
		"strong vignette and a lamp to one side": func(x, y, c float64) float64 {
			return (235 - 190*c) * (1 - 0.5*x) * (1 - 0.9*((x-0.5)*(x-0.5)+(y-0.5)*(y-0.5)))
		},
		"vignette, lamp to one side and a fold": func(x, y, c float64) float64 {
			return (240 - 185*c) * (1 - 0.5*x) * (1 - 0.7*((x-0.5)*(x-0.5)+(y-0.5)*(y-0.5))) *
				(1 - 0.3*math.Exp(-(y-0.55)*(y-0.55)/0.004))
		},
		"a hard edge of a paper's fold": func(x, y, c float64) float64 {
			v := (236 - 190*c) * (1 - 0.5*y)
			if x+0.1*y > 0.55 {
				v *= 0.8
			}
			return v
		},
		"narrow and dark fold, lamp": func(x, y, c float64) float64 {
			return (240 - 190*c) * (1 - 0.5*(0.6*x+0.4*y)) * (1 - 0.3*math.Exp(-(x-0.7)*(x-0.7)/0.0008))
		},
		"light falls off steeply": func(x, y, c float64) float64 {
			return (245 - 200*c) / ((1 + 0.6*x) * (1 + 0.6*x))
		},
		"added light": func(x, y, c float64) float64 { return 180 - 120*c + 60*x - 30*y },
		"faint":       func(_, _, c float64) float64 { return 205 - 28*c },
	}
	for _, name := range geometrytest.Share(t, slices.Sorted(maps.Keys(papers)), 5) {
		f := papers[name]
		rng := rand.New(rand.NewSource(5))
		p := image.NewGray(image.Rect(0, 0, n, n))
		for k, c := range ink {
			v := f(float64(k%n)/float64(n), float64(k/n)/float64(n), c) + 2*rng.NormFloat64()
			p.Pix[k] = uint8(math.Max(0, math.Min(255, math.Round(v))))
		}
		r, err := Read(outlinetest.PngOf(p), name, outline.Options{DPI: dpi})
		if err != nil || len(r.Pieces) != 1 || len(r.Pieces[0].Outline[0]) != 2 {
			t.Errorf("%s: %d pieces (%v)", name, len(r.Pieces), err)
			continue
		}
		area := geometry.Area(outlinetest.Whole(r))/geometry.Area(mp) - 1
		away := outlinetest.Farthest(outlinetest.Whole(r), mp, 0.03) * dpi / outline.MMPerInch
		if math.Abs(area) > 0.003 || away > 0.85 { // 0.82 within a narrow fold, else 0.75
			t.Errorf("%s: area off by %.3f %%, outline by %.2f pixels", name, 100*area, away)
		}
	}
}

// Little ink on much paper, much ink on little, thin strokes, mottled ink, colours, pixels that are black or white.
func TestOtherDrawings(t *testing.T) {
	disc := orb.MultiPolygon{{outlinetest.Circle(15, 15, 10)}}
	strokes := func(width float64) orb.MultiPolygon {
		return orb.MultiPolygon{{outlinetest.Circle(15, 15, 10),
			geometry.Reversed(outlinetest.Circle(15, 15, 10-width))}}
	}
	tiny := orb.MultiPolygon{{outlinetest.Circle(100, 150, 1)}}
	much := orb.MultiPolygon{{outlinetest.Box(0.7, 0.7, 28.6, 28.6), geometry.Reversed(outlinetest.Circle(15, 15, 2))}}
	binary := func(p *image.Gray) *image.Gray {
		for k, v := range p.Pix {
			p.Pix[k] = v / 128 * 255
		}
		return p
	}
	mottled := outlinetest.SheetOf(disc, 30, 30, 300, 235, 100, 12)
	rng := rand.New(rand.NewSource(9))
	n := mottled.Bounds().Dx()
	spots := make([]float64, n*n)
	for k := range spots {
		spots[k] = rng.NormFloat64()
	}
	for k, v := range outlinetest.GaussBlur(spots, n, n, 4) {
		if mottled.Pix[k] < 170 {
			mottled.Pix[k] = uint8(math.Max(0, math.Min(255, float64(mottled.Pix[k])+200*v)))
		}
	}
	inColour := func(paper, ink color.RGBA) image.Image {
		p := image.NewRGBA(image.Rect(0, 0, n, n))
		for k, c := range outlinetest.Coverage(disc, n, n, 300/outline.MMPerInch) {
			mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a)*(1-c) + float64(b)*c)) }
			p.SetRGBA(k%n, k/n, color.RGBA{mix(paper.R, ink.R), mix(paper.G, ink.G), mix(paper.B, ink.B), 255})
		}
		return p
	}
	type drawing struct {
		name    string
		mp      orb.MultiPolygon
		picture image.Image
		dpi     float64
		within  float64 // of the area
	}
	for _, c := range geometrytest.Share(t, []drawing{
		{"2 mm on A4", tiny, outlinetest.SheetOf(tiny, 210, 297, 300, 235, 60, 8), 300, 0.01},
		{"2 mm on A4, coarse", tiny, outlinetest.SheetOf(tiny, 210, 297, 150, 235, 60, 8), 150, 0.03},
		{"next to nothing but ink", much, outlinetest.SheetOf(much, 30, 30, 200, 235, 40, 8), 200, 0.002},
		{"strokes of 0.5 mm", strokes(0.5), outlinetest.SheetOf(strokes(0.5), 30, 30, 300, 235, 90, 8), 300, 0.03},
		{"strokes of 1.8 pixels", strokes(0.3), outlinetest.SheetOf(strokes(0.3), 30, 30, 150, 235, 90, 8), 150, 0.15},
		{"mottled ink", disc, mottled, 300, 0.003},
		{"red on white", disc, inColour(color.RGBA{250, 250, 245, 255}, color.RGBA{220, 30, 45, 255}), 300, 0.002},
		{"yellow on white", disc, inColour(color.RGBA{250, 250, 245, 255}, color.RGBA{245, 220, 40, 255}), 300, 0.002},
		{"black or white", disc, binary(outlinetest.SheetOf(disc, 30, 30, 300, 255, 0, 0)), 300, 0.002},
		{"black or white, coarse", disc, binary(outlinetest.SheetOf(disc, 30, 30, 72, 255, 0, 0)), 72, 0.006},
		{"heavy grain", disc, outlinetest.SheetOf(disc, 30, 30, 300, 200, 60, 40), 300, 0.003},
	}, 6) {
		r, err := Read(outlinetest.PngOf(c.picture), c.name, outline.Options{DPI: c.dpi})
		if err != nil {
			t.Error(err)
			continue
		}
		if a := geometry.Area(outlinetest.Whole(r))/geometry.Area(c.mp) - 1; len(r.Pieces) != 1 ||
			len(outlinetest.Whole(r)[0]) != len(c.mp[0]) || math.Abs(a) > c.within {
			t.Errorf("%s: %d pieces, the first with %d rings, area off by %.2f %%, level %.3f", c.name, len(r.Pieces),
				len(outlinetest.Whole(r)[0]), 100*a, r.Level)
		}
	}
}
