//go:build !js

package main

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/image/font/gofont/goregular"

	"openwork/geometry"
	"openwork/pattern/letters"
)

// Letters that the fonts lack are taken from a font file, each with its outline and width; what it lacks too stays
// lacking.
func TestLettersOfAFontFile(t *testing.T) {
	// The font here has neither: a letter of its own under a strange name stands for one that has.
	path := filepath.Join(t.TempDir(), "a.ttf")
	font := bytes.Clone(goregular.TTF)
	if err := os.WriteFile(path, font, 0o600); err != nil {
		t.Fatal(err)
	}
	var none []letters.Drawn
	if err := lettered(&none, path, "鷺 over Цапля"); err != nil || len(none) != 0 {
		t.Errorf("%v, %d letters drawn by a font that has none of them", err, len(none))
	}
	if err := lettered(&none, filepath.Join(filepath.Dir(path), "b.ttf"), "plain"); err != nil {
		t.Errorf("a font that is not needed is read: %v", err)
	}
	if err := os.WriteFile(path, []byte("no font"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := lettered(&none, path, "鷺"); err == nil || !strings.Contains(err.Error(), "no font that can be read") {
		t.Errorf("got %v", err)
	}

	// Of a system's own font, where there is one: a bird of some strokes within its square.
	const system = "/usr/share/fonts/truetype/droid/DroidSansFallbackFull.ttf"
	if _, err := os.Stat(system); err != nil {
		t.Skip("there is no font with Chinese letters here")
	}
	if err := lettered(&none, system, "鷺 over 鷺"); err != nil || len(none) != 1 {
		t.Fatalf("%v, %d letters", err, len(none))
	}
	d := none[0]
	box, area := d.Outline.Bound(), geometry.Area(d.Outline)
	if d.Text != "鷺" || math.Abs(d.Width-1) > 0.01 || box.Min[0] < -0.05 || box.Max[0] > 1.05 || box.Min[1] < -0.3 ||
		box.Max[1] > 1 || box.Max[1]-box.Min[1] < 0.7 || math.Abs(area) < 0.1 {
		t.Errorf("%q is %g wide, in %v, of area %g", d.Text, d.Width, box, area)
	}
}
