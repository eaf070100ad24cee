package main

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestMedian(t *testing.T) {
	for _, c := range []struct {
		values []float64
		want   float64
	}{
		{nil, 0}, {[]float64{3}, 3}, {[]float64{9, 1, 2}, 2}, {[]float64{4, 1, 9, 2}, 3},
	} {
		t.Run(fmt.Sprint(c.values), func(t *testing.T) {
			before := slices.Clone(c.values)
			if got := median(c.values); got != c.want {
				t.Errorf("%v: %v, want %v", c.values, got, c.want)
			}
			if !slices.Equal(before, c.values) {
				t.Errorf("%v was put in order, and must stay as it came", before)
			}
		})
	}
}

func TestReadBenchmarks(t *testing.T) {
	results, order := readBenchmarks(strings.Split(`goos: js
goarch: wasm
pkg: openwork/pattern/sheet
BenchmarkDrag/panel-1
BenchmarkDrag/panel-1         	     100	   2500000 ns/op	     120 B/op	       3 allocs/op
BenchmarkDrag/panel-1         	     100	   1500000 ns/op
BenchmarkDrag/panel-16        	     100	  2.75e+06 ns/op
BenchmarkOther                	     100	   slow ns/op
PASS`, "\n"))
	if want := []string{"BenchmarkDrag/panel-1", "BenchmarkDrag/panel-16"}; !slices.Equal(order, want) {
		t.Errorf("names %v, want %v", order, want)
	}
	if got := results["BenchmarkDrag/panel-1"]; !slices.Equal(got, []float64{2.5, 1.5}) {
		t.Errorf("panel-1: %v ms, want 2.5 and 1.5", got)
	}
	if got := results["BenchmarkDrag/panel-16"]; !slices.Equal(got, []float64{2.75}) {
		t.Errorf("panel-16: %v ms, want 2.75", got)
	}
}

func TestTableIsMarkdown(t *testing.T) {
	var tab table
	tab.add("a step", "2 ms", "under 8 ms")
	want := "| figure | measured | asked |\n| --- | --- | --- |\n| a step | 2 ms | under 8 ms |\n"
	if got := tab.markdown(); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestParseStat(t *testing.T) {
	for _, c := range []struct {
		name, stat string
		parent     int
		ticks      int64
	}{
		{"plain", "42 (chromium) S 7 42 42 0 -1 4194560 1 2 3 4 250 50 9 9 20 0", 7, 300},
		{"a name with brackets and spaces", "42 (a) S (b c) R 8 1 1 0 -1 0 1 2 3 4 1 2 9 9 20 0", 8, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := parseStat(c.stat)
			if err != nil || p.parent != c.parent || p.ticks != c.ticks {
				t.Errorf("%+v, %v; want parent %d and %d ticks", p, err, c.parent, c.ticks)
			}
		})
	}
	for _, bad := range []string{"", "42 (x) S 1", "42 (x) S a 42 42 0 -1 0 1 2 3 4 250 50"} {
		if _, err := parseStat(bad); err == nil {
			t.Errorf("%q: no error", bad)
		}
	}
}

func TestUsedCountsTheTreeOnly(t *testing.T) {
	before := map[int]process{1: {0, 1000, false}, 10: {1, 100, false}, 11: {10, 50, true}, 12: {11, 50, true},
		99: {1, 0, true}}
	after := map[int]process{
		1: {0, 9000, false}, 10: {1, 110, false}, 11: {10, 70, true}, 12: {11, 80, true}, 99: {1, 5000, true},
		13: {10, 40, true},                   // came in between
		50: {51, 7, true}, 51: {50, 7, true}, // a circle, which must not hang
	}
	u := used(before, after, 10, 2*time.Second)
	// In ticks of a hundredth: 10 + 20 + 30 + 40 of 200; the drawing ones all but the first.
	if math.Abs(u.all-50) > 1e-9 || math.Abs(u.drawing-45) > 1e-9 {
		t.Errorf("all %v %%, drawing %v %%; want 50 and 45", u.all, u.drawing)
	}
}

