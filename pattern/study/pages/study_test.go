package pages

import (
	"bytes"
	"math"
	"math/rand/v2"
	"sort"
	"strings"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/paper"
	"openwork/pattern/patterntest"
)

func TestFewerPages(t *testing.T) {
	d := patterntest.Demo(t)
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range paper.Sizes() {
		n := map[string]int{}
		for _, way := range []string{Upright, Lying, Fewer, ""} {
			o := Defaults()
			o.Paper, o.Way = p.Name, way
			s, err := plan(l, o)
			if err != nil {
				t.Fatal(err)
			}
			n[way] = s.made.Pages
			last := s.made.Places[len(s.made.Places)-1]
			all := s.made.Places[0].Window.Union(last.Window)
			if panel := d.PanelBound(); !all.Contains(panel.Min) || !all.Contains(panel.Max) {
				t.Errorf("%s %s: the pages do not cover the panel", p.Name, way)
			}
		}
		if n[Fewer] != min(n[Upright], n[Lying]) || n[""] != n[Fewer] {
			t.Errorf("%s: %v pages", p.Name, n)
		}
	}
}

// Progress rises to the end; a draft without motifs has pages all the same.
func TestProgressAndNothing(t *testing.T) {
	d := patterntest.Demo(t)
	d.Motifs, d.Ties = nil, nil
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var report []float64
	o := Defaults()
	o.Cell, o.Progress = true, func(part float64) { report = append(report, part) }
	var b bytes.Buffer
	made, err := Write(l, &b, o)
	if err != nil {
		t.Fatal(err)
	}
	if sheets := rendered(t, b.Bytes(), 20); len(sheets) != made.Pages {
		t.Errorf("%d pages, told %d", len(sheets), made.Pages)
	}
	if !sort.Float64sAreSorted(report) || len(report) < made.Pages-1 || report[len(report)-1] != 1 {
		t.Errorf("told %v", report)
	}
}

func TestNames(t *testing.T) {
	for _, v := range []struct {
		row, column int
		want        string
	}{{0, 0, "A1"}, {1, 2, "B3"}, {25, 9, "Z10"}, {26, 0, "AA1"}, {52, 0, "BA1"}} {
		t.Run(v.want, func(t *testing.T) {
			if got := name(v.row, v.column); got != v.want {
				t.Errorf("row %d, column %d is called %s, want %s", v.row, v.column, got, v.want)
			}
		})
	}
}

// What cannot be is refused in a sentence that says what and how much.
func TestRefusals(t *testing.T) {
	d := patterntest.Demo(t)
	for words, change := range map[string]func(o *Options, d *draft.Draft){
		`there is no paper "A9"`: func(o *Options, d *draft.Draft) { o.Paper = "A9" },
		"the overlap is NaN mm":  func(o *Options, d *draft.Draft) { o.Overlap = math.NaN() },
		"the printer's margin is -1 mm; it must lie between 0 and 40": func(o *Options, d *draft.Draft) {
			o.Margin = -1
		},
		"the correction is 11 %":  func(o *Options, d *draft.Draft) { o.Correction = 11 },
		`not "bold"`:              func(o *Options, d *draft.Draft) { o.Draw = "bold" },
		`not "askew"`:             func(o *Options, d *draft.Draft) { o.Way = "askew" },
		"leaves too little of A4": func(o *Options, d *draft.Draft) { o.Margin, o.Overlap, o.Correction = 40, 60, 9 },
		"pages, 75 rows of 73, and the limit is 600": func(o *Options, d *draft.Draft) {
			o.Way, d.Panel = Upright, draft.Panel{Width: 13200, Height: 20000}
		},
	} {
		t.Run(words, func(t *testing.T) {
			e, o := d, Defaults()
			change(&o, &e)
			l, err := pattern.NewLayout(e, nil)
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			if _, err := Write(l, &b, o); err == nil || !strings.Contains(err.Error(), words) || b.Len() > 0 {
				t.Errorf("%v, want %q and no file", err, words)
			}
		})
	}
}

func BenchmarkStudy(b *testing.B) {
	r := rand.New(rand.NewPCG(5, 1))
	d := draft.Default() // no file: a browser has none
	d.Panel, d.Field.Origin = draft.Panel{Width: 600, Height: 900}, [2]float64{300, 450}
	d.Repeat = draft.Repeat{Group: "p2gg", A: 150, B: 108, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Outline: patterntest.Smooth(r, 30, 300)}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{38, 27}, Scale: 1}}
	o := Defaults()
	o.Draw, o.Cell = Light, true
	for b.Loop() {
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			b.Fatal(err)
		}
		var out bytes.Buffer
		if _, err := Write(l, &out, o); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(out.Len()), "bytes")
	}
}
