package svgin

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf16"

	"openwork/geometry"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"
)

// Pairs of drawings that mean the same by the standards; what rsvg-convert does not know is held to this.
func TestSVGSameMeaning(t *testing.T) {
	for _, c := range []struct{ name, one, other string }{
		{"transform-origin",
			`<rect x="40" y="40" width="20" height="30" transform="rotate(30)" transform-origin="50 55"/>`,
			`<rect x="40" y="40" width="20" height="30" transform="rotate(30 50 55)"/>`},
		{"transform-origin of a style, in words",
			`<rect x="40" y="40" width="20" height="30" style="transform:rotate(.1turn);transform-origin:center top"/>`,
			`<rect x="40" y="40" width="20" height="30" transform="rotate(36 60 0)"/>`},
		{"transform-box",
			`<rect x="40" y="40" width="20" height="30" style="transform:skew(10deg) ` +
				`scaleY(150%);transform-origin:50% 100%;transform-box:fill-box"/>`, `<rect x="40" y="40" width="20" ` +
				`height="30" transform="translate(50 70) skewX(10) scale(1 1.5) translate(-50-70)"/>`},
		{"transform: none", `<rect x="40" y="40" width="20" height="30" transform="scale(2)" style="transform:none"/>`,
			`<rect x="40" y="40" width="20" height="30"/>`},
		{"a stroke that is not scaled",
			`<g transform="scale(2)"><path d="M5 5L40 25" stroke="black" stroke-width="4" ` +
				`vector-effect="non-scaling-stroke"/></g>`, `<path d="M10 10L80 50" stroke="black" stroke-width="4"/>`},
		{"pathLength", `<path d="M10 20h100" pathLength="10" stroke="black" stroke-width="4" stroke-dasharray="1"/>`,
			`<path d="M10 20h100" stroke="black" stroke-width="4" stroke-dasharray="10"/>`},
		{"dots", `<path d="M10 20h95" stroke="black" stroke-width="8" stroke-linecap="round" stroke-dasharray="0 10"/>`,
			strings.Repeat(`<g transform="translate(10 0)"><circle cy="20" r="4"/>`, 10) + strings.Repeat(`</g>`, 10)},
		{"a dash round the first corner",
			`<path d="M20 20h60v60h-60z" fill="none" stroke="black" stroke-width="8" stroke-dasharray="40 200" ` +
				`stroke-dashoffset="20"/>`, `<path d="M20 40v-20h20" fill="none" stroke="black" stroke-width="8"/>`},
		{"path by style", `<path d="M0 0h9v9z" style="d:path('M60 60h40v40z')"/>`, `<path d="M60 60h40v40z"/>`},
		{"use of an svg with its own place and size",
			`<defs><svg id="a" x="7" y="9" width="20" height="20" viewBox="0 0 10 10"><rect width="10" height="10"/>` +
				`</svg></defs><use href="#a" x="5" y="5"/><use href="#a" x="40" y="5" width="60" ` +
				`height="60"/>`, `<rect x="12" y="14" width="20" height="20"/><rect x="47" y="14" width="60" ` +
				`height="60"/>`},
		{"symbols",
			`<symbol id="a" width="30" height="20" viewBox="0 0 10 10"><circle cx="5" cy="5" r="5"/></symbol>` +
				`<use href="#a" x="50" y="50"/><use href="#a" x="80" y="50" ` +
				`width="20"/>`, `<circle cx="65" cy="60" r="10"/><circle cx="90" cy="60" r="10"/>`},
		{"a clip path on a clip path and in one",
			`<clipPath id="a"><rect x="10" y="10" width="60" height="60"/></clipPath>` +
				`<clipPath id="b" clip-path="url(#a)"><rect x="50" y="50" width="60" height="60"/></clipPath>` +
				`<clipPath id="c"><rect x="60" y="40" width="60" height="8" clip-path="url(#a)"/></clipPath>` +
				`<g clip-path="url(#b)"><rect width="120" height="120"/></g><rect width="120" height="120" ` +
				`clip-path="url(#c)"/>`, `<rect x="50" y="50" width="20" height="20"/>` +
				`<rect x="60" y="40" width="10" height="8"/>`},
		{"defer",
			`<svg width="80" height="40" viewBox="0 0 10 10" preserveAspectRatio="defer xMaxYMid">` +
				`<circle cx="5" cy="5" r="5"/></svg>`, `<circle cx="60" cy="20" r="20"/>`},
		{"initial and unset",
			`<g fill="none"><rect width="20" height="20" fill="initial"/><rect x="40" width="20" height="20" ` +
				`style="fill:unset;stroke:black;stroke-width:inherit"/>` +
				`</g>`, `<rect width="20" height="20"/><rect x="40" width="20" height="20" fill="none" ` +
				`stroke="black"/>`},
		{"styles for print and in another language",
			`<style media="print">rect{fill:none}</style><style type="text/other">rect{fill:none}</style>` +
				`<rect width="20" height="20"/>`, `<rect width="20" height="20"/>`},
		{"a list with a selector in error",
			`<style>rect,:hover >{fill:none} rect, rect:hover{stroke:none}</style>` +
				`<rect width="20" height="20" stroke="black"/>`, `<rect width="20" height="20"/>`},
		{"white over many",
			strings.Repeat(
				`<rect x="10" y="10" width="20" height="20"/><rect x="15" y="10" width="40" height="9" fill="snow"/>`,
				5) + `<rect x="80" width="9" height="9"/>`,
			`<path d="M10 10h5v9h15v11h-20z"/><rect x="80" width="9" height="9"/>`},
	} {
		t.Run(c.name, func(t *testing.T) {
			one, err := Read([]byte(outlinetest.SvgHead+c.one+`</svg>`), "one", outline.Options{})
			other, err2 := Read([]byte(outlinetest.SvgHead+c.other+`</svg>`), "other", outline.Options{})
			if err != nil || err2 != nil {
				t.Errorf("%v, %v", err, err2)
				return
			}
			a, b := outlinetest.Whole(one), outlinetest.Whole(other)
			if d := outlinetest.Farthest(a, b, 0.5); d > 2*outline.DefaultTolerance || len(a) != len(b) ||
				geometry.Area(a)/geometry.Area(b) > 1.01 || geometry.Area(b)/geometry.Area(a) > 1.01 {
				t.Errorf("%d and %d pieces, %.3f mm apart, %.3f and %.3f mm²", len(a), len(b), d,
					geometry.Area(a), geometry.Area(b))
			}
		})
	}
}

