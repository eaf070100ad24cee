//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"openwork/geometry/geometrytest"
	"openwork/pattern/nest"
)

// steps writes a sheet that fits the bed and prints the map of its places.
func TestStepsWritesASheetAndItsMap(t *testing.T) {
	file := filepath.Join(t.TempDir(), "step.dxf")
	var out bytes.Buffer
	if err := run([]string{"steps", demoFile, "-bed", "400x600", "-repeats", "most", "-o", file}, &out); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Width, Height float64
		Places        []struct{ Number, Pass int }
		Passes        [][]int
		Holes         [][2]float64
		Openings      []struct{ Number int }
		Type          string
		Made          struct{ Openings int }
	}
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Width > 400 && got.Width > 600 || len(got.Places) < 2 || len(got.Passes) < 2 || len(got.Holes) != 4 ||
		got.Made.Openings != len(got.Openings) || got.Type != "image/vnd.dxf" {
		t.Errorf("%+v", got)
	}
	if data, err := os.ReadFile(file); err != nil || !bytes.Contains(data, []byte("EOF")) {
		t.Errorf("the file: %v", err)
	}
}

// join writes a file for each part, named by its number.
func TestJoinWritesAFileForEachPart(t *testing.T) {
	file := filepath.Join(t.TempDir(), "part.svg")
	var out bytes.Buffer
	if err := run([]string{"join", smallDemoFile(t), "-bed", "260X240", "-o", file}, &out); err != nil {
		t.Fatal(err)
	}
	var got joinOutput
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	names, err := filepath.Glob(strings.Replace(file, ".svg", "-*.svg", 1))
	if err != nil || len(names) != 4 || len(got.Files) != 4 || len(got.Parts) != 4 {
		t.Fatalf("%v, %d files, %d parts: %v", names, len(got.Files), len(got.Parts), err)
	}
	for i, p := range got.Files {
		data, err := os.ReadFile(names[i])
		if err != nil || len(data) != p.Length || !bytes.HasPrefix(data, []byte("<?xml")) ||
			!bytes.HasSuffix(data, []byte("</svg>\n")) {
			t.Errorf("%s holds %d bytes of %d: %v", names[i], len(data), p.Length, err)
		}
	}
}

func TestStepsAndJoinSayWhatIsWrong(t *testing.T) {
	for _, c := range []struct {
		args string
		want string
		use  bool
	}{
		// the flag package answers with the text alone
		{"steps FILE -bed 600 -o a.svg", "write them as 600x900", false},
		{"steps FILE -o a.txt", "ends in .svg", true},
		{"steps FILE -repeats 1.5x2 -o a.svg", "whole numbers", true},
		{"steps FILE -repeats 0x2 -o a.svg", "between 1 and 1000", false},
		{"steps FILE -bed 100x100 -o a.svg", "the bed takes 100 × 100 mm", false},
		{"join FILE -bed 40x40 -o a.svg", "more than 40 parts", false},
	} {
		t.Run(c.args, func(t *testing.T) {
			var out bytes.Buffer
			err := run(strings.Fields(strings.Replace(c.args, "FILE", demoFile, 1)), &out)
			if err == nil || !strings.Contains(err.Error(), c.want) || c.use != errors.Is(err, errUsage) ||
				out.Len() > 0 {
				t.Errorf("%v", err)
			}
		})
	}
}

