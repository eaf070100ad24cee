package trace

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"image"
	"math"
	"math/rand"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"github.com/paulmach/orb"
)

func noise(w, h int, mean, deviation float64, seed int64) *image.Gray {
	rng := rand.New(rand.NewSource(seed))
	p := image.NewGray(image.Rect(0, 0, w, h))
	for k := range p.Pix {
		p.Pix[k] = uint8(math.Max(0, math.Min(255, mean+deviation*rng.NormFloat64())))
	}
	return p
}

func salt(w, h int, seed int64) *image.Gray {
	rng := rand.New(rand.NewSource(seed))
	p := image.NewGray(image.Rect(0, 0, w, h))
	for k := range p.Pix {
		p.Pix[k] = uint8(rng.Intn(2) * 255)
	}
	return p
}

func packed(s string) []byte {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	_, _ = z.Write([]byte(s)) // into memory
	_ = z.Close()
	return b.Bytes()
}

// Each bad input has its sentence.
func TestBadInput(t *testing.T) {
	disc := outlinetest.PngOf(outlinetest.SheetOf(orb.MultiPolygon{{outlinetest.Circle(10, 10, 6)}}, 20, 20, 150, 255,
		0, 0))
	deep := strings.Repeat("<g>", 10000) + strings.Repeat("</g>", 10000)
	laughs := `<!DOCTYPE svg [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;">]><svg><text>&b;</text></svg>`
	uses := `<svg><g id="a0"><rect width="1" height="1"/></g>`
	for k := range 30 {
		uses += fmt.Sprintf(`<g id="a%d"><use href="#a%d"/><use href="#a%d"/></g>`, k+1, k, k)
	}
	uses += `</svg>`
	for _, c := range []struct {
		name string
		data []byte
		o    outline.Options
		want string
	}{
		{"notes.png", []byte("These are my notes."), outline.Options{},
			"notes.png is not a picture or an SVG drawing this program reads"},
		{"page.svg", []byte("<html><body><svg/></body></html>"), outline.Options{},
			"page.svg is not a picture or an SVG drawing"},
		{"data.xml", []byte("<?xml version='1.0'?><a/>"), outline.Options{}, "is not a picture or an SVG drawing"},
		{"nothing", nil, outline.Options{}, "nothing is empty"},
		{"", []byte{0}, outline.Options{}, "the file is not a picture"},
		{"big.png", outlinetest.PngHeader(20000, 20000), outline.Options{},
			"big.png has 20000 × 20000 pixels; pictures up to 300 million pixels"},
		{"huge.png", outlinetest.PngHeader(30000, 30000), outline.Options{},
			"huge.png has 30000 × 30000 pixels; pictures up to 300 million pixels"},
		{"long.png", outlinetest.PngHeader(100000, 1), outline.Options{}, "and 32767 along a side"},
		{"flat.png", outlinetest.PngHeader(0, 10), outline.Options{}, "flat.png is a PNG picture"},
		{"cut.png", disc[:len(disc)/2], outline.Options{}, "cut.png is a PNG picture that is cut short"},
		{"head.png", outlinetest.PngHeader(100, 100), outline.Options{}, "cut short"},
		{"cut.jpg", outlinetest.JpegOf(outlinetest.Flat(9, 90, 90))[:300], outline.Options{},
			"cut.jpg is a JPEG picture that is cut short"},
		{"white.png", outlinetest.PngOf(outlinetest.Flat(255, 300, 300)), outline.Options{},
			"no drawing found: nothing in white.png stands out from the paper"},
		{"black.png", outlinetest.PngOf(outlinetest.Flat(0, 300, 300)), outline.Options{}, "no drawing found"},
		{"paper.png", outlinetest.PngOf(noise(400, 400, 235, 6, 1)), outline.Options{},
			"no drawing found: nothing in paper.png stands out"},
		{"paper.jpg", outlinetest.JpegOf(noise(400, 400, 235, 6, 1)), outline.Options{}, "no drawing found"},
		{"noise.png", outlinetest.PngOf(noise(400, 400, 128, 60, 1)), outline.Options{}, "no drawing found"},
		{"salt.png", outlinetest.PngOf(salt(400, 400, 1)), outline.Options{}, "no drawing found"},
		{"tiny.png", outlinetest.PngOf(outlinetest.Flat(255, 2, 2)), outline.Options{}, "no drawing found"},
		{"white.png", outlinetest.PngOf(outlinetest.Flat(255, 300, 300)), outline.Options{Level: 0.5},
			"no drawing found: nothing in white.png is darker than the level of 0.5"},
		{"black.png", outlinetest.PngOf(outlinetest.Flat(0, 300, 300)), outline.Options{Level: 0.5},
			"no drawing found: all of black.png counts as ink"},
		{"disc.png", disc, outline.Options{SpecksMM2: 200, DPI: 150}, "at least 200 mm² in size"},
		{"disc.png", disc, outline.Options{Level: 1},
			"no drawing found: everything in disc.png is darker than the level of 1"},
		{"salt.png", outlinetest.PngOf(salt(1500, 1500, 1)),
			outline.Options{Level: 0.3, SpecksMM2: -1, PinholesMM2: -1}, "falls apart into more than 20000 pieces"},
		{"disc.png", disc, outline.Options{DPI: 300, HeightMM: 30}, "both a resolution and a height are given"},
		{"disc.png", disc, outline.Options{DPI: -3}, "the resolution is -3; it may be from 10 to 4800 dpi"},
		{"disc.png", disc, outline.Options{HeightMM: math.NaN()}, "the height is not a number"},
		{"disc.png", disc, outline.Options{ToleranceMM: 50}, "the tolerance is 50; it may be from 0.001 to 10 mm"},
		{"disc.png", disc, outline.Options{Level: 1.5}, "the level is 1.5; it may be from 0 to 1"},
		{"laughs.svg", []byte(laughs), outline.Options{}, "laughs.svg defines entities of its own, which are not read"},
		{"uses.svg", []byte(uses), outline.Options{}, "uses.svg draws more than 200000 elements"},
		{"deep.svg", []byte("<svg>" + deep + "</svg>"), outline.Options{}, "more than 256 deep"},
		{"many.svg", []byte("<svg>" + strings.Repeat("<g/>", 200000) + "</svg>"), outline.Options{},
			"has more than 200000 elements"},
		{"bomb.svgz", packed("<svg>" + strings.Repeat(" ", 32<<20) + "</svg>"), outline.Options{},
			"an SVG drawing of more than 32 MB"},
		{"cut.svgz", packed("<svg><rect width='9' height='9'/></svg>")[:30], outline.Options{},
			"cut.svgz is packed, and damaged or cut short"},
		{"cut.svg", []byte("<svg><rect width='9' height='9'/>"), outline.Options{}, "cut.svg is cut short"},
		{"cut.svg", []byte("<svg><rect width='9"), outline.Options{}, "cut.svg is cut short"},
		{"odd.svg", []byte("<svg><rect width=9/></svg>"), outline.Options{}, "odd.svg is not well formed: line 1"},
		{"odd.svg", []byte("<svg></g></svg>"), outline.Options{}, "that nothing began"},
		{"two.svg", []byte("<svg/><svg/>"), outline.Options{}, "more than one root element"},
		{"host.svg", []byte(`<svg><use href="https://elsewhere.example/a.svg#b"/><rect width="9" height="9"/></svg>`),
			outline.Options{}, "host.svg wants something from another place (https://elsewhere.example/a.svg#b), and " +
				"nothing is fetched"},
		{"host.svg", []byte(`<svg xmlns:xlink="x"><image xlink:href="//elsewhere.example/a.png"/></svg>`),
			outline.Options{}, "nothing is fetched"},
		{"host.svg", []byte(`<svg><style>@import url("http://elsewhere.example/a.css");</style></svg>`),
			outline.Options{}, "nothing is fetched"},
		{"host.svg", []byte(`<svg><rect style="fill:url(http://elsewhere.example/a.svg#g)"/></svg>`), outline.Options{},
			"nothing is fetched"},
		{"host.svg", []byte(`<?xml-stylesheet href="http://elsewhere.example/a.css"?><svg/>`), outline.Options{},
			"nothing is fetched"},
		{"text.svg", []byte(`<svg><text>a</text><rect width="9" height="9" fill="none"/></svg>`), outline.Options{},
			"no drawing found: text.svg has no filled shape and no stroke that can be seen: 1 text left out"},
		{"far.svg", []byte(`<svg><rect width="1e9" height="9"/></svg>`), outline.Options{},
			"far.svg reaches further than 50 m"},
		{"nan.svg", []byte(`<svg><path d="M0 0 L1e999 5 5 5z"/></svg>`), outline.Options{}, "no drawing found"},
		{"outside.svg", []byte(`<svg width="10" height="10"><rect x="20" width="9" height="9"/></svg>`),
			outline.Options{}, "no drawing found"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := Read(c.data, c.name, c.o)
			if err == nil {
				t.Errorf("read without a word, %d pieces", len(r.Pieces))
				return
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("the sentence is %q, not %q", err, c.want)
			}
			if strings.HasSuffix(err.Error(), ".") || len(err.Error()) > 400 {
				t.Errorf("%q ends with a point or is long", err)
			}
		})
	}
}

