package outline

import (
	"bytes"
	"fmt"
	"image/color"
	"image/png"
	"math"
	"os/exec"
	"strings"
	"testing"

	"openwork/geometry"
)

// drawings are our own, each for one feature of the language, in black and white on a page of whole pixels.
var drawings = []struct{ name, svg string }{
	{"basic shapes", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="80">
		<rect x="5" y="5" width="30" height="20"/><rect x="40" y="5" width="30" height="20" rx="6"/>
		<rect x="75" y="5" width="30" height="20" rx="4" ry="9"/><circle cx="20" cy="50" r="14"/>
		<ellipse cx="60" cy="50" rx="18" ry="9"/><polygon points="85,40 110,40 97.5,70"/>
		<polyline points="85 75 110,75,110 72"/></svg>`},
	{"sizes in mm", `<svg xmlns="http://www.w3.org/2000/svg" width="25.4mm" height="1in" viewBox="0 0 200 200">
		<circle cx="100" cy="100" r="80"/></svg>`},
	{"sizes in cm, pt and pc", `<svg xmlns="http://www.w3.org/2000/svg" width="5.08cm" height="72pt">
		<rect x="1pc" y="12pt" width="1cm" height="10mm"/><circle cx="50%" cy="50%" r="10%"/></svg>`},
	{"viewBox with offset, fitted", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="60" viewBox="-50 100 100 100">
		<path d="M-40 110h80v80h-80z M-20 130v40h40v-40z"/></svg>`},
	{"viewBox laid to the right and cut", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="60" viewBox="0 0 10 10" preserveAspectRatio="xMaxYMin slice">
		<circle cx="5" cy="2" r="4"/></svg>`},
	{"viewBox stretched", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="60" viewBox="0 0 10 10" preserveAspectRatio="none">
		<circle cx="5" cy="5" r="4"/></svg>`},
	{"cut by the page", `<svg xmlns="http://www.w3.org/2000/svg" width="80" height="80">
		<circle cx="10" cy="10" r="40"/><circle cx="80" cy="60" r="18"/></svg>`},
	{"transforms within transforms", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="120">
		<g transform="translate(60 60) rotate(30)"><g transform="scale(1.5,-.7)"><rect x="-20" y="-20" width="30" height="40" transform="skewX(20)"/></g>
		<path d="M0 0L40 10 20 30z" transform="rotate(200, 10 10) skewY(10)"/></g>
		<circle r="10" transform="matrix(1 .3 -.2 .8 20,100)"/></svg>`},
	{"path commands", `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100">
		<path d="M10 10 H40 V30 h-10 v10 L10,40 Z m50 0 l20 0 20 20-20 20-20-20zM110,10C130-10 150 50 170 10S190 60 180 70 q-20 20-40 0 T100 70 t-10-40z"/>
		<path d="m10 60c5-10 20-10 25 0s20 10 25 0v30h-50zm5 10 10 0 0 10-10 0z"/></svg>`},
	{"arcs, flags run together", `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100">
		<path d="M20 50a20 20 0 1140 0 20 20 0 01-40 0M80 50A30 15 30 11120 60A30 15 30 0080 50z"/>
		<path d="M140 20a1 1 0 0140 30a40,10,45,1,0-40-30zM150 80a0 5 0 0 1 20 0l-5 10z"/></svg>`},
	{"smooth curves without one before", `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="60">
		<path d="M10 10S40 0 50 30T90 50L10 50z"/></svg>`},
	{"parts after a close", `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="60">
		<path d="M10 10h20v20h-20z l30 20 h20 v-10z m45 0h20v20h-20"/></svg>`},
	{"fill rules", `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100">
		<path d="M50 5L79 95 3 39H97L21 95z"/><path fill-rule="evenodd" d="M150 5L179 95 103 39H197L121 95z"/></svg>`},
	{"even-odd, three deep", `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100" fill-rule="evenodd">
		<path d="M5 5h90v90h-90zM15 15h70v70h-70zM25 25h50v50h-50zM20 40h60v10h-60z"/></svg>`},
	{"a loop that crosses itself", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="80">
		<path d="M10 70C150-50-30-50 110 70C60 60 60 60 10 70"/></svg>`},
	{"overlapping shapes", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="60">
		<circle cx="30" cy="30" r="20"/><circle cx="50" cy="30" r="20"/><rect x="60" y="25" width="40" height="10"/><rect x="70" y="25" width="20" height="10"/></svg>`},
	{"white over black", `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100">
		<rect width="100%" height="100%" fill="#fff"/><circle cx="50" cy="50" r="40"/><circle cx="60" cy="50" r="20" fill="white"/><rect x="55" y="45" width="10" height="10"/></svg>`},
	{"use, defs and symbol", `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="160" height="80">
		<defs><path id="leaf" d="M0 0C10-10 30-10 40 0C30 10 10 10 0 0z"/><g id="pair"><use href="#leaf"/><use xlink:href="#leaf" transform="rotate(90)"/></g>
		<symbol id="s" viewBox="0 0 10 10"><circle cx="5" cy="5" r="5"/></symbol></defs>
		<use href="#pair" x="10" y="20"/><use href="#pair" transform="translate(70 20) scale(1.2)"/><use href="#s" x="110" y="20" width="40" height="30"/></svg>`},
	{"svg within svg", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="80">
		<svg x="10" y="10" width="50" height="40" viewBox="0 0 100 100"><circle cx="50" cy="50" r="60"/></svg>
		<svg x="60%" y="50%" width="40" height="30"><rect width="100%" height="50%"/></svg></svg>`},
	{"styles", `<svg xmlns="http://www.w3.org/2000/svg" width="160" height="60">
		<style>/* rules */ .off{display:none} .gone, .other { fill : none } rect.k { fill-rule: evenodd; fill: black } #one{fill:none!important}
		circle{fill:none} .in{fill:#000}</style>
		<rect class="off" width="10" height="10"/><rect class="k gone" x="10" y="10" width="20" height="20"/><rect class="gone" x="30" y="10" width="20" height="20"/>
		<circle cx="70" cy="20" r="10"/><circle class="in" cx="95" cy="20" r="10"/><rect id="one" x="110" y="5" width="20" height="20" style="fill:black"/>
		<rect x="110" y="30" width="20" height="20" fill="none" style="fill: rgb(0, 0, 0); stroke:none"/><g fill="none"><rect x="135" y="30" width="20" height="20" fill="inherit"/><rect x="135" y="5" width="20" height="20" fill="currentColor"/></g></svg>`},
	{"visibility and opacity", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="40">
		<g visibility="hidden"><rect x="5" y="5" width="20" height="20"/><rect x="30" y="5" width="20" height="20" visibility="visible"/></g>
		<g display="none"><rect x="55" y="5" width="20" height="20" display="inline"/></g><rect x="80" y="5" width="10" height="20" opacity="0"/><rect x="95" y="5" width="10" height="20" fill-opacity="0"/></svg>`},
	{"lines", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="80" stroke="black">
		<line x1="10" y1="10" x2="50" y2="20" stroke-width="6"/><line x1="10" y1="40" x2="50" y2="40" stroke-width="8" stroke-linecap="round"/>
		<line x1="70" y1="20" x2="100" y2="40" stroke-width="10" stroke-linecap="square"/><line x1="70" y1="60" x2="70" y2="60" stroke-width="10" stroke-linecap="round"/></svg>`},
	{"strokes", `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="120" fill="none" stroke="#000" stroke-width="6">
		<polyline points="10,50 30,10 50,50"/><polyline points="60,50 80,10 100,50" stroke-linejoin="round"/><polyline points="110,50 130,10 150,50" stroke-linejoin="bevel"/>
		<polygon points="160,50 175,15 190,50"/><path d="M10 110C40 40 60 140 90 70S120 100 130 80" stroke-linecap="round"/>
		<g transform="translate(160 90) scale(1.6 .6)"><circle r="16"/></g><polyline points="100,110 140,112 100,114" stroke-width="3"/></svg>`},
	{"filled and stroked", `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100">
		<circle cx="50" cy="50" r="30" stroke="black" stroke-width="10"/><circle cx="50" cy="50" r="15" fill="white" stroke="black" stroke-width="4"/></svg>`},
	{"clip paths", `<svg xmlns="http://www.w3.org/2000/svg" width="120" height="80">
		<clipPath id="c"><circle cx="40" cy="40" r="25"/><rect x="60" y="30" width="30" height="20" transform="rotate(10 70 40)"/></clipPath>
		<clipPath id="e"><path clip-rule="evenodd" d="M0 0h120v80h-120zM30 30h20v20h-20z"/></clipPath>
		<g clip-path="url(#c)"><rect x="10" y="20" width="100" height="40" clip-path="url(#e)"/></g></svg>`},
	{"prefixed names, foreign elements", `<?xml version="1.0" encoding="ISO-8859-1"?><!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">
		<svg:svg xmlns:svg="http://www.w3.org/2000/svg" xmlns:own="urn:x" width="60" height="40"><own:rect width="50" height="50"/><svg:metadata><own:a/></svg:metadata>
		<svg:rect x="10" y="10" width="20" height="20" own:fill="none"/></svg:svg>`},
	{"switch", `<svg xmlns="http://www.w3.org/2000/svg" width="60" height="40"><switch><rect requiredExtensions="urn:none" width="60" height="40"/><circle cx="20" cy="20" r="10"/><rect width="10" height="10"/></switch></svg>`},
	{"references that lead nowhere or round", `<svg xmlns="http://www.w3.org/2000/svg" width="80" height="40">
		<use href="#none"/><rect x="5" y="5" width="20" height="20" fill="url(#none) black"/><rect x="30" y="5" width="20" height="20" fill="url(#none)"/>
		<rect x="55" y="5" width="20" height="20" transform="rotate(10"/><rect x="5" y="28" width="30" height="8" transform="turn(10)"/></svg>`},
	{"a path that breaks off", `<svg xmlns="http://www.w3.org/2000/svg" width="80" height="40"><path d="M10 10h30v20h-30z M50 10 L 60 30 70 10 Q 5"/></svg>`},
	{"curves that all but coincide", `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100">
		<path d="M20 50a20 20 0 1140 0 20 20 0 01-40 0M80 50A30 15 30 1111120 60A30 15 30 0080 50z"/></svg>`},
	{"pieces that touch in a corner", `<svg xmlns="http://www.w3.org/2000/svg" width="80" height="80"><rect x="10" y="10" width="30" height="30"/><rect x="40" y="40" width="30" height="30"/>
		<path fill-rule="evenodd" d="M50 5h25v25h-25zM50 5L70 15L60 25z"/></svg>`},
}

