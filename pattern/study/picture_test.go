package study

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/symmetry"
)

// The paste in the picture covers the area that the check says is open.
func TestPictureHasTheOpenArea(t *testing.T) {
	d := patterntest.Demo(t)
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	const width = 1800
	if err := Picture(l, Options{Width: width, Flat: true}, &b); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	if got := img.Bounds().Size(); got != (image.Point{width, 2700}) {
		t.Errorf("%v px, want %d × 2700", got, width)
	}
	report, err := panel.Check(l)
	if err != nil {
		t.Fatal(err)
	}
	scale := float64(width) / d.Panel.Width
	ground, paste := float64(groundColour.R), float64(pasteColour.R)
	ink := 0.0
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			r, _, _, _ := img.At(x, y).RGBA()
			ink += (ground - float64(r>>8)) / (ground - paste)
		}
	}
	if area := ink / scale / scale; math.Abs(area-report.OpenArea) > 5e-3*report.OpenArea {
		t.Errorf("paste on %g mm² of the picture, %g open on the panel", area, report.OpenArea)
	}
}

func TestPictureRefusesSizes(t *testing.T) {
	l, err := pattern.NewLayout(patterntest.Demo(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range []int{-1, 1, 15, 8001} {
		var b bytes.Buffer
		if err := Picture(l, Options{Width: w}, &b); err == nil || b.Len() > 0 {
			t.Errorf("%d px wide: %v, %d bytes", w, err, b.Len())
		}
	}
}

// Colours and the sheet's edge come as asked: the demonstration's sheet is its panel, and a line lies along its sides.
func TestPictureColoursAndEdge(t *testing.T) {
	l, err := pattern.NewLayout(patterntest.Demo(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	look := func(o Options) image.Image {
		var b bytes.Buffer
		if err := Picture(l, o, &b); err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(&b)
		if err != nil {
			t.Fatal(err)
		}
		return img
	}
	count := func(img image.Image, c color.RGBA) (n int) {
		for y := range img.Bounds().Dy() {
			for x := range img.Bounds().Dx() {
				if img.At(x, y) == (c) {
					n++
				}
			}
		}
		return n
	}
	red, sand := color.RGBA{0xcc, 0x22, 0x11, 0xff}, color.RGBA{0xee, 0xdd, 0xaa, 0xff}
	img := look(Options{Width: 700, Base: "#eeddaa", Paint: "#cc2211"})
	if p, b := count(img, red), count(img, sand); p < 100000 || b < 200000 ||
		count(img, groundColour)+count(img, pasteColour) > 0 {
		t.Errorf("%d px of paste, %d of panel", p, b)
	}
	if img.At(0, 400) != sand {
		t.Errorf("without an edge the panel's side is %v", img.At(0, 400))
	}
	if img = look(Options{Width: 700, Edge: true}); img.At(0, 400) == (groundColour) {
		t.Error("with an edge the panel's side is bare")
	}
	for _, bad := range []string{"red", "#12345", "#12345g"} {
		var b bytes.Buffer
		if err := Picture(l, Options{Paint: bad}, &b); err == nil || b.Len() > 0 {
			t.Errorf("the colour %q is taken: %v", bad, err)
		}
	}
}

// Each of the seventeen small pictures is mapped to itself, within its frame and to the pixels' accuracy, by an
// operation of its group other than the identity, and by none of the wrong kind: here, that pm's shows a mirror and
// p1's does not.
func TestSmallPicturesAreDrawnFromTheLayout(t *testing.T) {
	d := patterntest.Demo(t)
	seen := map[string]string{}
	for _, g := range symmetry.Groups() {
		img, err := Small(d, g.Symbol, 120, 120, pattern.NewShapes())
		if err != nil {
			t.Fatal(err)
		}
		ink, key := 0, make([]byte, 0, 120*120)
		for y := range 120 {
			for x := range 120 {
				_, _, _, a := img.At(x, y).RGBA()
				key = append(key, byte(a>>8))
				if a > 0x7fff {
					ink++
				}
			}
		}
		if share := float64(ink) / (120 * 120); share < 0.1 || share > 0.9 {
			t.Errorf("%s: %.0f %% of the picture is inked", g.Symbol, 100*share)
		}
		if twin, ok := seen[string(key)]; ok {
			t.Errorf("%s and %s have the same picture", g.Symbol, twin)
		}
		seen[string(key)] = g.Symbol
		if got, want := mirrored(img), g.Symbol != "p1" && g.Symbol != "p2" &&
			g.Symbol != "pg"; (g.Symbol == "p1" || g.Symbol == "pm" || g.Symbol == "p2") && got != want {
			t.Errorf("%s: mirrored about the middle: %v, want %v", g.Symbol, got, want)
		}
	}
}

// mirrored reports whether the picture is its own mirror image left to right. The picture's middle is the cell's, which
// in pm lies on a mirror at x = 1/2.
func mirrored(img image.Image) bool {
	b := img.Bounds()
	differ := 0
	for y := range b.Dy() {
		for x := range b.Dx() {
			_, _, _, p := img.At(x, y).RGBA()
			_, _, _, q := img.At(b.Dx()-1-x, y).RGBA()
			if (p > 0x7fff) != (q > 0x7fff) {
				differ++
			}
		}
	}
	return differ < b.Dx()*b.Dy()/50
}

func TestSmallPictureOfAnEmptyDraft(t *testing.T) {
	img, err := Small(draft.Default(), "p6mm", 60, 60, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, _, a := img.At(30, 30).RGBA(); a != 0 {
		t.Error("a picture of nothing shows something")
	}
	d := draft.Default()
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "s",
		Outline: geometry.RectOutline(orb.Bound{Max: orb.Point{9, 9}})}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	if _, err := Small(d, "p5", 60, 60, nil); err == nil {
		t.Error("an eighteenth group was drawn")
	}
}
