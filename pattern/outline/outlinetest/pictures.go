package outlinetest

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand"
	"testing"

	"openwork/geometry"
	"openwork/pattern/outline"

	"github.com/paulmach/orb"
)

// PngHeader is the beginning of a grey PNG of a size, with nothing after it.
func PngHeader(width, height uint32) []byte {
	head := binary.BigEndian.AppendUint32([]byte("IHDR"), width)
	head = append(binary.BigEndian.AppendUint32(head, height), 8, 0, 0, 0, 0)
	out := append([]byte("\x89PNG\r\n\x1a\n"), 0, 0, 0, 13)
	return binary.BigEndian.AppendUint32(append(out, head...), crc32.ChecksumIEEE(head))
}

func Flat(v uint8, w, h int) *image.Gray {
	p := image.NewGray(image.Rect(0, 0, w, h))
	for k := range p.Pix {
		p.Pix[k] = v
	}
	return p
}

func JpegOf(p image.Image) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, p, &jpeg.Options{Quality: 75}); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// SheetOf draws an outline in grey on a sheet of this many mm, without noise unless grain is given.
func SheetOf(mp orb.MultiPolygon, wide, tall, dpi, paper, ink, grain float64) *image.Gray {
	w, h := int(math.Round(wide*dpi/outline.MMPerInch)), int(math.Round(tall*dpi/outline.MMPerInch))
	rng := rand.New(rand.NewSource(3))
	p := image.NewGray(image.Rect(0, 0, w, h))
	for k, c := range Coverage(mp, w, h, dpi/outline.MMPerInch) {
		v := paper*(1-c) + ink*c + grain*rng.NormFloat64()
		p.Pix[k] = uint8(math.Max(0, math.Min(255, math.Round(v))))
	}
	return p
}

func Box(x, y, w, h float64) orb.Ring {
	return orb.Ring{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}, {x, y}}
}

func PngOf(p image.Image) []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, p); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// Sound fails the test if the rings are not closed, run the wrong way, are off the grid, or cross or touch themselves
// or each other; where touching is true, corners may touch. It looks at all pairs of edges.
func Sound(t *testing.T, name string, mp orb.MultiPolygon, touching bool) {
	t.Helper()
	var edges [][2]orb.Point
	for _, p := range mp {
		for j, r := range p {
			if len(r) < 4 || r[0] != r[len(r)-1] {
				t.Errorf("%s: a ring of %d points is not closed", name, len(r))
				return
			}
			if (geometry.RingArea(r) > 0) != (j == 0) {
				t.Errorf("%s: ring %d runs the wrong way", name, j)
			}
			for k := 0; k+1 < len(r); k++ {
				if r[k] != (orb.Point{geometry.Snap(r[k][0]), geometry.Snap(r[k][1])}) {
					t.Errorf("%s: %v is not on the grid", name, r[k])
				}
				edges = append(edges, [2]orb.Point{r[k], r[k+1]})
			}
		}
	}

	cross := func(a, b, c orb.Point) float64 { return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0]) }
	for i, e := range edges {
		for _, f := range edges[:i] {
			if math.Max(e[0][0], e[1][0]) < math.Min(f[0][0], f[1][0]) ||
				math.Max(f[0][0], f[1][0]) < math.Min(e[0][0], e[1][0]) ||
				math.Max(e[0][1], e[1][1]) < math.Min(f[0][1], f[1][1]) ||
				math.Max(f[0][1], f[1][1]) < math.Min(e[0][1], e[1][1]) ||
				e[0] == f[1] || e[1] == f[0] || touching && (e[0] == f[0] || e[1] == f[1]) {
				continue
			}
			if cross(e[0], e[1], f[0])*cross(e[0], e[1], f[1]) <= 0 &&
				cross(f[0], f[1], e[0])*cross(f[0], f[1], e[1]) <= 0 {
				t.Errorf("%s: edges %v and %v meet", name, e, f)
				return
			}
		}
	}
}
