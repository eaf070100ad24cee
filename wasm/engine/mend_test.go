//go:build !js

package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// mend prints the draft with ties, in which check finds no island, and prints that again as it is.
func TestMendPrintsTheDraftTied(t *testing.T) {
	d := pattern.Default()
	d.Repeat = pattern.Repeat{Group: "p2gg", A: 150, B: 120, Gamma: 90}
	d.Silhouettes = []pattern.Silhouette{{ID: "frame", Name: "Frame", Outline: geometry.Orient(orb.MultiPolygon{{
		{{-20, -20}, {20, -20}, {20, 20}, {-20, 20}, {-20, -20}}, {{-9, -9}, {9, -9}, {9, 9}, {-9, 9}, {-9, -9}}}})}}
	d.Motifs = []pattern.Motif{{ID: "m", Silhouette: "frame", At: [2]float64{35, 30}, Scale: 1}}
	path := filepath.Join(t.TempDir(), "frame.openwork.json")
	write := func(text []byte) {
		if err := os.WriteFile(path, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(d.Encode())
	var out bytes.Buffer
	if err := run([]string{"mend", path}, &out); err != nil {
		t.Fatal(err)
	}
	got, err := pattern.DecodeBytes(out.Bytes())
	if err != nil || len(got.Ties) < 2 {
		t.Fatalf("%d ties, %v", len(got.Ties), err)
	}
	r, err := checkReport(got, nil)
	if err != nil || r.Counts.Islands != 0 || !r.Sound {
		t.Errorf("%+v, sound %v, %v", r.Counts, r.Sound, err)
	}
	write(out.Bytes())
	var again bytes.Buffer
	if err := run([]string{"mend", path}, &again); err != nil || again.String() != out.String() {
		t.Errorf("mended twice, it is another draft (%v)", err)
	}
	for want, d := range map[string]pattern.Draft{"Every piece of sheet is held; no tie is needed.": got,
		" ties were added, and every piece of sheet is held.": d} {
		if m, err := mend(d); err != nil || !strings.HasSuffix(m.Text, want) {
			t.Errorf("%q, %v", m.Text, err)
		}
	}
	// The opening reaches beyond the sheet on every side: there is nothing to tie its middle to.
	d.Panel = pattern.Panel{Width: 240, Height: 240}
	d.Field = pattern.Field{Margin: 5, Origin: [2]float64{120, 120}, Edge: pattern.Touching}
	d.Repeat = pattern.Repeat{Group: "p1", A: 9000, B: 9000, Gamma: 90}
	d.Motifs[0].At, d.Motifs[0].Scale = [2]float64{}, 12
	write(d.Encode())
	out.Reset()
	if err := run([]string{"mend", path}, &out); err == nil || !strings.Contains(err.Error(), "(120.0, 120.0) mm") || out.Len() > 0 {
		t.Errorf("a frame larger than the sheet gives %v and prints %q", err, out.String())
	}
}
