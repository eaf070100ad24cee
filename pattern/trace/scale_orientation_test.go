package trace

import (
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
)

// exif is a TIFF directory of orientation, resolution and its unit.
func exif(turn, perUnit, unit uint16) []byte {
	le := binary.LittleEndian
	b := le.AppendUint32([]byte("II*\x00"), 8)
	b = le.AppendUint16(b, 4)
	short := func(tag, v uint16) {
		b = le.AppendUint16(b, tag)
		b = le.AppendUint16(b, 3)
		b = le.AppendUint32(b, 1)
		b = le.AppendUint32(b, uint32(v))
	}
	short(274, turn)
	for _, tag := range []uint16{282, 283} {
		b = le.AppendUint16(b, tag)
		b = le.AppendUint16(b, 5)
		b = le.AppendUint32(b, 1)
		b = le.AppendUint32(b, 62)
	}
	short(296, unit)
	b = le.AppendUint32(b, 0)
	return le.AppendUint32(le.AppendUint32(b, uint32(perUnit)*10), 10)
}

// withSegment puts a segment behind the first two bytes of a JPEG file.
func withSegment(jpeg []byte, marker byte, body []byte) []byte {
	out := append([]byte{}, jpeg[:2]...)
	out = append(out, 0xff, marker)
	out = binary.BigEndian.AppendUint16(out, uint16(len(body)+2))
	return append(append(out, body...), jpeg[2:]...)
}

// withChunk puts a chunk behind the header of a PNG file.
func withChunk(png []byte, kind string, body []byte) []byte {
	chunk := append([]byte(kind), body...)
	out := append([]byte{}, png[:33]...)
	out = binary.BigEndian.AppendUint32(out, uint32(len(body)))
	out = binary.BigEndian.AppendUint32(append(out, chunk...), crc32.ChecksumIEEE(chunk))
	return append(out, png[33:]...)
}

func TestScale(t *testing.T) {
	// 79 × 100 pixels
	p := outlinetest.SheetOf(orb.MultiPolygon{{outlinetest.Circle(10, 10, 6)}}, 20, 25.4, 100, 255, 0, 0)
	be := binary.BigEndian
	phys := append(be.AppendUint32(be.AppendUint32(nil, 11811), 11811), 1)
	wide := append(be.AppendUint32(be.AppendUint32(nil, 4000), 8000), 1)
	jfif := func(unit byte, v uint16) []byte {
		b := append([]byte("JFIF\x00\x01\x02"), unit)
		return append(be.AppendUint16(be.AppendUint16(b, v), v), 0, 0)
	}
	for _, c := range []struct {
		name   string
		data   []byte
		o      outline.Options
		dpi    float64
		source string
		width  float64 // mm
	}{
		{"PNG that says nothing", outlinetest.PngOf(p), outline.Options{}, 300, outline.DPIAssumed, 79 / 300. * 25.4},
		{"PNG pHYs", withChunk(outlinetest.PngOf(p), "pHYs", phys), outline.Options{}, 300, outline.DPIFile,
			79 / 300. * 25.4},
		{"PNG pHYs without unit", withChunk(outlinetest.PngOf(p), "pHYs", append(phys[:8:8], 0)), outline.Options{},
			300, outline.DPIAssumed, 79 / 300. * 25.4},
		{"PNG with oblong pixels", withChunk(outlinetest.PngOf(p), "pHYs", wide), outline.Options{}, 203.2,
			outline.DPIFile, 79 / 4.},
		{"PNG eXIf", withChunk(outlinetest.PngOf(p), "eXIf", exif(1, 200, 2)), outline.Options{}, 200, outline.DPIFile,
			79 / 200. * 25.4},
		{"JPEG JFIF per inch", withSegment(outlinetest.JpegOf(p), 0xe0, jfif(1, 150)), outline.Options{}, 150,
			outline.DPIFile, 79 / 150. * 25.4},
		{"JPEG JFIF per cm", withSegment(outlinetest.JpegOf(p), 0xe0, jfif(2, 100)), outline.Options{}, 254,
			outline.DPIFile, 79 / 254. * 25.4},
		{"JPEG JFIF ratio only", withSegment(outlinetest.JpegOf(p), 0xe0, jfif(0, 1)), outline.Options{}, 300,
			outline.DPIAssumed, 79 / 300. * 25.4},
		{"JPEG Exif", withSegment(outlinetest.JpegOf(p), 0xe1, append([]byte("Exif\x00\x00"), exif(1, 240, 2)...)),
			outline.Options{}, 240, outline.DPIFile, 79 / 240. * 25.4},
		{"JPEG Exif per cm", withSegment(outlinetest.JpegOf(p), 0xe1, append([]byte("Exif\x00\x00"),
			exif(1, 100, 3)...)), outline.Options{}, 254, outline.DPIFile, 79 / 254. * 25.4},
		{"absurd resolution", withChunk(outlinetest.PngOf(p), "pHYs", []byte{0, 0, 0, 1, 0, 0, 0, 1, 1}),
			outline.Options{}, 300, outline.DPIAssumed, 79 / 300. * 25.4},
		{"typed", withChunk(outlinetest.PngOf(p), "pHYs", phys), outline.Options{DPI: 100}, 100, outline.DPITyped,
			79 / 100. * 25.4},
		{"typed height", withChunk(outlinetest.PngOf(p), "pHYs", phys), outline.Options{HeightMM: 50.8}, 50,
			outline.DPIHeight, 79 / 50. * 25.4},
		{"typed height, oblong pixels", withChunk(outlinetest.PngOf(p), "pHYs", wide), outline.Options{HeightMM: 50.8},
			50, outline.DPIHeight, 79 / 25. * 25.4},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := Read(c.data, c.name, c.o)
			if err != nil {
				t.Error(err)
				return
			}
			if math.Abs(r.DPI/c.dpi-1) > 1e-9 || r.DPISource != c.source || math.Abs(r.WidthMM/c.width-1) > 1e-9 {
				t.Errorf("%g dpi (%s), %g mm wide, not %g (%s), %g", r.DPI, r.DPISource, r.WidthMM, c.dpi,
					c.source, c.width)
			}
			if said := strings.Contains(strings.Join(r.Left, " "),
				"300 dpi is assumed"); said != (c.source == outline.DPIAssumed) {
				t.Errorf("told %q", r.Left)
			}
		})
	}
}

