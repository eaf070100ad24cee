package scan

import (
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand"
	"runtime"
	"testing"
)

// The page of A4 at 600 dpi that a scanner brings.
const (
	pageDPI                = 600
	pageAcross, pageDown   = 4960, 7016
	pageSeed               = 11
	pageGrain, pageLoss    = 2.5, 0.15
	pagePaper, pageInkGrey = 238, 35
)

// benchPage draws the known figures side by side over the whole page, in the light of a scanner, as colour when asked.
func benchPage(colour bool) image.Image {
	const perMM = pageDPI / outline.MMPerInch
	n := int(math.Ceil(outlinetest.TruthSize * perMM))
	var tiles [][]float64
	for _, t := range outlinetest.Truths() {
		tiles = append(tiles, outlinetest.GaussBlur(outlinetest.Coverage(t.Outline, n, n, perMM), n, n, 0.8))
	}
	rng := rand.New(rand.NewSource(pageSeed))
	grain := make([]float64, 1<<16)
	for k := range grain {
		grain[k] = pageGrain * rng.NormFloat64()
	}
	at := func(x, y int) float64 {
		// A figure to every second place.
		c := 0.0
		if i, j := x/n, y/n; (i+j)%2 == 0 {
			c = tiles[(i+2*j)%len(tiles)][(y%n)*n+x%n]
		}
		lamp := 1 - pageLoss*float64(x)/pageAcross
		return (pagePaper*(1-c)+pageInkGrey*c)*lamp + grain[(x*7919+y*104729+(x*y)%613)&0xffff]
	}
	whole := image.Rect(0, 0, pageAcross, pageDown)
	if !colour {
		p := image.NewGray(whole)
		for y := range pageDown {
			for x := range pageAcross {
				p.Pix[y*pageAcross+x] = uint8(math.Max(0, math.Min(255, at(x, y)+0.5)))
			}
		}
		return p
	}
	p := image.NewYCbCr(whole, image.YCbCrSubsampleRatio420)
	for y := range pageDown {
		for x := range pageAcross {
			v := uint8(math.Max(0, math.Min(255, at(x, y)+0.5)))
			p.Y[p.YOffset(x, y)] = v
			if x%2 == 0 && y%2 == 0 {
				k := p.COffset(x, y)
				_, p.Cb[k], p.Cr[k] = color.RGBToYCbCr(v, v, uint8(float64(v)*0.93))
			}
		}
	}
	return p
}

// BenchmarkReadPage reads a page of A4 at 600 dpi; MB is all memory the program has taken from the system since it
// began.
func BenchmarkReadPage(b *testing.B) {
	for _, c := range []struct {
		name   string
		colour bool
		encode func(*bytes.Buffer, image.Image) error
	}{
		{"grey PNG", false, func(to *bytes.Buffer, p image.Image) error { return png.Encode(to, p) }},
		{"colour JPEG", true, func(to *bytes.Buffer, p image.Image) error {
			return jpeg.Encode(to, p, &jpeg.Options{Quality: 90})
		}},
	} {
		b.Run(c.name, func(b *testing.B) {
			var file bytes.Buffer
			if err := c.encode(&file, benchPage(c.colour)); err != nil {
				b.Fatal(err)
			}
			runtime.GC()
			b.ResetTimer()
			for b.Loop() {
				if _, err := Read(file.Bytes(), c.name, outline.Options{DPI: pageDPI}); err != nil {
					b.Fatal(err)
				}
			}
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			b.ReportMetric(float64(m.Sys)/(1<<20), "MB")
			b.ReportMetric(float64(file.Len())/(1<<20), "MB-file")
		})
	}
}

// BenchmarkDecodePage is the part of BenchmarkReadPage that Go's decoders take.
func BenchmarkDecodePage(b *testing.B) {
	b.Run("grey PNG", func(b *testing.B) {
		var file bytes.Buffer
		if err := png.Encode(&file, benchPage(false)); err != nil {
			b.Fatal(err)
		}
		b.ResetTimer()
		for b.Loop() {
			if _, err := png.Decode(bytes.NewReader(file.Bytes())); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("colour JPEG", func(b *testing.B) {
		var file bytes.Buffer
		if err := jpeg.Encode(&file, benchPage(true), &jpeg.Options{Quality: 90}); err != nil {
			b.Fatal(err)
		}
		b.ResetTimer()
		for b.Loop() {
			if _, err := jpeg.Decode(bytes.NewReader(file.Bytes())); err != nil {
				b.Fatal(err)
			}
		}
	})
}
