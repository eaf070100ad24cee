//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"openwork/geometry/geometrytest"
	"openwork/pattern/draft"
	"openwork/pattern/paint"
)

// chequer is small with two colours by symmetry.
func chequer() draft.Draft {
	d := frames()
	d.Silhouettes[0].Outline = d.Silhouettes[0].Outline[:1]
	d.Silhouettes[0].Outline[0] = d.Silhouettes[0].Outline[0][:1]
	d.Swatches = []draft.Swatch{{ID: "c1", Name: "Bone", Colour: "#e8e0cf"},
		{ID: "c2", Name: "Rust", Colour: "#8a3b1c"}}
	d.Paint = draft.NewPaint()
	d.Paint.Colours = []string{"c1", "c2"}
	d.Paint.ByHand = &draft.ByHand{Cells: [2]int{2, 1}, Copies: []draft.HandColour{{Motif: "m", Cell: [2]int{1, 0},
		Colour: 1}}}
	return d
}

// cut -plates writes a file for each colour, numbered as the rows of paint are; where a plate does not hold nothing is
// written but with -unsound, and then that plate's file says why.
func TestCutPlates(t *testing.T) {
	d := chequer()
	dir := t.TempDir()
	var out bytes.Buffer
	if err := run([]string{"cut", saved(t, d), "-plates", "-o", filepath.Join(dir, "a.svg")}, &out); err != nil {
		t.Fatal(err)
	}
	var rows []plateFile
	if err := json.Unmarshal(out.Bytes(), &rows); err != nil {
		t.Fatal(err)
	}
	out.Reset()
	if err := run([]string{"paint", saved(t, d)}, &out); err != nil {
		t.Fatal(err)
	}
	var paste paint.Reckoning
	if err := json.Unmarshal(out.Bytes(), &paste); err != nil {
		t.Fatal(err)
	}
	for i, name := range []string{"a-1.svg", "a-2.svg"} {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		swatch := d.Swatches[i]
		if !strings.Contains(string(text), swatch.Name) || rows[i].Swatch != swatch.ID ||
			paste.Swatches[i].Swatch != swatch.ID ||
			rows[i].Made.Openings != paste.Swatches[i].Openings || rows[i].Made.Openings == 0 {
			t.Errorf("%s is plate %+v, its paste %+v", name, rows[i].Plate, paste.Swatches[i])
		}
	}

	d.Silhouettes[0].Outline = frames().Silhouettes[0].Outline
	for _, unsound := range []bool{false, true} {
		dir := t.TempDir()
		args := []string{"cut", saved(t, d), "-plates", "-o", filepath.Join(dir, "a.svg")}
		if unsound {
			args = append(args, "-unsound")
		}
		err := run(args, &bytes.Buffer{})
		left, _ := os.ReadDir(dir)
		if unsound && (err != nil || len(left) != 2) ||
			!unsound && (!errors.Is(err, errUnsound) || !strings.Contains(err.Error(), "plate 2, Rust:\n") ||
				len(left) > 0) {
			t.Errorf("unsound %v: %v, %d files", unsound, err, len(left))
		}
		if unsound {
			if text, _ := os.ReadFile(filepath.Join(dir, "a-1.svg")); !strings.Contains(string(text), "does not hold") {
				t.Error("the file does not say that its plate does not hold")
			}
		}
	}

	d.Paint = nil
	if err := run([]string{"cut", saved(t, d), "-plates", "-o", filepath.Join(dir, "b.svg")},
		&bytes.Buffer{}); err == nil ||
		!strings.Contains(err.Error(), "plates are for several colours") {
		t.Error(err)
	}
}

