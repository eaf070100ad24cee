package scan

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"strings"
	"testing"

	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
	"golang.org/x/image/tiff"
)

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
