package study

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/png"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// One square of paste in the middle: its upper and left edges are brighter than the paste, the others darker, the
// ground is darker below it and to its right, and everything far from its edges is as without relief.
func TestReliefIsLitFromTheUpperLeft(t *testing.T) {
	d := patterntest.One(draft.Repeat{Group: "p1", A: 300, B: 300, Gamma: 90},
		orb.MultiPolygon{{{{-20, -20}, {20, -20}, {20, 20}, {-20, 20}, {-20, -20}}}})
	d.Panel, d.Field.Origin, d.Motifs[0].At = draft.Panel{Width: 100, Height: 100}, [2]float64{50, 50}, [2]float64{}
	d.Sheet.Thickness = 1
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	draw := func(o Options) (image.Image, []byte) {
		var b bytes.Buffer
		o.Width = 400
		if err := Picture(l, o, &b); err != nil {
			t.Fatal(err)
		}
		file := b.Bytes()
		img, err := png.Decode(bytes.NewReader(file))
		if err != nil {
			t.Fatal(err)
		}
		return img, file
	}
	flat, _ := draw(Options{Flat: true})
	raised, file := draw(Options{})
	grey := func(img image.Image, x, y int) int {
		r, g, b, _ := img.At(x, y).RGBA()
		return int(r>>8) + int(g>>8) + int(b>>8)
	}

	for name, c := range map[string]struct {
		x, y int
		want int // brighter, as it is, darker
	}{"upper edge": {200, 121, 1}, "left edge": {121, 200, 1}, "lower edge": {200, 278, -1},
		"right edge": {278, 200, -1}, "ground below": {200, 283, -1}, "ground to the right": {283, 200, -1},
		"ground above": {200, 115, 0},
		"middle":       {200, 200, 0}, "far ground": {30, 30, 0}} {
		if diff := grey(raised, c.x, c.y) - grey(flat, c.x, c.y); sign(diff) != c.want {
			t.Errorf("%s: %d brighter than without relief", name, diff)
		}
	}

	// 4 px to the mm are 4,000 to the metre.
	at := bytes.Index(file, []byte("pHYs"))
	if at < 0 {
		t.Fatal("the file does not say how large a pixel is")
	}
	if x, y := binary.BigEndian.Uint32(file[at+4:]), binary.BigEndian.Uint32(file[at+8:]); x != 4000 || y != 4000 ||
		file[at+12] != 1 {
		t.Errorf("the file says %d × %d px to the metre", x, y)
	}
}

func sign(v int) int {
	switch {
	case v > 3:
		return 1
	case v < -3:
		return -1
	}
	return 0
}

// The scale bar is as long as it says.
func TestScaleBarIsTrue(t *testing.T) {
	l, err := pattern.NewLayout(patterntest.Demo(t), nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		units string
		mm    float64
	}{{"", 100}, {"in", 101.6}} {
		var b bytes.Buffer
		const width = 1200
		if err := Picture(l, Options{Width: width, Bar: true, Units: c.units}, &b); err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(&b)
		if err != nil {
			t.Fatal(err)
		}
		size := img.Bounds().Size()
		row := size.Y - 20 - 5 // the bar's own height, a quarter of a letter over its foot
		first, last := -1, -1
		for x := range size.X {
			if r, _, _, _ := img.At(x, row).RGBA(); r>>8 < 0x60 && x > size.X/2 {
				if first < 0 {
					first = x
				}
				last = x
			}
		}
		scale := float64(width) / l.Draft.Panel.Width
		if got := float64(last-first) / scale; math.Abs(got-c.mm) > 1.5 {
			t.Errorf("in %q the bar is %.2f mm long, and says %g", c.units, got, c.mm)
		}
	}
}