// cut -plates -over-ties writes a further file for each colour whose ties would show, and the rows say of how many ties
// what becomes of them.
func TestCutPlatesOverTies(t *testing.T) {
	d := chequer()
	b := d.Silhouettes[0].Outline.Bound()
	d.Ties = []draft.Tie{{Silhouette: d.Silhouettes[0].ID, From: [2]float64{b.Min[0] - 1, b.Center()[1]},
		To: [2]float64{b.Max[0] + 1, b.Center()[1]}, Width: 3}}
	for _, over := range []bool{false, true} {
		dir := t.TempDir()
		args := []string{"cut", saved(t, d), "-plates", "-o", filepath.Join(dir, "a.dxf")}
		if over {
			args = append(args, "-over-ties", "-lap", "0.5")
		}
		var out bytes.Buffer
		if err := run(args, &out); err != nil {
			t.Fatal(err)
		}
		var rows []plateFile
		if err := json.Unmarshal(out.Bytes(), &rows); err != nil {
			t.Fatal(err)
		}
		files, _ := os.ReadDir(dir)
		want, first := 2, rows[0].Ties
		if over {
			want = 4
		}
		if len(rows) != want || len(files) != want || first.Number == 0 || (first.Bare == 0) != over {
			t.Errorf("over ties %v: %d rows, %d files, the first with %+v", over, len(rows), len(files), first)
		}
		for _, row := range rows[2:] {
			if row.Swatch != rows[row.Over-1].Swatch || row.Made.Openings != rows[row.Over-1].Ties.Over {
				t.Errorf("%+v opens the ties of %+v", row.Plate, rows[row.Over-1].Plate)
			}
		}
	}
	err := run([]string{"cut", saved(t, d), "-over-ties", "-o", filepath.Join(t.TempDir(), "a.svg")}, &bytes.Buffer{})
	if !errors.Is(err, errUsage) {
		t.Errorf("without plates: %v", err)
	}
}

// steps -plates and join -plates write a file for each colour, and for each part of each; a plate that does not hold is
// named before anything is written. The job sheet of either says what is cut in which colour.
func TestSteppedAndJoinedPlates(t *testing.T) {
	d := chequer()
	bed := "400x400"
	if err := run([]string{"nest", saved(t, d), "-plates", "-stock", "1000x1000", "-o",
		filepath.Join(t.TempDir(), "n.svg")}, &bytes.Buffer{}); err != nil {
		t.Error(err)
	}
	type sheets struct {
		args []string
		want []string
	}
	for _, c := range geometrytest.Share(t, []sheets{
		{[]string{"steps"}, []string{"a-1.svg", "a-2.svg"}},
		{[]string{"join", "-bed", bed}, []string{"a-1-1.svg", "a-2-1.svg"}},
	}, 1) {
		dir := t.TempDir()
		var out bytes.Buffer
		args := append([]string{c.args[0], saved(t, d), "-plates", "-o", filepath.Join(dir, "a.svg"), "-map",
			filepath.Join(dir, "map.pdf")}, c.args[1:]...)
		if err := run(args, &out); err != nil {
			t.Fatal(err)
		}
		for _, name := range append(c.want, "map.pdf") {
			if _, err := os.Stat(filepath.Join(dir, name)); err != nil {
				t.Errorf("%s: %v", c.args[0], err)
			}
		}
		text, err := os.ReadFile(filepath.Join(dir, c.want[1]))
		if err != nil || !strings.Contains(string(text), "plate 2 of 2") || !strings.Contains(string(text), "Rust") {
			t.Errorf("%s: the second file is not plate 2 (%v)", c.args[0], err)
		}

		job := filepath.Join(dir, "job.pdf")
		if err := run(append([]string{"job", saved(t, d), "-as", c.args[0], "-plates", "-o", job}, c.args[1:]...),
			&bytes.Buffer{}); err != nil {
			t.Fatal(err)
		}
		words, err := exec.Command("pdftotext", job, "-").Output()
		if err != nil || !strings.Contains(string(words), "Rust") {
			t.Errorf("%s: the job sheet does not name the plates (%v)", c.args[0], err)
		}

		d.Silhouettes[0].Outline = frames().Silhouettes[0].Outline
		args[1] = saved(t, d)
		err = run(args, &bytes.Buffer{})
		if !errors.Is(err, errUnsound) || !strings.Contains(err.Error(), "plate 2, Rust:\n") {
			t.Errorf("%s: plates that do not hold: %v", c.args[0], err)
		}
		d = chequer()
	}
}