func TestProcIsRead(t *testing.T) {
	all, err := readProcesses("/proc")
	if err != nil {
		t.Fatal(err)
	}
	self := all[os.Getpid()]
	if self.parent != os.Getppid() {
		t.Errorf("parent %d, want %d", self.parent, os.Getppid())
	}
	if !below(all, os.Getpid(), os.Getppid()) || below(all, os.Getppid(), os.Getpid()) {
		t.Error("this process is below its parent, and not the other way round")
	}
}

func TestParseWork(t *testing.T) {
	idle, all, err := parseWork("cpu  10 20 30 400 50 6 7 8 10 20\ncpu0 1 2 3 4 5 6 7 8 0 0\n")
	if err != nil || idle != 450 || all != 531 {
		t.Errorf("idle %d of %d, %v; want 450 of 531", idle, all, err)
	}
	for _, bad := range []string{"", "cpu 1 2 3", "cpu0 1 2 3 4 5 6 7 8 9 10", "cpu a b c d e f g h i j"} {
		if _, _, err := parseWork(bad); err == nil {
			t.Errorf("%q: no error", bad)
		}
	}
}

func TestReadQuestion(t *testing.T) {
	for _, c := range []struct{ name, text, says string }{
		{"good", `{"half":1.5,"pairs":[[[[[0,0],[1,0],[1,1],[0,0]]],[[[2,0],[3,0],[3,1],[2,0]]]]],"near":1}`, ""},
		{"no half", `{"pairs":[[[],[]]]}`, "half"},
		{"no pairs", `{"half":1.5,"pairs":[]}`, "pairs"},
		{"no JSON", `half`, "invalid"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "q.json")
			if err := os.WriteFile(path, []byte(c.text), 0o644); err != nil {
				t.Fatal(err)
			}
			q, err := readQuestion(context.Background(), options{pairs: path})
			if c.says == "" && (err != nil || q.Half != 1.5 || len(q.Pairs) != 1 || *q.Near != 1) {
				t.Errorf("%+v, %v", q, err)
			}
			if c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)) {
				t.Errorf("%v; want an error that says %s", err, c.says)
			}
		})
	}
	if _, err := readQuestion(context.Background(), options{pairs: "no such file"}); err == nil ||
		!strings.Contains(err.Error(), pairsTest) {
		t.Errorf("no file: %v; want an error that says where it would come from", err)
	}
}

func TestUnpack(t *testing.T) {
	var packed bytes.Buffer
	zipped := gzip.NewWriter(&packed)
	entries := tar.NewWriter(zipped)
	for name, text := range map[string]string{"package/a.js": "a", "package/b.js": "b"} {
		t.Run(name, func(t *testing.T) {
			if err := entries.WriteHeader(&tar.Header{Name: name, Mode: 0o644, Size: int64(len(text))}); err != nil {
				t.Fatal(err)
			}
			if _, err := io.WriteString(entries, text); err != nil {
				t.Fatal(err)
			}
		})
	}
	if err := entries.Close(); err != nil {
		t.Fatal(err)
	}
	if err := zipped.Close(); err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "b.js")
	if err := unpack(packed.String(), "package/b.js", to); err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(to); err != nil || string(got) != "b" {
		t.Errorf("got %q, %v", got, err)
	}
	if err := unpack(packed.String(), "package/c.js", to); err == nil {
		t.Error("a file that is not there: no error")
	}
	if err := unpack("no archive", "package/b.js", to); err == nil {
		t.Error("no archive: no error")
	}
}

func TestBadUse(t *testing.T) {
	for _, args := range [][]string{{"-only", "everything"}, {"-loads", "0"}, {"-idle", "1ms"}} {
		if err := run(context.Background(), args, io.Discard); err == nil {
			t.Errorf("%v: no error", args)
		}
	}
}