// A pen of half width 15 along half a circle of radius 5 covers half a disc of radius 20, and beyond the middle half a
// disc of radius 10; along a whole circle of radius 30, with half width 52, a disc of radius 82. Both come quickly
// though all cuts across the pen meet in the middle.
func TestStrokeWiderThanItsBend(t *testing.T) {
	for _, c := range []struct {
		svg  string
		area float64 // in square user units
	}{
		{`<path d="M40 60a5 5 0 0 1 10 0" fill="none" stroke="black" stroke-width="30"/>`,
			math.Pi / 2 * (20*20 + 10*10)},
		{`<circle cx="60" cy="60" r="30" stroke="black" stroke-width="104" transform="translate(54 54) scale(.1)"/>`,
			math.Pi * 8.2 * 8.2},
	} {
		t.Run(fmt.Sprintf("%g mm²", c.area), func(t *testing.T) {
			r, err := Read([]byte(outlinetest.SvgHead+c.svg+`</svg>`), "", outline.Options{})
			if err != nil {
				t.Error(err)
				return
			}
			if a := geometry.Area(outlinetest.Whole(r)) / math.Pow(outline.MMPerInch/96, 2); len(r.Pieces) != 1 ||
				math.Abs(a/c.area-1) > 2e-3 {
				t.Errorf("%d pieces of %.2f square units, not one of %.2f", len(r.Pieces), a, c.area)
			}
		})
	}
}

