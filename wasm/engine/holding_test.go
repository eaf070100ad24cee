//go:build !js

package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// frames is a sheet of frames, each of which leaves a loose island of 18 × 18 mm.
func frames() draft.Draft {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p1", A: 70, B: 70, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "frame", Name: "Frame", Outline: geometry.Orient(orb.MultiPolygon{{
		{{-20, -20}, {20, -20}, {20, 20}, {-20, 20}, {-20, -20}}, {{-9, -9}, {9, -9}, {9, 9}, {-9, 9}, {-9, -9}}}})}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "frame", At: [2]float64{35, 30}, Scale: 1}}
	d.Field.Edge = draft.Whole
	return d
}

func saved(t *testing.T, d draft.Draft) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "draft.openwork.json")
	if err := os.WriteFile(path, d.Encode(), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// cut, steps and join write nothing for a sheet that does not hold, and say why; with -unsound the file carries the
// reasons.
func TestSheetsThatDoNotHoldAreNotCut(t *testing.T) {
	file := saved(t, frames())
	for _, c := range []struct{ name, args, file string }{
		{"cut", "cut", "a.svg"},
		{"stepping sheet", "steps", "a.svg"},
		{"joined sheets", "join -bed 450x600", "a-1.svg"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			args := append(strings.Fields(c.args), file, "-o", filepath.Join(dir, "a.svg"))
			var out bytes.Buffer
			err := run(args, &out)
			if !errors.Is(err, errUnsound) || !strings.Contains(err.Error(),
				" islands that would drop out, the worst:\n  at (") || strings.Count(err.Error(), "\n") > 1+maxPlaces {
				t.Errorf("%v", err)
			}
			if left, _ := os.ReadDir(dir); len(left) > 0 || out.Len() > 0 {
				t.Errorf("%d files are there, and %q was printed", len(left), out.String())
			}
			if err := run(append(args, "-unsound"), &out); err != nil {
				t.Fatal(err)
			}
			data, err := os.ReadFile(filepath.Join(dir, c.file))
			if err != nil || !bytes.Contains(data, []byte("<desc>This sheet does not hold: ")) ||
				!bytes.Contains(data, []byte(" more islands that would drop out.</desc>")) {
				t.Errorf("the file does not carry the reasons: %v", err)
			}
		})
	}
}

// A panel without an opening is refused, -unsound or not, in a sentence.
func TestEmptyPanelsAreNotCut(t *testing.T) {
	none := frames()
	none.Motifs = nil
	outside := frames()
	// larger than the field: not one whole copy
	outside.Repeat.A, outside.Repeat.B, outside.Motifs[0].Scale = 5000, 5000, 40
	for name, d := range map[string]draft.Draft{"no motif": none, "no copy inside": outside} {
		t.Run(name, func(t *testing.T) {
			file := saved(t, d)
			var out bytes.Buffer
			if err := run([]string{"check", file}, &out); !errors.Is(err, errUnsound) ||
				!strings.Contains(out.String(), `"kind": "empty"`) {
				t.Errorf("check: %v", err)
			}
			for _, verb := range []string{"cut", "steps -unsound", "join -unsound", "cut -unsound"} {
				dir := t.TempDir()
				args := append(strings.Fields(verb), file, "-bed", "450x600", "-o", filepath.Join(dir, "a.svg"))
				if verb == "cut" || verb == "cut -unsound" {
					args = append(strings.Fields(verb), file, "-o", filepath.Join(dir, "a.svg"))
				}
				err := run(args, &out)
				if !errors.Is(err, errUnsound) || !strings.Contains(err.Error(), "nothing would be cut") {
					t.Errorf("%s: %v", verb, err)
				}
				if left, _ := os.ReadDir(dir); len(left) > 0 {
					t.Errorf("%s left %s", verb, left[0].Name())
				}
			}
		})
	}
}
