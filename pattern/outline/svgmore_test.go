package outline

import (
	"bytes"
	"compress/gzip"
	"math"
	"strings"
	"testing"
	"unicode/utf16"

	"openwork/geometry"
)

const svgHead = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="120" height="120">`

// moreDrawings are for features in one another; they are drawn by rsvg-convert as well.
var moreDrawings = []struct{ name, svg string }{
	{"svg in svg in svg, per cent and overflow", svgHead + `<svg x="10%" y="10%" width="50%" height="50%" viewBox="0 0 200 100"><svg x="50%" y="25%" width="50%" height="50%"><rect width="50%" height="50%"/><circle cx="75%" cy="75%" r="10%"/></svg>
		<g transform="rotate(20)"><svg x="5" y="5" width="60" height="40" viewBox="0 0 10 10" overflow="visible"><rect x="-3" width="16" height="10"/></svg></g></svg>
		<style>.v{overflow:visible}</style><svg class="v" x="80" y="80" width="20" height="20"><rect x="-5" y="-5" width="30" height="20"/></svg></svg>`},
	{"letter heights", svgHead + `<g style="font-size:20px"><rect x="1em" y="1em" width="1em" height="2ex"/><g font-size=".5em"><rect x="5em" y="1em" width="2em" height="2em"/></g></g>
		<g style="font:italic bold 10px/12px serif"><rect x="8em" y="8em" width="2em" height="2em" rx="1ex"/></g><g font-size="10" stroke="black"><path d="M10 60h50" stroke-width="1em"/><path d="M10 90h50" stroke-width="5%"/></g></svg>`},
	{"rounded rectangles", svgHead + `<rect x="2" y="2" width="30" height="20" rx="40"/><rect x="40" y="2" width="30" height="20" ry="40"/><rect x="80" y="2" width="30" height="20" rx="5" ry="100"/><rect x="2" y="30" width="30" height="20" rx="0" ry="5"/>
		<rect x="40" y="30" width="30" height="20" rx="-3" ry="5"/><rect x="80" y="30" width="30" height="20" rx="10%" ry="5%"/><rect x="2" y="60" width="30" height="20" rx="auto" ry="5"/><rect x="40" y="60" width="-30" height="20"/></svg>`},
	{"round joins end where a butt end does", svgHead + `<g fill="none" stroke="black" stroke-width="12" stroke-linejoin="round"><path d="M20 40Q60 10 100 50"/><path d="M20 80C120 60 0 60 100 80"/><path d="M20 100l20 10 20-10" stroke-width="6"/></g></svg>`},
	{"dashes", svgHead + `<g fill="none" stroke="black" stroke-width="4" stroke-dasharray="10,5 2"><path d="M10 10h100"/><path d="M10 30h100" stroke-dashoffset="7"/><path d="M10 40h100" stroke-dashoffset="-7"/><rect x="21" y="55" width="30" height="30"/>
		<circle cx="85" cy="75" r="18" stroke-linecap="round"/><path d="M10 110L30 95L50 110L70 95m10 0l20 10z" stroke-linejoin="round" stroke-linecap="square"/></g></svg>`},
	{"dashes that are none", svgHead + `<g stroke="black" stroke-width="4"><path d="M10 10h100" stroke-dasharray="none"/><path d="M10 20h100" stroke-dasharray="0"/><path d="M10 30h100" stroke-dasharray="-3 4"/><path d="M10 40h100" stroke-dasharray="10 abc"/></g></svg>`},
	{"a point that is closed has caps", svgHead + `<g stroke="black" stroke-width="20" stroke-linecap="round"><path d="M30 30z"/><path d="M80 30h0" stroke-linecap="square"/><path d="M30 80h0" stroke-linecap="butt"/></g></svg>`},
	{"clip paths in one another", svgHead + `<clipPath id="b"><circle cx="60" cy="40" r="30"/></clipPath><rect width="120" height="45" clip-path="url(&quot;#b&quot;)"/>
		<clipPath id="t" transform="rotate(20 60 90)"><g><rect width="120" height="120"/></g><rect x="30" y="75" width="60" height="30" transform="scale(.9)" opacity="0" fill="none"/></clipPath><g transform="translate(10 0)" style="clip-path:url(#t)"><rect width="120" height="120"/></g></svg>`},
	{"clip rule from around", svgHead + `<g clip-rule="evenodd"><clipPath id="c"><path d="M10 10h100v100h-100zM30 30h60v60h-60z"/></clipPath></g><rect width="120" height="90" clip-path="url(#c)"/></svg>`},
	{"clip paths measured by what they cut", svgHead + `<clipPath id="c" clipPathUnits="objectBoundingBox"><circle cx=".5" cy=".5" r=".5"/></clipPath><rect x="10" y="10" width="60" height="30" clip-path="url(#c)"/>
		<g clip-path="url(#c)"><rect x="10" y="60" width="20" height="20"/><rect x="60" y="70" width="40" height="40"/></g><g id="u"><circle cx="30" cy="60" r="9"/></g><use href="#u" x="70" y="-40" clip-path="url(#c)"/><path d="M100 10h10" stroke="black" clip-path="url(#c)"/></svg>`},
	{"a clip path on the drawing itself", strings.Replace(svgHead, ">", ` clip-path="url(#c)" transform="translate(5 0)">`, 1) + `<clipPath id="c"><circle cx="60" cy="60" r="40"/></clipPath><rect width="120" height="60"/></svg>`},
	{"colours", svgHead + `<rect width="10" height="10" fill="#000f"/><rect x="12" width="10" height="10" fill="#0000"/><rect x="24" width="10" height="10" fill="rgb(0 0 0)"/><rect x="48" width="10" height="10" fill="rgba(0,0,0,0)"/><rect x="72" width="10" height="10" fill="hsl(120,100%,0%)"/>
		<rect x="84" width="10" height="10" fill="hsla(120,100%,0%,0)"/><rect x="96" width="10" height="10" fill="hsl(240, 50%, 100%)"/><rect y="20" width="10" height="10" fill="BLACK"/><rect y="20" x="12" width="10" height="10" fill="bogus"/><g fill="none"><rect y="20" x="36" width="10" height="10" style="fill:bogus"/>
		<rect y="20" x="48" width="10" height="10" fill="#12"/></g><rect y="20" x="60" width="10" height="10" fill="White"/><g color="black" fill="none"><rect y="40" x="24" width="10" height="10" color="transparent" fill="currentColor"/><rect y="40" x="12" width="10" height="10" fill="CURRENTCOLOR"/></g></svg>`},
	{"selectors", svgHead + `<style type="text/css"><![CDATA[ <!--
		g rect{fill:none} g .on{fill:black} g > .kid{fill:black} rect.x,circle.y{fill:black} svg g#id rect{fill:black} rect + circle{fill:none} rect ~ ellipse{fill:none} rect:first-child{fill:black} rect[width="11"]{fill:black} .m.n{fill:black} .b{fill:none!important}
		--> ]]></style><g><rect width="10" height="10"/><rect x="12" width="10" height="10"/><rect class="on" x="24" width="10" height="10"/><rect class="kid" x="36" width="10" height="10"/><g><rect/><rect class="kid" x="48" width="10" height="10"/></g><rect class="x" x="60" width="10" height="10"/>
		<rect class="m n" x="72" width="10" height="10"/><rect class="m" x="84" width="10" height="10"/></g><g id="id"><g><rect y="20" width="10" height="10"/></g></g><rect x="20" y="20" width="10" height="10"/><circle cx="45" cy="25" r="5"/><ellipse cx="65" cy="25" rx="5" ry="5"/>
		<g><rect/><rect x="95" y="20" width="11" height="10"/></g><rect class="b" x="20" y="50" width="10" height="10" style="fill:black"/><rect id="r" x="40" y="50" width="10" height="10"/><g><use href="#r" x="20"/></g></svg>`},
	{"style attributes", svgHead + `<rect width="20" height="20" style="fill:url(data:a;b) black;;stroke:black;stroke-width:4"/><rect x="80" width="20" height="20" style="fill:none;fill:bogus"/><rect x="10" y="40" width="20" height="20" style="/*c*/fill:none/*d*/;stroke:black;stroke-width:3"/>
		<rect style="x:50px;y:50px;width:30px;height:25%;rx:4px"/></svg>`},
	{"the stroke under the fill", svgHead + `<path d="M20 20h50v50h-50z"/><circle cx="50" cy="50" r="20" fill="white" stroke="black" stroke-width="10" paint-order="stroke"/></svg>`},
	{"transforms, badly written", svgHead + `<rect x="40" y="20" width="10" height="10" transform=" translate ( 10 , 10 ) , rotate(10) "/><rect x="60" y="20" width="10" height="10" transform="translate(1e1)rotate(-5)"/><rect x="80" y="20" width="10" height="10" transform="scale(0)"/>
		<rect x="5" y="60" width="10" height="10" transform="rotate(10 20)"/><rect x="60" y="60" width="10" height="10" transform="translate(5px 5px)"/><rect x="80" y="80" width="10" height="10" style="transform:translate(10px,5px) rotate(10deg)"/></svg>`},
	{"prefixes of one's own", `<s:svg xmlns:s="http://www.w3.org/2000/svg" xmlns:x="http://www.w3.org/1999/xlink" width="80" height="60"><s:defs><s:rect id="r" width="30" height="30"/></s:defs><s:use x:href="#r" x="20"/></s:svg>`},
	{"entities for namespaces only", `<!DOCTYPE svg [<!ENTITY ns_svg "http://www.w3.org/2000/svg"><!ATTLIST svg a CDATA #IMPLIED>]><svg xmlns="&ns_svg;" width="80" height="60"><rect x="10" y="10" width="20" height="20"/></svg>`},
	{"mixed with elements of others", `<svg xmlns="http://www.w3.org/2000/svg" xmlns:i="urn:i" width="120" height="120"><i:p><rect width="50" height="50"/></i:p><switch><foreignObject requiredExtensions="urn:i" width="1" height="1"><i:x/></foreignObject><g i:e="self"><rect x="60" y="60" width="40" height="40"/></g></switch><a href="https://a.example/"><rect width="9" height="9"/></a></svg>`},
}

