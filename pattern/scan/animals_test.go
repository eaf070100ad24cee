package scan

import (
	"openwork/geometry/geometrytest"
	"openwork/pattern/outline"
	"openwork/pattern/outline/outlinetest"

	"bytes"
	"flag"
	"fmt"
	"image/color"
	"image/png"
	"maps"
	"math"
	"math/rand"
	"os/exec"
	"slices"
	"testing"
)

// Animals of icon packages, 60 mm high at 300 dpi, spoiled as a scanner does; overlap over union with the clean
// picture.
const (
	animalMM, animalDPI = 60.0, 300.0
	animalMargin        = 24 // pixels of paper around
	animalCommon        = 0.99
	animalSeed          = 21
)

// renderedIcon returns how dark each pixel of an icon is on white paper with a margin, drawn by rsvg-convert.
func renderedIcon(t *testing.T, svg []byte) (dark []float64, width, height int) {
	t.Helper()
	tool, err := exec.LookPath("rsvg-convert")
	if err != nil {
		t.Fatal("rsvg-convert is missing; it is in Debian's package librsvg2-bin")
	}
	tall := int(math.Round(animalMM * animalDPI / outline.MMPerInch))
	c := exec.Command(tool, "-h", fmt.Sprint(tall), "-a", "-b", "white")
	c.Stdin = bytes.NewReader(svg)
	out, err := c.Output()
	if err != nil {
		t.Fatalf("rsvg-convert: %v", err)
	}
	p, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	b := p.Bounds()
	width, height = b.Dx()+2*animalMargin, b.Dy()+2*animalMargin
	dark = make([]float64, width*height)
	for y := range b.Dy() {
		for x := range b.Dx() {
			dark[(y+animalMargin)*width+x+animalMargin] = 1 -
				float64(color.GrayModel.Convert(p.At(b.Min.X+x, b.Min.Y+y)).(color.Gray).Y)/255
		}
	}
	return dark, width, height
}

var allAnimals = flag.Bool("animals", false, "scan every animal instead of every sixth one")

func TestAnimalsComeBackFromScans(t *testing.T) {
	step := 6
	switch {
	case *allAnimals:
		step = 1
	case testing.Short():
		step = 10
	}
	icons := outlinetest.AnimalIcons(t)
	rng := rand.New(rand.NewSource(animalSeed))
	worst, worstName := 1.0, ""
	var names []string
	for k, name := range slices.Sorted(maps.Keys(icons)) {
		if k%step == 0 {
			names = append(names, name)
		}
	}
	if !*allAnimals {
		names = geometrytest.Share(t, names, (len(names)+3)/4)
	}
	for _, name := range names {
		dark, w, h := renderedIcon(t, icons[name])
		p := outlinetest.Flat(0, w, h)
		for k, c := range outlinetest.GaussBlur(dark, w, h, 0.7) {
			lamp := 1 - 0.2*(0.7*float64(k%w)/float64(w)+0.3*float64(k/w)/float64(h))
			p.Pix[k] = uint8(math.Max(0, math.Min(255, (235*(1-c)+35*c)*lamp+7*rng.NormFloat64())))
		}
		r, err := Read(outlinetest.JpegOf(p), name, outline.Options{DPI: animalDPI})
		if err != nil {
			t.Errorf("%s, seed %d: %v", name, animalSeed, err)
			continue
		}
		both, either := 0.0, 0.0
		for k, c := range outlinetest.Coverage(outlinetest.Whole(r), w, h, animalDPI/outline.MMPerInch) {
			both += math.Min(c, dark[k])
			either += math.Max(c, dark[k])
		}
		if common := both / either; common < worst {
			worst, worstName = common, name
		}
		if both/either < animalCommon {
			t.Errorf("%s, seed %d: overlap over union is %.4f, at least %g; %q", name, animalSeed, both/either,
				animalCommon, r.Left)
		}
	}
	t.Logf("%d of %d icons; at worst %.4f, %s", len(names), len(icons), worst, worstName)
}