// rendered returns how dark each pixel is when rsvg-convert draws the drawing on white, magnified.
func rendered(t *testing.T, svg string, zoom float64) (dark []float64, width, height int) {
	t.Helper()
	tool, err := exec.LookPath("rsvg-convert")
	if err != nil {
		t.Fatal("rsvg-convert is missing; it is in Debian's package librsvg2-bin")
	}
	c := exec.Command(tool, "-z", fmt.Sprint(zoom), "-b", "white")
	c.Stdin = strings.NewReader(svg)
	out, err := c.Output()
	if err != nil {
		t.Fatalf("rsvg-convert: %v", err)
	}
	p, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	b := p.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			dark = append(dark, 1-float64(color.GrayModel.Convert(p.At(x, y)).(color.Gray).Y)/255)
		}
	}
	return dark, b.Dx(), b.Dy()
}

func TestSVGAgainstRSVG(t *testing.T) {
	const zoom = 5
	worst := 1.0
	for _, d := range drawings {
		r, err := Read([]byte(d.svg), d.name, Options{})
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		want, w, h := rendered(t, d.svg, zoom)
		if w != r.WidthPX*zoom || h != r.HeightPX*zoom {
			t.Errorf("%s: the page is %d × %d pixels, rsvg-convert's is %d × %d", d.name, r.WidthPX, r.HeightPX, w/zoom, h/zoom)
			continue
		}
		got := coverage(whole(r), w, h, zoom*96/mmPerInch)
		both, either := 0.0, 0.0
		for k := range got {
			both += math.Min(got[k], want[k])
			either += math.Max(got[k], want[k])
		}
		worst = math.Min(worst, both/either)
		if !(both/either >= 0.995) {
			t.Errorf("%s: overlap over union is %.4f, should be at least 0.995; left out: %q", d.name, both/either, r.Left)
		}
		sound(t, d.name, whole(r), true)
	}
	t.Logf("least overlap over union: %.4f over %d drawings", worst, len(drawings))
}

