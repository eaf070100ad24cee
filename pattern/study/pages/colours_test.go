package pages

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// Openings are in their swatches, in the light style paler ones, and outlines have none.
func TestStudyInColours(t *testing.T) {
	d := patterntest.Draft(rand.New(rand.NewPCG(174, 1)), "p4")
	d.Swatches = []draft.Swatch{{ID: "a", Colour: "#ff0000"}, {ID: "b", Colour: "#0000ff"}}
	d.Paint = draft.NewPaint()
	d.Paint.Colours = []string{"a", "b"}
	d.Paint.ByHand = &draft.ByHand{Cells: [2]int{1, 1},
		Copies: []draft.HandColour{{Motif: d.Motifs[0].ID, Op: 1, Colour: 1}}}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	for style, want := range map[Style][]string{Full: {"1 0 0 rg", "0 0 1 rg"},
		Light: {"1 0.749 0.749 rg", "0.749 0.749 1 rg"}, Outlines: nil} {
		o := Defaults()
		o.Draw = style
		var b bytes.Buffer
		if _, err := Write(l, &b, o); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "study.pdf")
		if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		plain, err := exec.Command("qpdf", "--qdf", "--object-streams=disable", path, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range want {
			if !bytes.Contains(plain, []byte(w)) {
				t.Errorf("%s: there is no %q", style, w)
			}
		}
		if style == Outlines && bytes.Contains(plain, []byte("1 0 0 rg")) {
			t.Error("outlines are filled")
		}
	}
}

// With a key each opening has its colour's number, and the map says which is which.
func TestStudyWithAKey(t *testing.T) {
	d := patterntest.Draft(rand.New(rand.NewPCG(174, 1)), "p2")
	d.Panel, d.Field.Edge = draft.Panel{Width: 120, Height: 120}, draft.Whole
	d.Swatches = []draft.Swatch{{ID: "a", Name: "Fir", Colour: "#1d4a3a"}, {ID: "b", Name: "Brick", Colour: "#93402b"}}
	d.Paint = draft.NewPaint()
	d.Paint.Colours = []string{"a", "b"}
	d.Paint.ByHand = &draft.ByHand{Cells: [2]int{1, 1},
		Copies: []draft.HandColour{{Motif: d.Motifs[0].ID, Op: 1, Colour: 1}}}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]int{}
	for _, c := range copies {
		want[fmt.Sprint(c.Colour+1)]++
	}
	o := Defaults()
	o.Key, o.Marks, o.Pattern, o.Way = true, false, false, Upright
	var b bytes.Buffer
	made, err := Write(l, &b, o)
	if err != nil || made.Pages != 2 {
		t.Fatalf("%v, %d pages", err, made.Pages)
	}
	path := filepath.Join(t.TempDir(), "study.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	for page := 1; page <= 2; page++ {
		out, err := exec.Command("pdftotext", "-f", fmt.Sprint(page), "-l", fmt.Sprint(page), path, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		if text := strings.Join(strings.Fields(strings.ReplaceAll(string(out), "\u00a0", " ")), " "); page == 1 &&
			!strings.Contains(text, "numbered by their colour: 1 Fir, 2 Brick. One stencil serves") {
			t.Errorf("the map says %q", text)
		}
		got := map[string]int{}
		for _, word := range strings.Fields(string(out)) {
			got[word]++
		}
		if page == 2 && (got["1"] != want["1"] || got["2"] != want["2"]) {
			t.Errorf("numbers %d and %d are on the page, copies are %v", got["1"], got["2"], want)
		}
	}
}