// All eight orientations of the same sheet give the same outline.
func TestOrientation(t *testing.T) {
	mp := orb.MultiPolygon{{outlinetest.PolygonRing(orb.Point{3, 3}, orb.Point{16, 4}, orb.Point{5, 22})}}
	upright := outlinetest.SheetOf(mp, 20, 25, 150, 255, 0, 0)
	w, h := upright.Bounds().Dx(), upright.Bounds().Dy()
	want, err := Read(outlinetest.PngOf(upright), "", outline.Options{DPI: 150})
	if err != nil {
		t.Fatal(err)
	}
	// Where row 0 and column 0 of the stored picture are in the upright one (Exif 2.32, tag 274): each stored pixel is
	// fetched from there.
	for turn, from := range map[uint16]func(x, y int) (int, int){
		1: func(x, y int) (int, int) { return x, y },
		2: func(x, y int) (int, int) { return w - 1 - x, y },
		3: func(x, y int) (int, int) { return w - 1 - x, h - 1 - y },
		4: func(x, y int) (int, int) { return x, h - 1 - y },
		5: func(x, y int) (int, int) { return y, x },
		6: func(x, y int) (int, int) { return w - 1 - y, x },
		7: func(x, y int) (int, int) { return w - 1 - y, h - 1 - x },
		8: func(x, y int) (int, int) { return y, h - 1 - x },
	} {
		t.Run(fmt.Sprintf("orientation %v", turn), func(t *testing.T) {
			sw, sh := w, h
			if turn >= 5 {
				sw, sh = h, w
			}
			stored := image.NewGray(image.Rect(0, 0, sw, sh))
			for y := range sh {
				for x := range sw {
					u, v := from(x, y)
					stored.SetGray(x, y, color.Gray{upright.GrayAt(u, v).Y})
				}
			}
			r, err := Read(withChunk(outlinetest.PngOf(stored), "eXIf", exif(turn, 150, 2)), "", outline.Options{})
			if err != nil {
				t.Errorf("orientation %d: %v", turn, err)
				return
			}
			if d := outlinetest.Farthest(outlinetest.Whole(r), outlinetest.Whole(want), 0.05); d > 1e-3 ||
				r.WidthPX != w ||
				r.HeightPX != h {
				t.Errorf("orientation %d: outline is %.4f mm off, size %d × %d", turn, d, r.WidthPX, r.HeightPX)
			}
		})
	}
}