func TestSVGSizes(t *testing.T) {
	const shape = `<rect x="10" y="20" width="30" height="10"/></svg>`
	for _, c := range []struct {
		name, head string
		o          Options
		area, dpi  float64
		source     string
	}{
		{"pixels", `<svg width="100" height="50">`, Options{}, 300 * math.Pow(25.4/96, 2), 96, DPIFile},
		{"millimetres", `<svg width="100mm" height="50mm" viewBox="0 0 100 50">`, Options{}, 300, 25.4, DPIFile},
		{"only a viewBox", `<svg viewBox="0 0 100 50">`, Options{}, 300 * math.Pow(25.4/96, 2), 96, DPIAssumed},
		{"only a width", `<svg width="200mm" viewBox="0 0 100 50">`, Options{}, 1200, 12.7, DPIFile},
		{"per cent", `<svg width="100%" height="100%" viewBox="0 0 100 50">`, Options{}, 300 * math.Pow(25.4/96, 2), 96, DPIAssumed},
		{"a typed height", `<svg width="100" height="50">`, Options{HeightMM: 100}, 1200, 12.7, DPIHeight},
		{"a typed resolution", `<svg width="7" height="3.5" viewBox="0 0 100 50">`, Options{DPI: 25.4}, 300, 25.4, DPITyped},
	} {
		r, err := Read([]byte(c.head+shape), c.name, c.o)
		if err != nil {
			t.Error(err)
			continue
		}
		if a := geometry.Area(whole(r)); math.Abs(a/c.area-1) > 1e-3 || math.Abs(r.DPI/c.dpi-1) > 1e-9 || r.DPISource != c.source {
			t.Errorf("%s: %.4f mm² at %g dpi (%s), not %.4f at %g (%s)", c.name, a, r.DPI, r.DPISource, c.area, c.dpi, c.source)
		}
		// 50 units high; the rectangle's lower edge lies 20 units above the page's.
		if b := whole(r).Bound(); math.Abs(b.Min[1]/r.HeightMM-0.4) > 1e-3 || math.Abs(b.Min[0]/r.WidthMM-0.1) > 1e-3 {
			t.Errorf("%s: the rectangle begins at %v on a page of %g × %g mm", c.name, b.Min, r.WidthMM, r.HeightMM)
		}
	}
}

