//go:build !js

package main

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
)

// mend prints the draft with ties, in which check finds no island, and prints that again as it is.
func TestMendPrintsTheDraftTied(t *testing.T) {
	d := draft.Default()
	d.Repeat = draft.Repeat{Group: "p2gg", A: 150, B: 120, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "frame", Name: "Frame", Outline: geometry.Orient(orb.MultiPolygon{{
		{{-20, -20}, {20, -20}, {20, 20}, {-20, 20}, {-20, -20}}, {{-9, -9}, {9, -9}, {9, 9}, {-9, 9}, {-9, -9}}}})}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "frame", At: [2]float64{35, 30}, Scale: 1}}
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
	got, err := draft.DecodeBytes(out.Bytes())
	if err != nil || len(got.Ties) < 2 {
		t.Fatalf("%d ties, %v", len(got.Ties), err)
	}
	r, err := checkReport(got)
	if err != nil || r.Counts.Islands != 0 || !r.Sound {
		t.Errorf("%+v, sound %v, %v", r.Counts, r.Sound, err)
	}
	write(out.Bytes())
	var again bytes.Buffer
	if err := run([]string{"mend", path}, &again); err != nil || again.String() != out.String() {
		t.Errorf("mended twice, it is another draft (%v)", err)
	}
	for want, d := range map[string]draft.Draft{"Every piece of sheet is held; no tie is needed.": got,
		" ties were added, and every piece of sheet is held.": d} {
		t.Run(want, func(t *testing.T) {
			if m, err := (&mendInput{drafted{draft: d}}).run(nil); err != nil || !strings.HasSuffix(m.Text, want) {
				t.Errorf("%q, %v", m.Text, err)
			}
		})
	}
	// The opening reaches beyond the sheet on every side: there is nothing to tie its middle to.
	d.Panel = draft.Panel{Width: 240, Height: 240}
	d.Field = draft.Field{Margin: 5, Origin: [2]float64{120, 120}, Edge: draft.Touching}
	d.Repeat = draft.Repeat{Group: "p1", A: 9000, B: 9000, Gamma: 90}
	d.Motifs[0].At, d.Motifs[0].Scale = [2]float64{}, 12
	write(d.Encode())
	out.Reset()
	if err := run([]string{"mend", path}, &out); err == nil || !strings.Contains(err.Error(), "(120.0, 120.0) mm") ||
		out.Len() > 0 {
		t.Errorf("a frame larger than the sheet gives %v and prints %q", err, out.String())
	}
}

// Mends asked for after the check of the same draft are those asked for alone, and those of another draft are its own.
func TestMendsAfterACheck(t *testing.T) {
	crowded := patterntest.SmallDemo(t)
	crowded.Motifs[1].At[0] += 12
	loose := patterntest.SmallDemo(t)
	loose.Motifs[1].At[1] += 4
	var alone [2][]sheet.Mend
	for k, d := range []draft.Draft{crowded, loose} {
		var err error
		if alone[k], err = new(lastChecked).mends(string(d.Encode()), d, nil); err != nil || len(alone[k]) == 0 {
			t.Fatalf("%v, %v", alone[k], err)
		}
	}
	var last lastChecked
	for _, step := range []struct{ checked, asked int }{{0, 0}, {1, 1}, {1, 0}} {
		t.Run(fmt.Sprintf("draft %d checked, %d asked", step.checked, step.asked), func(t *testing.T) {
			d := []draft.Draft{crowded, loose}
			want, err := checkReport(d[step.checked])
			if err != nil {
				t.Fatal(err)
			}
			got, err := last.check(string(d[step.checked].Encode()), d[step.checked], nil)
			if err != nil || !reflect.DeepEqual(got, want) {
				t.Errorf("%+v: another report (%v)", step, err)
			}
			offered, err := last.mends(string(d[step.asked].Encode()), d[step.asked], nil)
			if err != nil || !reflect.DeepEqual(offered, alone[step.asked]) {
				t.Errorf("%+v: other mends (%v)", step, err)
			}
		})
	}
}

// A crowded panel has its ties with what is worse for them: the second of these drafts.
func TestMendSaysWhatIsWorse(t *testing.T) {
	r := rand.New(rand.NewPCG(4242, 0))
	patterntest.Draft(r, "p2")
	d := patterntest.Draft(r, "p2")
	d.Panel.Width, d.Panel.Height = math.Min(d.Panel.Width, 45), math.Min(d.Panel.Height, 45)
	before, err := checkReport(d)
	if err != nil {
		t.Fatal(err)
	}
	m, err := (&mendInput{drafted{draft: d}}).run(nil)
	if err != nil {
		t.Fatal(err)
	}
	tied, err := draft.DecodeBytes([]byte(m.Draft))
	if err != nil {
		t.Fatal(err)
	}
	after, err := checkReport(tied)
	if err != nil {
		t.Fatal(err)
	}
	worse := sheet.SummaryOfGrown(before.Totals, after.Totals, sheet.Fault)
	if worse == "" || !strings.Contains(m.Text, "it now has "+worse+".") {
		t.Errorf("%q, and there are now %q", m.Text, worse)
	}
	t.Log(m.Text)
}
