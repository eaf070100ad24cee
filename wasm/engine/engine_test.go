//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
)

const demoFile = "../../testdata/drafts/heron-over-carp.openwork.json"

// smallDemoFile returns a file with the demonstration on a panel that is soon worked out.
func smallDemoFile(t *testing.T) string {
	t.Helper()
	return saved(t, patterntest.SmallDemo(t))
}

func TestGroupsAsTheTablesHaveThem(t *testing.T) {
	var out bytes.Buffer
	if err := run([]string{"groups"}, &out); err != nil {
		t.Fatal(err)
	}
	var rows []groupRow
	if err := json.Unmarshal(out.Bytes(), &rows); err != nil {
		t.Fatal(err)
	}
	// Symbol, order of the point group and operations over the conventional cell: International Tables A, plane groups.
	want := []struct {
		symbol     string
		order, ops int
	}{{"p1", 1, 1}, {"p2", 2, 2}, {"pm", 2, 2}, {"pg", 2, 2}, {"cm", 2, 4}, {"p2mm", 4, 4}, {"p2mg", 4, 4},
		{"p2gg", 4, 4},
		{"c2mm", 4, 8}, {"p4", 4, 4}, {"p4mm", 8, 8}, {"p4gm", 8, 8}, {"p3", 3, 3}, {"p3m1", 6, 6}, {"p31m", 6, 6},
		{"p6", 6, 6}, {"p6mm", 12, 12}}
	if len(rows) != len(want) {
		t.Fatalf("%d rows", len(rows))
	}
	for i, w := range want {
		if r := rows[i]; r.Symbol != w.symbol || r.Order != w.order || len(r.Ops) != w.ops || r.Number != i+1 {
			t.Errorf("row %d: %s order %d with %d operations, want %+v", i, r.Symbol, r.Order, len(r.Ops), w)
		}
	}
	if got := rows[7].Ops[2].T; got != [2]string{"1/2", "1/2"} {
		t.Errorf("p2gg's third operation has the translation %v", got)
	}
}

// The maps that copies prints carry the silhouette's frame to the place the group's operations and the motif say.
func TestCopiesMapsAreWhatTheyName(t *testing.T) {
	var out bytes.Buffer
	if err := run([]string{"copies", demoFile}, &out); err != nil {
		t.Fatal(err)
	}
	var rows []copyRow
	if err := json.Unmarshal(out.Bytes(), &rows); err != nil || len(rows) == 0 {
		t.Fatal(len(rows), err)
	}
	d, err := readDraft(demoFile)
	if err != nil {
		t.Fatal(err)
	}
	l, err := layoutOf(d)
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range rows {
		m := d.Motifs[d.Motif(r.Motif)]
		want := d.FieldMap().After(l.Op(r.Op, r.Cell[0], r.Cell[1])).After(m.Map())
		p := orb.Point{3, 7}
		q := want.Apply(p)
		x := r.Map[0][0]*p[0] + r.Map[0][1]*p[1] + r.Shift[0]
		y := r.Map[1][0]*p[0] + r.Map[1][1]*p[1] + r.Shift[1]
		if math.Hypot(x-q[0], y-q[1]) > 1e-9 {
			t.Fatalf("row %d carries (3, 7) to (%g, %g), want %v", i, x, y, q)
		}
	}
}

func TestCheckTellsByItsError(t *testing.T) {
	var out bytes.Buffer
	if err := run([]string{"check", demoFile}, &out); err != nil {
		t.Fatalf("the demo does not hold: %v\n%.600s", err, out.String())
	}
	var r sheet.Report
	if err := json.Unmarshal(out.Bytes(), &r); err != nil || !r.Sound || r.Counts.Copies == 0 ||
		r.NarrowestBetween == nil {
		t.Errorf("%+v %v", r.Counts, err)
	}
	d, err := readDraft(demoFile)
	if err != nil {
		t.Fatal(err)
	}
	d.Repeat.A *= 0.8
	path := filepath.Join(t.TempDir(), "tight.openwork.json")
	if err := os.WriteFile(path, d.Encode(), 0o644); err != nil {
		t.Fatal(err)
	}
	out.Reset()
	if err := run([]string{"check", path}, &out); !errors.Is(err, errUnsound) {
		t.Errorf("a tight field gives %v", err)
	}
	if err := json.Unmarshal(out.Bytes(), &r); err != nil || r.Sound || len(r.Problems) == 0 {
		t.Errorf("an unsound sheet must still be told of: %v", err)
	}
}