func TestSVGNamesWhatIsLeftOut(t *testing.T) {
	const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100"><style>rect:nth-child(2){fill:none}@media print{rect{fill:none}}rect:hover{fill:none}</style>
		<linearGradient id="g"/><filter id="f"/><mask id="m"/>
		<text>a</text><text>b</text><image href="data:image/png;base64,AAAA"/><image href="scan.png"/><script>1</script><use href="other.svg#a"/>
		<rect width="10" height="10" fill="url(#g)" filter="url(#f)" mask="url(#m)"/><rect x="20" y="20" width="5" height="5" fill="white"/>
		<path d="M30 30h10v10z 5"/><marker id="k"/><path d="M50 50h20" stroke="black" marker-end="url(#k)"/><path d="M50 60h20z5" clip-path="circle(5px)"/></svg>`
	r, err := Read([]byte(svg), "", Options{})
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(r.Left, "\n")
	for _, want := range []string{
		"2 texts left out; text made into paths is kept.", "2 pictures left out.", "1 script left out.",
		"1 link to another file not followed; nothing is fetched.", "1 gradient left out; what it fills is taken as ink.",
		"1 filter left out; what it works on is taken as it is without.", "1 mask left out;", "1 white shape taken for paper;",
		"2 broken paths drawn as far as they can be read.", "1 path with markers drawn without them.",
		"1 clip path of a simple form left out.",
		"2 style rules left out;",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("it is not said that: %s", want)
		}
	}
	if t.Failed() {
		t.Log(all)
	}
	if r, err = Read([]byte(`<svg viewBox="0 0 9 9"><rect width="9" height="9"/><circle cx="4" cy="4" r="3" fill="#ffffff"/></svg>`), "", Options{}); err != nil ||
		!strings.Contains(strings.Join(r.Left, " "), "Everything is as light as paper, so it is taken for ink.") || len(r.Pieces) != 1 {
		t.Errorf("a white drawing on black: %v, %v", r.Left, err)
	}
	if r, err = Read([]byte(`<svg viewBox="0 0 9 9"><rect width="9" height="9"/><circle cx="4" cy="4" r="3" fill="#ffffff"/></svg>`), "", Options{Invert: true}); err != nil || len(r.Pieces) != 1 || len(r.Pieces[0].Outline[0]) != 1 {
		t.Errorf("a white drawing on black, turned round: %v, %v", r.Left, err)
	}
}

// A shape's outline keeps its area and stays near the true curve, with few points.
func TestSVGCurvesAreDrawnWell(t *testing.T) {
	r, err := Read([]byte(`<svg width="100mm" height="100mm" viewBox="0 0 100 100"><circle cx="50" cy="50" r="40"/></svg>`), "", Options{})
	if err != nil {
		t.Fatal(err)
	}
	ring := whole(r)[0][0]
	if a := geometry.Area(whole(r)) / (1600 * math.Pi); math.Abs(a-1) > 3e-4 {
		t.Errorf("area is off by %.4f %%", 100*(a-1))
	}
	for k := 0; k+1 < len(ring); k++ {
		for _, v := range [][2]float64{ring[k], {(ring[k][0] + ring[k+1][0]) / 2, (ring[k][1] + ring[k+1][1]) / 2}} {
			if d := math.Abs(math.Hypot(v[0]-50, v[1]-50) - 40); d > DefaultTolerance {
				t.Fatalf("%v is %.3f mm from the circle", v, d)
			}
		}
	}
	if n := len(ring) - 1; n > 130 {
		t.Errorf("%d points", n)
	}
}
