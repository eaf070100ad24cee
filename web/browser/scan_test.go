package browser

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/fogleman/gg"
)

// The drawing that the main job brings in: a scan of the demonstration's carp, kept with the other drawings.
const keptScan = "../../testdata/drawings/carp-scan.png"

const (
	scanDPI = 300
	scanMM  = scanDPI / 25.4 // px to the mm
)

// carpScan returns the path of a scan of the carp: the one kept with the drawings, or one drawn now.
func carpScan(t *testing.T, p *tab) string {
	t.Helper()
	if _, err := os.Stat(keptScan); err == nil {
		return keptScan
	}
	return drawnScan(t, p)
}

// drawnScan draws the open draft's carp as a scanner would see it at 300 dots to the inch: grey paper, noise, a shadow
// over the fold, a few specks; the resolution is in the file.
func drawnScan(t *testing.T, p *tab) string {
	t.Helper()
	s, ok := p.draft().Silhouette("carp")
	if !ok {
		t.Fatal("the demonstration holds no carp")
	}
	b := s.Outline.Bound()
	const air = 8 // mm of paper all round
	w, h := int((b.Max[0]-b.Min[0]+2*air)*scanMM), int((b.Max[1]-b.Min[1]+2*air)*scanMM)
	c := gg.NewContext(w, h)
	c.SetRGB(1, 1, 1)
	c.Clear()
	c.SetRGB(0, 0, 0)
	c.SetFillRuleEvenOdd()
	for _, polygon := range s.Outline {
		for _, ring := range polygon {
			for i, v := range ring {
				x, y := (v[0]-b.Min[0]+air)*scanMM, float64(h)-(v[1]-b.Min[1]+air)*scanMM
				if i == 0 {
					c.MoveTo(x, y)
				} else {
					c.LineTo(x, y)
				}
			}
			c.ClosePath()
		}
	}
	c.Fill()
	const seed = 20
	r := rand.New(rand.NewPCG(seed, seed))
	for range 40 {
		c.DrawCircle(r.Float64()*float64(w), r.Float64()*float64(h), 0.5+1.5*r.Float64())
	}
	c.Fill()
	inked := c.Image()
	out := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			ink, _, _, _ := inked.At(x, y).RGBA()
			light := 48 + 182*float64(ink)/65535
			light -= 25 * float64(x) / float64(w) // the lamp falls off
			light += 7 * r.NormFloat64()
			out.SetGray(x, y, color.Gray{Y: uint8(max(0, min(255, light)))})
		}
	}
	return write(t, "carp-scan.png", withResolution(encode(t, out), scanDPI))
}

func encode(t *testing.T, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// write puts a file into a folder of the test's own and returns its path.
func write(t *testing.T, file string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), file)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// chunk is one chunk of a PNG (PNG specification, third edition, 5.3): length, type, data, and the check over the last
// two.
func chunk(kind string, data []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	body := append([]byte(kind), data...)
	out = append(out, body...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(body))
}

// withResolution puts a pHYs chunk behind the header of a PNG.
func withResolution(file []byte, dpi float64) []byte {
	const header = 8 + 25 // signature, and IHDR with its frame
	perMetre := uint32(dpi/0.0254 + 0.5)
	data := binary.BigEndian.AppendUint32(nil, perMetre)
	data = binary.BigEndian.AppendUint32(data, perMetre)
	data = append(data, 1) // the unit is the metre
	out := append([]byte(nil), file[:header]...)
	out = append(out, chunk("pHYs", data)...)
	return append(out, file[header:]...)
}

// headerOnly is a PNG that promises a huge picture and holds next to nothing.
func headerOnly(width, height uint32) []byte {
	head := binary.BigEndian.AppendUint32(nil, width)
	head = binary.BigEndian.AppendUint32(head, height)
	head = append(head, 8, 0, 0, 0, 0) // eight bits of grey
	out := []byte("\x89PNG\r\n\x1a\n")
	out = append(out, chunk("IHDR", head)...)
	out = append(out, chunk("IDAT", []byte{0x78, 0x9c, 0x03, 0x00, 0x00, 0x00, 0x00, 0x01})...)
	return append(out, chunk("IEND", nil)...)
}