// recognise prints the keys it promises, whatever there is to tell, and says so when there is nothing to look at.
func TestRecogniseSaysWhatIsThere(t *testing.T) {
	square := orb.MultiPolygon{{{{-5, -5}, {5, -5}, {5, 5}, {-5, 5}, {-5, -5}}}}
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p1", A: 40, B: 40, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Square", Outline: square}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{7, 9}, Scale: 1}}
	write := func(d draft.Draft) string {
		path := filepath.Join(t.TempDir(), "field.openwork.json")
		if err := os.WriteFile(path, d.Encode(), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	var out bytes.Buffer
	if err := run([]string{"recognise", write(d)}, &out); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Chosen, Actual *string
		Order          *int
		Primitive      *[2][2]float64
		Elements       []map[string]any
	}
	decode := json.NewDecoder(&out)
	decode.DisallowUnknownFields()
	if err := decode.Decode(&got); err != nil || got.Chosen == nil || got.Actual == nil || got.Order == nil ||
		got.Primitive == nil {
		t.Fatalf("%+v %v", got, err)
	}
	if *got.Chosen != "p1" || *got.Actual != "p4mm" || *got.Order != 8 ||
		*got.Primitive != [2][2]float64{{40, 0}, {0, 40}} {
		t.Errorf("a square in a square cell is %s of order %d on %v", *got.Actual, *got.Order, *got.Primitive)
	}
	kinds := map[string]int{}
	for _, e := range got.Elements {
		kinds[e["kind"].(string)]++
		for _, key := range []string{"order", "at", "along", "shift"} {
			if _, ok := e[key]; !ok {
				t.Errorf("an element without %s: %v", key, e)
			}
		}
	}
	if kinds["turn"] != 4 || kinds["mirror"] != 6 || kinds["glide"] != 2 {
		t.Errorf("p4mm has the elements %v", kinds)
	}

	d.Motifs[0].Turn = 20
	d.Repeat.B = 30
	d.Silhouettes[0].Outline = orb.MultiPolygon{{{{0, 0}, {9, 0}, {2, 4}, {0, 0}}}}
	out.Reset()
	if err := run([]string{"recognise", write(d)}, &out); err != nil ||
		!strings.Contains(out.String(), `"elements": []`) {
		t.Errorf("a field without elements prints %s %v", out.String(), err)
	}
	d.Motifs = nil
	out.Reset()
	if err := run([]string{"recognise", write(d)}, &out); err == nil || !strings.Contains(err.Error(), "empty") ||
		out.Len() > 0 {
		t.Errorf("an empty field gives %v and prints %q", err, out.String())
	}
}

func TestLinkAndBack(t *testing.T) {
	var out bytes.Buffer
	if err := run([]string{"link", demoFile}, &out); err != nil {
		t.Fatal(err)
	}
	fragment := strings.TrimSpace(out.String())
	if !strings.HasPrefix(fragment, "#") {
		t.Fatalf("%.40s", fragment)
	}
	out.Reset()
	if err := run([]string{"open", "https://example.org/bench/" + fragment}, &out); err != nil {
		t.Fatal(err)
	}
	got, err := draft.Decode(&out)
	if err != nil {
		t.Fatal(err)
	}
	want, err := readDraft(demoFile)
	if err != nil {
		t.Fatal(err)
	}
	for i := range want.Silhouettes {
		a, b := geometry.NewShape(got.Silhouettes[i].Outline), geometry.NewShape(want.Silhouettes[i].Outline)
		if !geometry.SameWithin(a, b, 0.0072) { // half a step of 0.01 each way
			t.Errorf("silhouette %d moved by more than half a hundredth", i)
		}
		got.Silhouettes[i].Outline = want.Silhouettes[i].Outline
	}
	if string(got.Encode()) != string(want.Encode()) {
		t.Error("a link changes more than the outlines' last digits")
	}
}

func TestCutAndPictureWriteFiles(t *testing.T) {
	dir, demo := t.TempDir(), smallDemoFile(t)
	for file, verb := range map[string]string{"a.svg": "cut", "a.dxf": "cut", "a.pdf": "cut", "a.png": "picture"} {
		t.Run(file, func(t *testing.T) {
			path := filepath.Join(dir, file)
			var out bytes.Buffer
			if err := run([]string{verb, demo, "-o", path}, &out); err != nil {
				t.Fatal(err)
			}
			data, err := os.ReadFile(path)
			if err != nil || len(data) < 1000 {
				t.Errorf("%s wrote %d bytes: %v", verb, len(data), err)
			}
		})
	}
}

func TestTraceScan(t *testing.T) {
	var out bytes.Buffer
	if err := run([]string{"trace", "../../testdata/drawings/carp-scan.png"}, &out); err != nil {
		t.Fatal(err)
	}
	var s []draft.Silhouette
	if err := json.Unmarshal(out.Bytes(), &s); err != nil || len(s) != 1 {
		t.Fatalf("%d pieces: %v", len(s), err)
	}
	d, err := readDraft(demoFile)
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range d.Silhouettes {
		if o.Name == "Carp" {
			if a, b := geometry.Area(s[0].Outline), geometry.Area(o.Outline); math.Abs(a-b) > 0.01*b {
				t.Errorf("the scanned carp covers %g mm², the drawn one %g", a, b)
			}
		}
	}
}

func TestBadUse(t *testing.T) {
	text := filepath.Join(t.TempDir(), "drawing.png")
	if err := os.WriteFile(text, []byte("this is no picture"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{}, {"paint"}, {"check"}, {"check", "nowhere.json"}, {"check", text}, {"check", demoFile, demoFile},
		{"recognise"}, {"recognise", "nowhere.json"}, {"recognise", text},
		{"cut", demoFile}, {"cut", demoFile, "-o", "a.doc"}, {"picture", demoFile, "-o", "a.png", "-width", "9000"},
		{"open", "#section-2"}, {"open", ""}, {"trace", text}, {"trace", "nowhere.png"}, {"groups", "-x"},
	} {
		var out bytes.Buffer
		err := run(args, &out)
		if err == nil || errors.Is(err, errUnsound) || errors.Is(err, flag.ErrHelp) {
			t.Errorf("%q gives %v", args, err)
		}
		if out.Len() > 0 {
			t.Errorf("%q writes a result: %.60q", args, out.String())
		}
	}
}
