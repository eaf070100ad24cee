package scan

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/gif"
	"math"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

// smallWebP is a picture of one grey pixel, without loss.
const smallWebP = "RIFF\x1a\x00\x00\x00WEBPVP8L\x0d\x00\x00\x00/\x00\x00\x00\x10\x07\x10\x11\x11\x88\x88\xfe\x07\x00"

// kinds returns a grey picture as files of all kinds that can be written here, by kind.
func kinds(t testing.TB, p *image.Gray) map[string][]byte {
	t.Helper()
	pale := image.NewPaletted(p.Bounds(), nil)
	for k := range 256 {
		pale.Palette = append(pale.Palette, color.Gray{uint8(k)})
	}
	copy(pale.Pix, p.Pix)
	deep := image.NewGray16(p.Bounds())
	for y := range p.Bounds().Dy() {
		for x := range p.Bounds().Dx() {
			deep.Set(x, y, p.GrayAt(x, y))
		}
	}
	var g, b, f bytes.Buffer
	for _, err := range []error{gif.Encode(&g, pale, nil), bmp.Encode(&b, p), tiff.Encode(&f, p, nil)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return map[string][]byte{"PNG": outlinetest.PngOf(p), "PNG of 16 bits": outlinetest.PngOf(deep),
		"JPEG": outlinetest.JpegOf(p), "GIF": g.Bytes(), "BMP": b.Bytes(), "TIFF": f.Bytes()}
}

// A picture cut short anywhere is a sentence that says so, or is read when only what follows the picture is missing.
func TestCutShort(t *testing.T) {
	disc := outlinetest.SheetOf(orb.MultiPolygon{{outlinetest.Circle(10, 10, 6)}}, 20, 20, 120, 250, 20, 4)
	all := kinds(t, disc)
	all["WebP"] = []byte(smallWebP)
	for kind, data := range all {
		for part := range 24 {
			cut := data[:len(data)*part/24]
			r, err := Read(cut, "cut", outline.Options{DPI: 120})
			switch {
			case err == nil && len(r.Pieces) != 1:
				t.Errorf("%s, %d of %d bytes: %d pieces", kind, len(cut), len(data), len(r.Pieces))
			case err == nil && part < 20:
				t.Errorf("%s, %d of %d bytes: read without a word", kind, len(cut), len(data))
			case err != nil && len(cut) > 12 && // fewer do not tell what it is
				!strings.Contains(err.Error(), "cut short") && !strings.Contains(err.Error(), "damaged"):
				t.Errorf("%s, %d of %d bytes: %v", kind, len(cut), len(data), err)
			}
		}
	}
}

// inkJPEG is a JPEG file of four components, as printers use, all with the same values; adobe says that they are cyan,
// magenta, yellow and black, lightest at 255.
func inkJPEG(p *image.Gray, adobe bool) []byte {
	data := outlinetest.JpegOf(p)
	out := append([]byte{}, data[:2]...)
	if adobe {
		out = append(out, "\xff\xee\x00\x0eAdobe\x00\x64\x00\x00\x00\x00\x00"...)
	}
	for at := 2; ; {
		n := int(binary.BigEndian.Uint16(data[at+2:]))
		body := data[at+4 : at+2+n]
		switch data[at+1] {
		case 0xc0: // the frame: bits, height, width, components
			out = append(out, 0xff, 0xc0, 0, 20)
			out = append(out, body[:5]...)
			out = append(out, 4)
			for c := range byte(4) {
				out = append(out, c+1, 0x11, 0)
			}
		case 0xda: // one scan after another
			scan := data[at+2+n : len(data)-2]
			for c := range byte(4) {
				out = append(out, 0xff, 0xda, 0, 8, 1, c+1, 0, 0, 63, 0)
				out = append(out, scan...)
			}
			return append(out, 0xff, 0xd9)
		default:
			out = append(out, data[at:at+2+n]...)
		}
		at += 2 + n
	}
}

func TestPrintersJPEG(t *testing.T) {
	mp := orb.MultiPolygon{{outlinetest.Circle(10, 10, 6)}}
	// Ink of all four where the picture is dark: 0 is full ink in these files.
	p := outlinetest.SheetOf(mp, 20, 20, 300, 250, 60, 2)
	r, err := Read(inkJPEG(p, true), "print.jpg", outline.Options{DPI: 300})
	if err != nil || len(r.Pieces) != 1 || math.Abs(geometry.Area(outlinetest.Whole(r))/(36*math.Pi)-1) > 0.02 {
		t.Errorf("%d pieces, area %g (%v)", len(r.Pieces), geometry.Area(outlinetest.Whole(r)), err)
	}
	if _, err := Read(inkJPEG(p, false), "print.jpg", outline.Options{}); err == nil ||
		!strings.Contains(err.Error(), "print.jpg is a JPEG picture that is damaged or of a sort that is not read") {
		t.Errorf("four components that say nothing of themselves: %v", err)
	}
}

// Sizes that cannot be are told from the header.
func TestHeadersAlone(t *testing.T) {
	gifHead := func(w, h uint16) []byte {
		return append(binary.LittleEndian.AppendUint16(binary.LittleEndian.AppendUint16([]byte("GIF89a"), w), h),
			0, 0, 0)
	}
	jpegHead := func(w, h uint16) []byte {
		b := []byte("\xff\xd8\xff\xe0\x00\x10JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00\xff\xc0\x00\x0b\x08")
		return append(binary.BigEndian.AppendUint16(binary.BigEndian.AppendUint16(b, h), w), 1, 1, 0x11, 0)
	}
	bmpHead := func(w, h uint32) []byte {
		b := make([]byte, 54)
		copy(b, "BM")
		b[10], b[14], b[26], b[28] = 54, 40, 1, 24
		binary.LittleEndian.PutUint32(b[18:], w)
		binary.LittleEndian.PutUint32(b[22:], h)
		return b
	}
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"no pixels, PNG":  {outlinetest.PngHeader(0, 0), "is a PNG picture"},
		"no pixels, GIF":  {gifHead(0, 0), "is a GIF picture of 0 × 0 pixels"},
		"no pixels, JPEG": {jpegHead(0, 0), "is a JPEG picture"},
		"no pixels, BMP":  {bmpHead(0, 0), "is a BMP picture of 0 × 0 pixels"},
		"huge, PNG": {outlinetest.PngHeader(30000, 30000),
			"has 30000 × 30000 pixels; pictures up to 300 million"},
		"huge, GIF":  {gifHead(30000, 30000), "has 30000 × 30000 pixels"},
		"huge, JPEG": {jpegHead(30000, 30000), "has 30000 × 30000 pixels"},
		"huge, BMP":  {bmpHead(30000, 30000), "has 30000 × 30000 pixels"},
	} {
		if _, err := Read(c.data, name, outline.Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, not %q", name, err, c.want)
		}
	}
}