func init() { drawings = append(drawings, moreDrawings...) }

// Pairs of drawings that mean the same by the standards; what rsvg-convert does not know is held to this.
func TestSVGSameMeaning(t *testing.T) {
	for _, c := range []struct{ name, one, other string }{
		{"transform-origin", `<rect x="40" y="40" width="20" height="30" transform="rotate(30)" transform-origin="50 55"/>`, `<rect x="40" y="40" width="20" height="30" transform="rotate(30 50 55)"/>`},
		{"transform-origin of a style, in words", `<rect x="40" y="40" width="20" height="30" style="transform:rotate(.1turn);transform-origin:center top"/>`, `<rect x="40" y="40" width="20" height="30" transform="rotate(36 60 0)"/>`},
		{"transform-box", `<rect x="40" y="40" width="20" height="30" style="transform:skew(10deg) scaleY(150%);transform-origin:50% 100%;transform-box:fill-box"/>`, `<rect x="40" y="40" width="20" height="30" transform="translate(50 70) skewX(10) scale(1 1.5) translate(-50-70)"/>`},
		{"transform: none", `<rect x="40" y="40" width="20" height="30" transform="scale(2)" style="transform:none"/>`, `<rect x="40" y="40" width="20" height="30"/>`},
		{"a stroke that is not scaled", `<g transform="scale(2)"><path d="M5 5L40 25" stroke="black" stroke-width="4" vector-effect="non-scaling-stroke"/></g>`, `<path d="M10 10L80 50" stroke="black" stroke-width="4"/>`},
		{"pathLength", `<path d="M10 20h100" pathLength="10" stroke="black" stroke-width="4" stroke-dasharray="1"/>`, `<path d="M10 20h100" stroke="black" stroke-width="4" stroke-dasharray="10"/>`},
		{"dots", `<path d="M10 20h95" stroke="black" stroke-width="8" stroke-linecap="round" stroke-dasharray="0 10"/>`, strings.Repeat(`<g transform="translate(10 0)"><circle cy="20" r="4"/>`, 10) + strings.Repeat(`</g>`, 10)},
		{"a dash round the first corner", `<path d="M20 20h60v60h-60z" fill="none" stroke="black" stroke-width="8" stroke-dasharray="40 200" stroke-dashoffset="20"/>`, `<path d="M20 40v-20h20" fill="none" stroke="black" stroke-width="8"/>`},
		{"path by style", `<path d="M0 0h9v9z" style="d:path('M60 60h40v40z')"/>`, `<path d="M60 60h40v40z"/>`},
		{"use of an svg with its own place and size", `<defs><svg id="a" x="7" y="9" width="20" height="20" viewBox="0 0 10 10"><rect width="10" height="10"/></svg></defs><use href="#a" x="5" y="5"/><use href="#a" x="40" y="5" width="60" height="60"/>`, `<rect x="12" y="14" width="20" height="20"/><rect x="47" y="14" width="60" height="60"/>`},
		{"symbols", `<symbol id="a" width="30" height="20" viewBox="0 0 10 10"><circle cx="5" cy="5" r="5"/></symbol><use href="#a" x="50" y="50"/><use href="#a" x="80" y="50" width="20"/>`, `<circle cx="65" cy="60" r="10"/><circle cx="90" cy="60" r="10"/>`},
		{"a clip path on a clip path and in one", `<clipPath id="a"><rect x="10" y="10" width="60" height="60"/></clipPath><clipPath id="b" clip-path="url(#a)"><rect x="50" y="50" width="60" height="60"/></clipPath><clipPath id="c"><rect x="60" y="40" width="60" height="8" clip-path="url(#a)"/></clipPath><g clip-path="url(#b)"><rect width="120" height="120"/></g><rect width="120" height="120" clip-path="url(#c)"/>`, `<rect x="50" y="50" width="20" height="20"/><rect x="60" y="40" width="10" height="8"/>`},
		{"defer", `<svg width="80" height="40" viewBox="0 0 10 10" preserveAspectRatio="defer xMaxYMid"><circle cx="5" cy="5" r="5"/></svg>`, `<circle cx="60" cy="20" r="20"/>`},
		{"initial and unset", `<g fill="none"><rect width="20" height="20" fill="initial"/><rect x="40" width="20" height="20" style="fill:unset;stroke:black;stroke-width:inherit"/></g>`, `<rect width="20" height="20"/><rect x="40" width="20" height="20" fill="none" stroke="black"/>`},
		{"styles for print and in another language", `<style media="print">rect{fill:none}</style><style type="text/other">rect{fill:none}</style><rect width="20" height="20"/>`, `<rect width="20" height="20"/>`},
		{"a list with a selector in error", `<style>rect,:hover >{fill:none} rect, rect:hover{stroke:none}</style><rect width="20" height="20" stroke="black"/>`, `<rect width="20" height="20"/>`},
		{"white over many", strings.Repeat(`<rect x="10" y="10" width="20" height="20"/><rect x="15" y="10" width="40" height="9" fill="snow"/>`, 5) + `<rect x="80" width="9" height="9"/>`, `<path d="M10 10h5v9h15v11h-20z"/><rect x="80" width="9" height="9"/>`},
	} {
		one, err := Read([]byte(svgHead+c.one+`</svg>`), "one", Options{})
		other, err2 := Read([]byte(svgHead+c.other+`</svg>`), "other", Options{})
		if err != nil || err2 != nil {
			t.Errorf("%s: %v, %v", c.name, err, err2)
			continue
		}
		a, b := whole(one), whole(other)
		if d := farthest(a, b, 0.5); d > 2*DefaultTolerance || len(a) != len(b) || geometry.Area(a)/geometry.Area(b) > 1.01 || geometry.Area(b)/geometry.Area(a) > 1.01 {
			t.Errorf("%s: %d and %d pieces, %.3f mm apart, %.3f and %.3f mm²", c.name, len(a), len(b), d, geometry.Area(a), geometry.Area(b))
		}
	}
}

