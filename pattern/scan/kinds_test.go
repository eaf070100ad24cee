package scan

import (
	"bytes"
	"image"
	"image/color"
	"image/gif"
	"maps"
	"math"
	"math/rand"
	"slices"
	"testing"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

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
