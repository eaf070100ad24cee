package study

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"openwork/pattern"
	"openwork/pattern/patterntest"
)

// The drawing, as rsvg-convert draws it, against the picture of the panel that gg draws.
func TestSVGAgainstThePicture(t *testing.T) {
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		t.Fatal("there is no rsvg-convert on the PATH: the Debian package librsvg2-bin brings it (./build.sh test " +
			"installs it where it may)")
	}
	d := patterntest.Demo(t)
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var drawing bytes.Buffer
	if err := SVG(l, &drawing); err != nil {
		t.Fatal(err)
	}
	const width = 300
	height := int(width * d.Panel.Height / d.Panel.Width)
	path := filepath.Join(t.TempDir(), "panel.svg")
	sized := strings.Replace(drawing.String(), "<svg ", `<svg width="300" height="450" `, 1)
	if err := os.WriteFile(path, []byte(sized), 0o644); err != nil {
		t.Fatal(err)
	}
	shown, err := exec.Command("rsvg-convert", path).Output()
	if err != nil {
		t.Fatalf("rsvg-convert: %v", err)
	}
	var meant bytes.Buffer
	if err := Picture(l, Options{Width: width, Flat: true}, &meant); err != nil {
		t.Fatal(err)
	}
	a, err := png.Decode(bytes.NewReader(shown))
	if err != nil {
		t.Fatal(err)
	}
	b, err := png.Decode(&meant)
	if err != nil {
		t.Fatal(err)
	}
	if a.Bounds().Dx() < width || a.Bounds().Dy() < height {
		t.Fatalf("rsvg-convert drew %v", a.Bounds())
	}
	paint := func(i image.Image, x, y int) bool {
		r, _, _, _ := i.At(x, y).RGBA()
		return r < 0x8200
	}
	painted, differ := 0, 0
	for y := range height {
		for x := range width {
			p, q := paint(a, x, y), paint(b, x, y)
			if p || q {
				painted++
			}
			if p != q {
				differ++
			}
		}
	}
	t.Logf("%d of %d painted px differ", differ, painted)
	if painted < width*height/5 || differ > painted/25 {
		t.Errorf("%d of %d painted px differ", differ, painted)
	}
}