func TestTenThousandSpecks(t *testing.T) {
	p := outlinetest.Flat(240, 1500, 1500)
	for j := range 100 {
		for i := range 100 {
			for k := range 16 {
				p.Pix[(15*j+4+k/4)*p.Stride+15*i+4+k%4] = 30
			}
		}
	}
	if _, err := Read(outlinetest.PngOf(p), "dust.png", outline.Options{DPI: 300}); err == nil ||
		!strings.Contains(err.Error(), "no drawing found: nothing in dust.png") {
		t.Errorf("only specks: %v", err)
	}
	for y := 300; y < 900; y++ {
		for x := 300; x < 900; x++ {
			p.Pix[y*p.Stride+x] = 30
		}
	}
	picture := outlinetest.PngOf(p)
	r, err := Read(picture, "dust.png", outline.Options{DPI: 300})
	if all := strings.Join(r.Left, " "); err != nil || len(r.Pieces) != 1 ||
		!strings.Contains(all, "8400 specks under 0.5 mm² left out.") {
		t.Errorf("%d pieces, told %q (%v)", len(r.Pieces), all, err)
	}
	if r, err = Read(picture, "dust.png", outline.Options{DPI: 300, SpecksMM2: -1}); err != nil ||
		len(r.Pieces) != 8401 {
		t.Errorf("with everything kept: %d pieces (%v)", len(r.Pieces), err)
	}
	r, err = Read(picture, "dust.png", outline.Options{DPI: 300, SpecksMM2: -1, Pencil: true})
	if err == nil || !strings.Contains(err.Error(), "no line in dust.png closes") {
		t.Errorf("as lines: %d pieces (%v)", len(r.Pieces), err)
	}
}

func FuzzReadPicture(f *testing.F) {
	ring := outlinetest.SheetOf(orb.MultiPolygon{{outlinetest.Circle(3, 3, 2),
		geometry.Reversed(outlinetest.Circle(3, 3, 1))}}, 6, 6, 100, 255, 0, 3)
	for _, data := range kinds(f, ring) {
		f.Add(data, uint8(0), 0.0)
		f.Add(data, uint8(7), 30.0)
	}
	f.Add([]byte(smallWebP), uint8(3), 0.3)
	f.Add(inkJPEG(ring, true), uint8(1), 0.0)
	f.Add(outlinetest.PngHeader(30000, 30000), uint8(0), 0.0)
	f.Fuzz(func(t *testing.T, data []byte, choices uint8, turn float64) {
		if len(data) > 1<<16 || pictureDecoder(data) == nil {
			return
		}
		o := outline.Options{Turn: turn, Pencil: choices&1 > 0, Flat: choices&2 > 0, Upright: int(choices >> 6)}
		if choices&4 > 0 {
			o.SmoothingMM, o.BridgeMM, o.OpeningMM = 0.3, 1, 1
		}
		if choices&8 > 0 {
			o.Crop = [4]int{1, 2, 1 + int(choices>>4)*2, 12}
		}
		if choices&16 > 0 {
			o.Level = 0.5
		}
		report := 0.0
		o.Progress = func(part float64) {
			if part < report || part > 1 {
				t.Fatalf("told %g after %g", part, report)
			}
			report = part
		}
		r, err := Read(data, "fuzz", o)
		if err != nil {
			return
		}
		if len(r.Pieces) == 0 || report != 1 {
			t.Fatalf("%d pieces, told %g", len(r.Pieces), report)
		}
		if mp := outlinetest.Whole(r); geometry.Points(mp) < 2000 {
			outlinetest.Sound(t, "fuzz", mp, true)
		}
	})
}
