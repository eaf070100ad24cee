package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"openwork/pattern"
	"openwork/pattern/study"
)

const demoPath = "../../testdata/drafts/heron-over-carp.openwork.json"

// The first picture, drawn by rsvg-convert, against the picture of the panel that gg draws.
func TestFirstPictureIsTheDemonstration(t *testing.T) {
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		t.Fatal("there is no rsvg-convert on the PATH: the Debian package librsvg2-bin brings it (./build.sh test installs it where it may)")
	}
	demo, err := os.ReadFile(demoPath)
	if err != nil {
		t.Fatal(err)
	}
	page, err := putFirst([]byte(firstPlace), demo)
	if err != nil {
		t.Fatal(err)
	}
	d, err := pattern.Decode(bytes.NewReader(demo))
	if err != nil {
		t.Fatal(err)
	}
	const width = 300
	height := int(width * d.Panel.Height / d.Panel.Width)
	style := `<svg xmlns="http://www.w3.org/2000/svg"><style>.first-sheet{fill:#d9cfbb}.first-panel{fill:none}.first-paint{fill:#2b5a5c;fill-rule:evenodd}</style>`
	path := filepath.Join(t.TempDir(), "first.svg")
	body := strings.Replace(string(page), "<svg ", `<svg width="300" height="450" `, 1)
	if err := os.WriteFile(path, []byte(style+body+"</svg>"), 0o644); err != nil {
		t.Fatal(err)
	}
	shown, err := exec.Command("rsvg-convert", path).Output()
	if err != nil {
		t.Fatalf("rsvg-convert: %v", err)
	}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var meant bytes.Buffer
	if err := study.Picture(l, width, &meant); err != nil {
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

// Every module the page imports is fetched at once, not one level after the other; index.html has the first picture's
// place once.
func TestModulesAreFetchedAtOnce(t *testing.T) {
	page, err := os.ReadFile("../index.html")
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(page, []byte(firstPlace)); n != 1 {
		t.Errorf("the first picture's place is there %d times", n)
	}
	modules, err := filepath.Glob("../js/*.mjs")
	if err != nil || len(modules) == 0 {
		t.Fatal(err, len(modules))
	}
	for _, m := range modules {
		name := filepath.Base(m)
		if !regexp.MustCompile(`(modulepreload" href|type="module" src)="js/` + regexp.QuoteMeta(name) + `"`).Match(page) {
			t.Errorf("index.html does not fetch js/%s at once", name)
		}
	}
	for _, m := range regexp.MustCompile(`modulepreload" href="([^"]+)"`).FindAllSubmatch(page, -1) {
		if _, err := os.Stat(filepath.Join("..", string(m[1]))); err != nil {
			t.Errorf("index.html fetches %s, which is not there", m[1])
		}
	}
}
