package svgin

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
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"
)

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
	for _, d := range outlinetest.Drawings {
		r, err := Read([]byte(d.SVG), d.Name, outline.Options{})
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		want, w, h := rendered(t, d.SVG, zoom)
		if w != r.WidthPX*zoom || h != r.HeightPX*zoom {
			t.Errorf("%s: the page is %d × %d pixels, rsvg-convert's is %d × %d", d.Name, r.WidthPX, r.HeightPX, w/zoom,
				h/zoom)
			continue
		}
		got := outlinetest.Coverage(outlinetest.Whole(r), w, h, zoom*96/outline.MMPerInch)
		both, either := 0.0, 0.0
		for k := range got {
			both += math.Min(got[k], want[k])
			either += math.Max(got[k], want[k])
		}
		worst = math.Min(worst, both/either)
		if !(both/either >= 0.995) {
			t.Errorf("%s: overlap over union is %.4f, should be at least 0.995; left out: %q", d.Name, both/either,
				r.Left)
		}
		outlinetest.Sound(t, d.Name, outlinetest.Whole(r), true)
	}
	t.Logf("least overlap over union: %.4f over %d drawings", worst, len(outlinetest.Drawings))
}

func TestSVGSizes(t *testing.T) {
	const shape = `<rect x="10" y="20" width="30" height="10"/></svg>`
	for _, c := range []struct {
		name, head string
		o          outline.Options
		area, dpi  float64
		source     string
	}{
		{"pixels", `<svg width="100" height="50">`, outline.Options{}, 300 * math.Pow(25.4/96, 2), 96, outline.DPIFile},
		{"millimetres", `<svg width="100mm" height="50mm" viewBox="0 0 100 50">`, outline.Options{}, 300, 25.4,
			outline.DPIFile},
		{"only a viewBox", `<svg viewBox="0 0 100 50">`, outline.Options{}, 300 * math.Pow(25.4/96, 2), 96,
			outline.DPIAssumed},
		{"only a width", `<svg width="200mm" viewBox="0 0 100 50">`, outline.Options{}, 1200, 12.7, outline.DPIFile},
		{"per cent", `<svg width="100%" height="100%" viewBox="0 0 100 50">`, outline.Options{},
			300 * math.Pow(25.4/96, 2), 96, outline.DPIAssumed},
		{"a typed height", `<svg width="100" height="50">`, outline.Options{HeightMM: 100}, 1200, 12.7,
			outline.DPIHeight},
		{"a typed resolution", `<svg width="7" height="3.5" viewBox="0 0 100 50">`, outline.Options{DPI: 25.4}, 300,
			25.4, outline.DPITyped},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := Read([]byte(c.head+shape), c.name, c.o)
			if err != nil {
				t.Error(err)
				return
			}
			if a := geometry.Area(outlinetest.Whole(r)); math.Abs(a/c.area-1) > 1e-3 ||
				math.Abs(r.DPI/c.dpi-1) > 1e-9 ||
				r.DPISource != c.source {
				t.Errorf("%.4f mm² at %g dpi (%s), not %.4f at %g (%s)", a, r.DPI, r.DPISource, c.area, c.dpi,
					c.source)
			}
			// 50 units high; the rectangle's lower edge lies 20 units above the page's.
			if b := outlinetest.Whole(r).Bound(); math.Abs(b.Min[1]/r.HeightMM-0.4) > 1e-3 ||
				math.Abs(b.Min[0]/r.WidthMM-0.1) > 1e-3 {
				t.Errorf("the rectangle begins at %v on a page of %g × %g mm", b.Min, r.WidthMM, r.HeightMM)
			}
		})
	}
}

func TestSVGNamesWhatIsLeftOut(t *testing.T) {
	const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100">` +
		`<style>rect:nth-child(2){fill:none}@media print{rect{fill:none}}rect:hover{fill:none}</style>
		<linearGradient id="g"/><filter id="f"/><mask id="m"/>
		<text>a</text><text>b</text><image href="data:image/png;base64,AAAA"/><image href="scan.png"/>` +
		`<script>1</script><use href="other.svg#a"/>
		<rect width="10" height="10" fill="url(#g)" filter="url(#f)" mask="url(#m)"/>` +
		`<rect x="20" y="20" width="5" height="5" fill="white"/>
		<path d="M30 30h10v10z 5"/><marker id="k"/><path d="M50 50h20" stroke="black" marker-end="url(#k)"/>` +
		`<path d="M50 60h20z5" clip-path="circle(5px)"/></svg>`
	r, err := Read([]byte(svg), "", outline.Options{})
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(r.Left, "\n")
	for _, want := range []string{
		"2 texts left out; text made into paths is kept.", "2 pictures left out.", "1 script left out.",
		"1 link to another file not followed; nothing is fetched.",
		"1 gradient left out; what it fills is taken as ink.",
		"1 filter left out; what it works on is taken as it is without.", "1 mask left out;",
		"1 white shape taken for paper;",
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
	if r, err =
		Read([]byte(
			`<svg viewBox="0 0 9 9"><rect width="9" height="9"/><circle cx="4" cy="4" r="3" fill="#ffffff"/></svg>`),
			"", outline.Options{}); err != nil ||
		!strings.Contains(strings.Join(r.Left, " "), "Everything is as light as paper, so it is taken for ink.") ||
		len(r.Pieces) != 1 {
		t.Errorf("a white drawing on black: %v, %v", r.Left, err)
	}
	if r, err =
		Read([]byte(
			`<svg viewBox="0 0 9 9"><rect width="9" height="9"/><circle cx="4" cy="4" r="3" fill="#ffffff"/></svg>`),
			"", outline.Options{Invert: true}); err != nil || len(r.Pieces) != 1 || len(r.Pieces[0].Outline[0]) != 1 {
		t.Errorf("a white drawing on black, turned round: %v, %v", r.Left, err)
	}
}

// A shape's outline keeps its area and stays near the true curve, with few points.
func TestSVGCurvesAreDrawnWell(t *testing.T) {
	r, err :=
		Read([]byte(`<svg width="100mm" height="100mm" viewBox="0 0 100 100"><circle cx="50" cy="50" r="40"/></svg>`),
			"", outline.Options{})
	if err != nil {
		t.Fatal(err)
	}
	ring := outlinetest.Whole(r)[0][0]
	if a := geometry.Area(outlinetest.Whole(r)) / (1600 * math.Pi); math.Abs(a-1) > 3e-4 {
		t.Errorf("area is off by %.4f %%", 100*(a-1))
	}
	for k := 0; k+1 < len(ring); k++ {
		for _, v := range [][2]float64{ring[k], {(ring[k][0] + ring[k+1][0]) / 2, (ring[k][1] + ring[k+1][1]) / 2}} {
			if d := math.Abs(math.Hypot(v[0]-50, v[1]-50) - 40); d > outline.DefaultTolerance {
				t.Fatalf("%v is %.3f mm from the circle", v, d)
			}
		}
	}
	if n := len(ring) - 1; n > 130 {
		t.Errorf("%d points", n)
	}
}