// A pen of half width 15 along half a circle of radius 5 covers half a disc of radius 20, and beyond the middle half a
// disc of radius 10; along a whole circle of radius 30, with half width 52, a disc of radius 82. Both come quickly though
// all cuts across the pen meet in the middle.
func TestStrokeWiderThanItsBend(t *testing.T) {
	for _, c := range []struct {
		svg  string
		area float64 // in square user units
	}{
		{`<path d="M40 60a5 5 0 0 1 10 0" fill="none" stroke="black" stroke-width="30"/>`, math.Pi / 2 * (20*20 + 10*10)},
		{`<circle cx="60" cy="60" r="30" stroke="black" stroke-width="104" transform="translate(54 54) scale(.1)"/>`, math.Pi * 8.2 * 8.2},
	} {
		r, err := Read([]byte(svgHead+c.svg+`</svg>`), "", Options{})
		if err != nil {
			t.Error(err)
			continue
		}
		if a := geometry.Area(whole(r)) / math.Pow(mmPerInch/96, 2); len(r.Pieces) != 1 || math.Abs(a/c.area-1) > 2e-3 {
			t.Errorf("%d pieces of %.2f square units, not one of %.2f", len(r.Pieces), a, c.area)
		}
	}
}

// The same drawing comes in many codings.
func TestSVGCodings(t *testing.T) {
	const body = `<rect x="10" y="10" width="40" height="30"/><circle cx="80" cy="80" r="20"/></svg>`
	want, err := Read([]byte(svgHead+body), "", Options{})
	if err != nil {
		t.Fatal(err)
	}
	wide := func(high int, mark bool) []byte {
		s := `<?xml version="1.0" encoding="UTF-16"?>` + svgHead + body
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
		"byte order mark": []byte("\ufeff" + svgHead + body), "spaces first": []byte("\n\t " + svgHead + body), "comment first": []byte("<!-- a -->" + svgHead + body),
		"UTF-16 little": wide(1, true), "UTF-16 big": wide(0, true), "UTF-16 little without mark": wide(1, false), "UTF-16 big without mark": wide(0, false),
		"packed": zipped.Bytes(), "Latin-1": []byte(`<?xml version="1.0" encoding="iso-8859-1"?>` + strings.Replace(svgHead+body, "<rect", "<title>\xe9</title><rect", 1)),
		"no namespace": []byte(strings.Replace(svgHead+body, `xmlns="http://www.w3.org/2000/svg" `, "", 1)),
	} {
		r, err := Read(data, name, Options{})
		if err != nil {
			t.Error(err)
		} else if d := farthest(whole(r), whole(want), 1); d > 1e-9 || len(r.Pieces) != 2 {
			t.Errorf("%s: %d pieces, %.3f mm off", name, len(r.Pieces), d)
		}
	}
}