// The same drawing comes in many codings.
func TestSVGCodings(t *testing.T) {
	const body = `<rect x="10" y="10" width="40" height="30"/><circle cx="80" cy="80" r="20"/></svg>`
	want, err := Read([]byte(outlinetest.SvgHead+body), "", outline.Options{})
	if err != nil {
		t.Fatal(err)
	}
	wide := func(high int, mark bool) []byte {
		s := `<?xml version="1.0" encoding="UTF-16"?>` + outlinetest.SvgHead + body
		if mark {
			s = "\ufeff" + s
		}
		var out []byte
		for _, u := range utf16.Encode([]rune(s)) {
			pair := [2]byte{byte(u), byte(u)}
			pair[high], pair[1-high] = byte(u>>8), byte(u)
			out = append(out, pair[0], pair[1])
		}
		return out
	}
	var zipped bytes.Buffer
	z := gzip.NewWriter(&zipped)
	if _, err = z.Write(wide(1, true)); err == nil {
		err = z.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{
		"byte order mark": []byte("\ufeff" + outlinetest.SvgHead + body), "spaces first": []byte("\n\t " +
			outlinetest.SvgHead + body), "comment first": []byte("<!-- a -->" + outlinetest.SvgHead + body),
		"UTF-16 little": wide(1, true), "UTF-16 big": wide(0, true), "UTF-16 little without mark": wide(1, false),
		"UTF-16 big without mark": wide(0, false),
		"packed":                  zipped.Bytes(), "Latin-1": []byte(`<?xml version="1.0" encoding="iso-8859-1"?>` +
			strings.Replace(outlinetest.SvgHead+body, "<rect", "<title>\xe9</title><rect", 1)),
		"no namespace": []byte(strings.Replace(outlinetest.SvgHead+body, `xmlns="http://www.w3.org/2000/svg" `, "", 1)),
	} {
		t.Run(name, func(t *testing.T) {
			r, err := Read(data, name, outline.Options{})
			if err != nil {
				t.Error(err)
			} else if d := outlinetest.Farthest(outlinetest.Whole(r), outlinetest.Whole(want), 1); d > 1e-9 ||
				len(r.Pieces) != 2 {
				t.Errorf("%d pieces, %.3f mm off", len(r.Pieces), d)
			}
		})
	}
}

// A drawing without size and viewBox is as large as what it shows, wherever that lies.
func TestSVGWithoutPage(t *testing.T) {
	r, err :=
		Read([]byte(
			`<svg><rect x="-110" y="500" width="96" height="48"/><path d="M-100 600h96" stroke="black" `+
				`stroke-width="8"/></svg>`), "", outline.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if b := outlinetest.Whole(r).Bound(); len(r.Pieces) != 2 || b.Min[0] < 0 || b.Min[1] < 0 ||
		b.Max[0] > r.WidthMM+1e-4 || b.Max[1] > r.HeightMM+1e-4 || r.DPISource != outline.DPIAssumed {
		t.Errorf("%d pieces at %v on a page of %g × %g mm (%s)", len(r.Pieces), b, r.WidthMM, r.HeightMM, r.DPISource)
	}
	if a := geometry.Area(outlinetest.Whole(r)) * 96 * 96 / outline.MMPerInch / outline.MMPerInch; a < 5370 ||
		a > 5380 {
		t.Errorf("%.1f square units, not 5376", a)
	}
}

// Each of these ends with a sentence that says what to do or what is the matter, and quickly.
func TestSVGBadInput(t *testing.T) {
	for _, c := range []struct{ name, svg, want string }{
		{"used.svg", `<!DOCTYPE svg [<!ENTITY a "M0 0h9v9z">]><svg><path d="&a;"/></svg>`,
			"used.svg defines entities of its own"},
		{"parts.svg", `<!DOCTYPE svg [<!ENTITY % a "b">]><svg><rect width="9" height="9"/></svg>`,
			"parts.svg defines entities of its own"},
		{"large.svg", "<svg>" + strings.Repeat(" ", maxSVGBytes) + "</svg>",
			"large.svg is an SVG drawing of more than 32 MB"},
		{"dashes.svg", `<svg viewBox="0 0 100 100"><path d="M0 0h100" stroke="black" stroke-dasharray="1e-9"/></svg>`,
			"dashes.svg has strokes of more than 50000 dashes"},
		{"selectors.svg", `<svg><style>` + strings.Repeat("#n g g g .z{fill:none}", 10) + `</style>` +
			strings.Repeat("<g>", 100) + strings.Repeat(`<rect class="z" width="1" height="1"/>`, 300) +
			strings.Repeat("</g>", 100) + `</svg>`, "too many style rules"},
		{"boxes.svg",
			`<svg viewBox="0 0 9 9"><clipPath id="c" clipPathUnits="objectBoundingBox"><rect width="1" height="1"/>` +
				`</clipPath>` + strings.Repeat(`<g clip-path="url(#c)">`, 200) + strings.Repeat(`<rect width="9" `+
				`height="9"/>`, 2000) + strings.Repeat("</g>", 200) + `</svg>`, "draws more than 200000 elements"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Read([]byte(c.svg), c.name, outline.Options{})
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("the sentence is %v, not %q", err, c.want)
			}
		})
	}
}

func FuzzReadSVG(f *testing.F) {
	for _, d := range outlinetest.Drawings {
		f.Add(d.SVG)
	}
	f.Fuzz(func(t *testing.T, svg string) {
		if len(svg) > 1<<14 {
			return
		}
		r, err := Read([]byte(svg), "fuzz", outline.Options{})
		if err != nil {
			return
		}
		points := 0
		mp := outlinetest.Whole(r)
		for _, p := range mp {
			for _, ring := range p {
				points += len(ring)
			}
		}
		switch {
		case points == 0:
			t.Fatal("no error and no piece")
		case points < 2000:
			outlinetest.Sound(t, "fuzz", mp, true)
		}
	})
}