// The job sheet speaks of what is chosen: how often a stepping sheet is laid, how many parts are joined.
func TestJobSpeaksOfWhatIsChosen(t *testing.T) {
	demo := smallDemoFile(t)
	for as, want := range map[string]string{"steps": "laid 9 times", "join": "cut in 4 parts"} {
		file := filepath.Join(t.TempDir(), "job.pdf")
		var out bytes.Buffer
		if err := run([]string{"job", demo, "-as", as, "-bed", "260x240", "-lays", "fewest", "-o", file},
			&out); err != nil {
			t.Fatal(err)
		}
		text, err := exec.Command("pdftotext", file, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		if said := strings.Join(strings.Fields(string(text)), " "); !strings.Contains(said, want) ||
			strings.Contains(said, "laid once. Side") {
			t.Errorf("%s: the job sheet does not say %q", as, want)
		}
	}
	if err := run([]string{"job", demoFile, "-as", "hand", "-o", "a.pdf"}, &bytes.Buffer{}); !errors.Is(err, errUsage) {
		t.Errorf("a sheet made by hand: %v", err)
	}
}

// Parts nested by their outlines, turned by any quarter, are in the files what they are in their own: read with ezdxf,
// the same contours as far from the outline's middle. GEOS finds them apart, and from the stock's edge.
func TestNestedPartsAreTheParts(t *testing.T) {
	const roomy, bed, stock = "../../testdata/drafts/heron-with-room.openwork.json", "300x400", "1000x625"
	dir := t.TempDir()
	var out bytes.Buffer
	for _, args := range [][]string{
		{"join", roomy, "-bed", bed, "-polygons", "-o", filepath.Join(dir, "p.dxf")},
		{"nest", roomy, "-as", "join", "-bed", bed, "-polygons", "-stock", stock, "-edge", "5", "-space", "3", "-o",
			filepath.Join(dir, "n.dxf")},
	} {
		out.Reset()
		if err := run(args, &out); err != nil {
			t.Fatal(err)
		}
	}
	var nested nestOutput
	if err := json.Unmarshal(out.Bytes(), &nested); err != nil {
		t.Fatal(err)
	}

	// By their boxes they take two.
	boxes := slices.Clone(nested.Pieces)
	for i := range boxes {
		boxes[i].Outline = nil
	}
	n, err := nest.Pack(nest.Stock{Width: 1000, Height: 625, Edge: 5, Space: 3}, boxes)
	if err != nil || len(n.Sheets) != 2 || len(nested.Sheets) != 1 || nested.Bound != 1 || nested.Share > 1 {
		t.Fatalf("%d sheets, by boxes %d; bound %d, share %g: %v", len(nested.Sheets), len(n.Sheets), nested.Bound,
			nested.Share, err)
	}
	if !slices.ContainsFunc(nested.Sheets[0], func(p nest.Placed) bool { return p.Turns() > 1 }) {
		t.Errorf("no part is turned by more than a quarter: %+v", nested.Sheets)
	}

	cmd := exec.Command("/usr/bin/python3", "testdata/nested.py", dir, stock)
	cmd.Stderr = os.Stderr
	answer, err := cmd.Output()
	if err != nil {
		t.Fatal("files could not be read (it needs Debian's python3-ezdxf and python3-shapely): ", err)
	}
	var got struct {
		Pieces, Parts, Contours, Unknown int
		Apart, Edge                      float64
	}
	if err := json.Unmarshal(answer, &got); err != nil {
		t.Fatal(err)
	}
	if got.Parts != 8 || got.Pieces != 8 || got.Unknown > 0 || got.Contours < 200 || got.Apart < 3-0.02 ||
		got.Edge < 5-0.02 {
		t.Errorf("%+v", got)
	}
}

// nest writes a file for each sheet of stock, and every format is read back as it was meant, turned pieces too.
func TestNestWritesAFileForEachSheetOfStock(t *testing.T) {
	demo := smallDemoFile(t)
	for _, ending := range geometrytest.Share(t, []string{"dxf", "pdf"}, 1) {
		dir := t.TempDir()
		var out bytes.Buffer
		if err := run([]string{"nest", demo, "-as", "join", "-bed", "240x260", "-stock", "500x250", "-polygons",
			"-o", filepath.Join(dir, "n."+ending)}, &out); err != nil {
			t.Fatal(err)
		}
		var got nestOutput
		if err := json.Unmarshal(out.Bytes(), &got); err != nil {
			t.Fatal(err)
		}
		files, err := filepath.Glob(filepath.Join(dir, "n-*."+ending))
		if err != nil || len(files) != len(got.Sheets) || len(got.Sheets) < got.Bound || len(got.Pieces) != 4 {
			t.Errorf("%s: %v for %d sheets of stock: %v", ending, files, len(got.Sheets), err)
		}
		openings := 0
		for _, f := range got.Files {
			openings += f.Made.Openings
		}
		if openings != 28 || len(got.Chosen) != 1 || !strings.Contains(got.Chosen[0], "part 4 of 4") {
			t.Errorf("%s: %d openings, %q", ending, openings, got.Chosen)
		}
	}

	for _, c := range []struct{ args, want string }{
		{"-stock 300x400 -o a.svg", "does not fit on stock"},
		{"-stock 700 -o a.svg", "write them as 600x900"},
		{"-stock 700x950 -with FILE=x -o a.svg", "not a number of copies"},
		{"-o a.svg", "stock of 0 × 0 mm"},
	} {
		args := strings.Fields("nest FILE " + c.args)
		for i := range args {
			args[i] = strings.Replace(args[i], "FILE", demoFile, 1)
		}
		if err := run(args, &bytes.Buffer{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.args, err)
		}
	}
}