// A drawing without size and viewBox is as large as what it shows, wherever that lies.
func TestSVGWithoutPage(t *testing.T) {
	r, err := Read([]byte(`<svg><rect x="-110" y="500" width="96" height="48"/><path d="M-100 600h96" stroke="black" stroke-width="8"/></svg>`), "", Options{})
	if err != nil {
		t.Fatal(err)
	}
	if b := whole(r).Bound(); len(r.Pieces) != 2 || b.Min[0] < 0 || b.Min[1] < 0 || b.Max[0] > r.WidthMM+1e-4 || b.Max[1] > r.HeightMM+1e-4 || r.DPISource != DPIAssumed {
		t.Errorf("%d pieces at %v on a page of %g × %g mm (%s)", len(r.Pieces), b, r.WidthMM, r.HeightMM, r.DPISource)
	}
	if a := geometry.Area(whole(r)) * 96 * 96 / mmPerInch / mmPerInch; a < 5370 || a > 5380 {
		t.Errorf("%.1f square units, not 5376", a)
	}
}

// Each of these ends with a sentence that says what to do or what is the matter, and quickly.
func TestSVGBadInput(t *testing.T) {
	for _, c := range []struct{ name, svg, want string }{
		{"used.svg", `<!DOCTYPE svg [<!ENTITY a "M0 0h9v9z">]><svg><path d="&a;"/></svg>`, "used.svg defines entities of its own"},
		{"parts.svg", `<!DOCTYPE svg [<!ENTITY % a "b">]><svg><rect width="9" height="9"/></svg>`, "parts.svg defines entities of its own"},
		{"large.svg", "<svg>" + strings.Repeat(" ", maxSVGBytes) + "</svg>", "large.svg is an SVG drawing of more than 32 MB"},
		{"dashes.svg", `<svg viewBox="0 0 100 100"><path d="M0 0h100" stroke="black" stroke-dasharray="1e-9"/></svg>`, "dashes.svg has strokes of more than 50000 dashes"},
		{"selectors.svg", `<svg><style>` + strings.Repeat("#n g g g .z{fill:none}", 10) + `</style>` + strings.Repeat("<g>", 100) + strings.Repeat(`<rect class="z" width="1" height="1"/>`, 300) + strings.Repeat("</g>", 100) + `</svg>`, "too many style rules"},
		{"boxes.svg", `<svg viewBox="0 0 9 9"><clipPath id="c" clipPathUnits="objectBoundingBox"><rect width="1" height="1"/></clipPath>` + strings.Repeat(`<g clip-path="url(#c)">`, 200) + strings.Repeat(`<rect width="9" height="9"/>`, 2000) + strings.Repeat("</g>", 200) + `</svg>`, "draws more than 200000 elements"},
	} {
		_, err := Read([]byte(c.svg), c.name, Options{})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: the sentence is %v, not %q", c.name, err, c.want)
		}
	}
}

func FuzzReadSVG(f *testing.F) {
	for _, d := range drawings {
		f.Add(d.svg)
	}
	f.Fuzz(func(t *testing.T, svg string) {
		if len(svg) > 1<<14 {
			return
		}
		r, err := Read([]byte(svg), "fuzz", Options{})
		if err != nil {
			return
		}
		points := 0
		mp := whole(r)
		for _, p := range mp {
			for _, ring := range p {
				points += len(ring)
			}
		}
		switch {
		case points == 0:
			t.Fatal("no error and no piece")
		case points < 2000:
			sound(t, "fuzz", mp, true)
		}
	})
}
