package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
)

// write makes files below dir.
func write(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// names lists the files below dir.
func names(t *testing.T, dir string) []string {
	t.Helper()
	var out []string
	err := filepath.Walk(dir, func(path string, info os.FileInfo, err error) error {
		if err == nil && !info.IsDir() {
			name, _ := filepath.Rel(dir, path)
			out = append(out, filepath.ToSlash(name))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(out)
	return out
}

func TestGatherTakesThePageOnly(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, map[string]string{
		"index.html": "i", "style.css": "s", "worker.js": "w", "js/main.mjs": "m", "js/steps/one.mjs": "o",
		"img/mark.svg": "v",
		"files.go":     "package web", "notes.md": "n", "js/main.test.mjs": "t", "js/.hidden.mjs": "h",
		"serve/main.go": "package main", "bench/main.go": "package main", "bench/clipper.mjs": "c",
		"dist/index.html": "old", "dist-123/index.html": "older", "testdata/a.json": "{}", "js/testdata/b.json": "{}",
	})
	files, err := gather(dir)
	if err != nil {
		t.Fatal(err)
	}
	got := slices.Sorted(maps.Keys(files))
	want := []string{"img/mark.svg", "index.html", "js/main.mjs", "js/steps/one.mjs", "style.css", "worker.js"}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if _, err := gather(filepath.Join(dir, "img")); err == nil || !strings.Contains(err.Error(), "index.html") {
		t.Errorf("a folder without index.html: %v", err)
	}
}

func TestPackMakesAWholeDeployment(t *testing.T) {
	dir := t.TempDir()
	long := strings.Repeat("<p>a bridge is a strip of sheet left between two openings</p>\n", 50)
	write(t, dir, map[string]string{
		"web/index.html": long, "web/js/main.mjs": "export {}", "wasm/editor.wasm": strings.Repeat("editor", 400),
		"wasm/engine.wasm": strings.Repeat("engine", 400), "go/wasm_exec.js": strings.Repeat("// loader\n", 90),
		"web/dist/left-over.txt": "from an earlier build",
	})
	args := []string{"-from", dir + "/web", "-wasm", dir + "/wasm", "-loader", dir + "/go/wasm_exec.js",
		"-demo", dir + "/go/wasm_exec.js", "-to", dir + "/web/dist", "-cache", dir + "/cache"}
	for range 2 { // the second time from the cache
		var out bytes.Buffer
		if err := run(args, &out); err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"editor.wasm", "engine.wasm", "2.200 MB", "3.000 MB"} {
			if !strings.Contains(out.String(), want) {
				t.Errorf("the report does not say %q:\n%s", want, out.String())
			}
		}
	}
	want := []string{"demo.openwork.json", "demo.openwork.json.br", "demo.openwork.json.gz", "editor.wasm",
		"editor.wasm.br", "editor.wasm.gz", "engine.wasm", "engine.wasm.br", "engine.wasm.gz",
		"index.html", "index.html.br", "index.html.gz", "js/main.mjs", "wasm_exec.js", "wasm_exec.js.br",
		"wasm_exec.js.gz"}
	if got := names(t, filepath.Join(dir, "web/dist")); !slices.Equal(got, want) {
		t.Errorf("files %v,\nwant %v", got, want)
	}
	if got := names(t, filepath.Join(dir, "web")); len(got) != len(want)+2 {
		t.Errorf("something is left beside dist: %v", got)
	}
	small, err := os.ReadFile(filepath.Join(dir, "web/dist/index.html.br"))
	if err != nil {
		t.Fatal(err)
	}
	if plain, err := io.ReadAll(brotli.NewReader(bytes.NewReader(small))); err != nil || string(plain) != long {
		t.Errorf("index.html.br does not open to index.html (%v)", err)
	}
	zipped, err := os.Open(filepath.Join(dir, "web/dist/index.html.gz"))
	if err != nil {
		t.Fatal(err)
	}
	defer zipped.Close()
	r, err := gzip.NewReader(zipped)
	if err != nil {
		t.Fatal(err)
	}
	if plain, err := io.ReadAll(r); err != nil || string(plain) != long {
		t.Errorf("index.html.gz does not open to index.html (%v)", err)
	}
}

func TestOverBudgetFailsAndKeepsTheOldFolder(t *testing.T) {
	seed := uint64(17)
	rng := rand.New(rand.NewPCG(seed, 0))
	noise := make([]byte, budgets["editor.wasm"]) // what is random does not get smaller
	for i := range noise {
		noise[i] = byte(rng.Uint32())
	}
	dir := t.TempDir()
	write(t, dir, map[string]string{
		"web/index.html": "<!doctype html>", "wasm/editor.wasm": string(noise), "wasm/engine.wasm": "small",
		"wasm_exec.js": "//", "web/dist/index.html": "the old one",
	})
	err := run([]string{"-from", dir + "/web", "-wasm", dir + "/wasm", "-loader", dir + "/wasm_exec.js", "-demo", dir +
		"/wasm_exec.js",
		"-to", dir + "/web/dist", "-cache", dir + "/cache"}, io.Discard)
	if err == nil || !strings.Contains(err.Error(), "editor.wasm is") ||
		strings.Contains(err.Error(), "engine.wasm is") {
		t.Errorf("seed %d: %v; want an error that names the editor and not the engine", seed, err)
	}
	if old, err := os.ReadFile(dir + "/web/dist/index.html"); err != nil || string(old) != "the old one" {
		t.Errorf("the old folder was touched: %q, %v", old, err)
	}
}

func TestWeighAtTheEdge(t *testing.T) {
	file := func(size int) []packedFile {
		return []packedFile{{name: "a.wasm", plain: make([]byte, 500), brotli: make([]byte, size)}}
	}
	limit := map[string]int{"a.wasm": 100}
	if err := weigh(file(99), limit, io.Discard); err != nil {
		t.Errorf("one byte under: %v", err)
	}
	if err := weigh(file(100), limit, io.Discard); err == nil {
		t.Error("not under: no error")
	}
	uncompressed := []packedFile{{name: "a.wasm", plain: make([]byte, 500)}}
	if err := weigh(uncompressed, limit, io.Discard); err == nil {
		t.Error("a file that does not compress: its plain size counts, but no error")
	}
}

func TestProgramsAreWeighedAsFarAsItTakes(t *testing.T) {
	var program []byte
	for i := range 20_000 {
		program = fmt.Appendf(program, "%d,%x;", i*i%977, i*i*i%1021)
	}
	quick, err := brotliTo(program, quickBrotli)
	if err != nil {
		t.Fatal(err)
	}
	best, err := brotliTo(program, brotli.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	enough := int(float64(len(quick))/quickMargin) + 1 // bytes of the least budget that the quick one is enough for
	if len(best)+1 >= enough {
		t.Fatalf("the best compression, %d bytes, gains too little over the quick one, %d", len(best), len(quick))
	}

	for _, row := range []struct {
		name   string
		budget int
		holds  bool
		says   string
	}{
		{"the quick compression is enough", enough, true, "quick"},
		{"the best one is needed", enough - 1, true, "gzip"},
		{"at the edge", len(best) + 1, true, "gzip"},
		{"over", len(best), false, "gzip"},
	} {
		t.Run(row.name, func(t *testing.T) {
			var out strings.Builder
			err := weighProgram("a.wasm", program, row.budget, t.TempDir(), &out)
			if (err == nil) != row.holds {
				t.Errorf("a budget of %d: %v", row.budget, err)
			}
			if !strings.Contains(out.String(), row.says) {
				t.Errorf("it says %q, without %q", &out, row.says)
			}
		})
	}
}

func TestDamagedCacheIsNotBelieved(t *testing.T) {
	cache := t.TempDir()
	data := []byte(strings.Repeat("sheet and opening ", 200))
	first, err := cachedBrotli(data, cache)
	if err != nil {
		t.Fatal(err)
	}
	kept := names(t, cache)
	if len(kept) != 1 {
		t.Fatalf("the cache holds %v, want one file", kept)
	}
	other, err := brotliTo([]byte("something else"), brotli.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	for name, damage := range map[string][]byte{"cut short": first[:len(first)/2], "of another file": other,
		"empty": {}} {
		t.Run(name, func(t *testing.T) {
			if err := os.WriteFile(filepath.Join(cache, kept[0]), damage, 0o644); err != nil {
				t.Fatal(err)
			}
			if again, err := cachedBrotli(data, cache); err != nil || !bytes.Equal(again, first) {
				t.Errorf("not made anew (%v)", err)
			}
		})
	}
}

func TestCacheIsPruned(t *testing.T) {
	cache := t.TempDir()
	for i := range cacheKeeps + 5 {
		if _, err := cachedBrotli(fmt.Appendf(nil, "file %d", i), cache); err != nil {
			t.Fatal(err)
		}
	}
	if err := prune(cache); err != nil {
		t.Fatal(err)
	}
	if got := len(names(t, cache)); got != cacheKeeps {
		t.Errorf("the cache holds %d files, want %d", got, cacheKeeps)
	}
}