// Circles of use end, and what is drawn without them is drawn.
func TestUseGoesRound(t *testing.T) {
	r, err := Read([]byte(`<svg viewBox="0 0 9 9"><g id="a"><use href="#b"/><rect width="3" height="3"/></g>`+
		`<g id="b"><use href="#a"/></g>
		<clipPath id="c" clip-path="url(#c)"><rect width="9" height="9" clip-path="url(#c)"/></clipPath>`+
		`<rect x="5" width="3" height="3" clip-path="url(#c)"/></svg>`), "", outline.Options{})
	if err != nil || len(r.Pieces) != 2 {
		t.Errorf("%d pieces (%v)", len(r.Pieces), err)
	}
}

func FuzzRead(f *testing.F) {
	disc := outlinetest.SheetOf(orb.MultiPolygon{{outlinetest.Circle(3, 3, 2),
		geometry.Reversed(outlinetest.Circle(3, 3, 1))}}, 6, 6, 100, 255, 0, 3)
	f.Add(outlinetest.PngOf(disc), 0.0, false)
	f.Add(outlinetest.JpegOf(disc), 0.4, true)
	f.Add(withSegment(outlinetest.JpegOf(disc), 0xe1, append([]byte("Exif\x00\x00"), exif(6, 240, 2)...)), 0.0, false)
	f.Add(outlinetest.PngHeader(20000, 20000), 0.0, false)
	f.Add([]byte(
		"GIF89a\x02\x00\x02\x00\x80\x00\x00\x00\x00\x00\xff\xff\xff,\x00\x00\x00\x00\x02\x00\x02\x00\x00\x02"+
			"\x02D\n\x00;"), 0.5, false)
	f.Add([]byte(
		"BM\x3a\x00\x00\x00\x00\x00\x00\x00\x36\x00\x00\x00\x28\x00\x00\x00\x01\x00\x00\x00\x01\x00\x00\x00\x01"+
			"\x00\x18\x00"), 0.5, false)
	f.Add([]byte("RIFF\x1a\x00\x00\x00WEBPVP8L\x0d\x00\x00\x00/\x00\x00\x00\x10\x07\x10\x11\x11\x88\x88\xfe\x07\x00"),
		0.5, false)
	for _, d := range outlinetest.Drawings {
		f.Add([]byte(d.SVG), 0.0, false)
	}
	f.Add([]byte(`<!DOCTYPE svg [<!ENTITY a "b">]><svg>&a;</svg>`), 0.0, true)
	f.Fuzz(func(t *testing.T, data []byte, level float64, invert bool) {
		if len(data) > 1<<16 {
			return
		}
		r, err := Read(data, "fuzz", outline.Options{Level: level, Invert: invert})
		if err != nil {
			return
		}
		if len(r.Pieces) == 0 {
			t.Fatal("no error and no piece")
		}
		if mp := outlinetest.Whole(r); len(mp) < 50 {
			n := 0
			for _, p := range mp {
				for _, r := range p {
					n += len(r)
				}
			}
			if n < 2000 {
				outlinetest.Sound(t, "fuzz", mp, true)
			}
		}
	})
}
