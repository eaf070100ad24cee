package main

import (
	"archive/tar"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

const (
	// clipperPackage is the release compared with, and clipperSum the SHA-256 of what npm brings for it.
	clipperPackage = "clipper2-wasm@0.4.0"
	clipperFile    = "clipper2-wasm-0.4.0.tgz"
	clipperSum     = "22b3afe094024bd1c864bc30fbcaf9ce8919b294788c935a59bbda8dc9d5f158"

	// clipperLimit in bytes bounds what is unpacked of one file of it; the largest is some 240 kB.
	clipperLimit = 4 << 20

	// pairsTest is the test in the benchmarks' package that makes the drag step's outlines, and pairsVariable names in
	// the environment the file it writes them to.
	pairsTest     = "TestDragPairs"
	pairsVariable = "OPENWORK_PAIRS"
)

// question is one drag step for the clipping library: outlines as rings of [x, y] in mm. Near, where it is given, is
// how many of the pairs the core finds nearer than the bridge, two halves.
type question struct {
	Half  float64           `json:"half"`
	Pairs []json.RawMessage `json:"pairs"`
	Near  *int              `json:"near"`
}

// clipperRun is what clipper.mjs returns; times in ms.
type clipperRun struct {
	Each     []float64 `json:"each"`
	Once     []float64 `json:"once"`
	Near     int       `json:"near"`
	Pairs    int       `json:"pairs"`
	Outlines int       `json:"outlines"`
}

// clipperFigures asks the clipping library in the same browser, and tells the ratio to our own drag step.
func clipperFigures(ctx context.Context, w *workshop, o options, dragMS float64, t *table, out io.Writer) error {
	asked, err := readQuestion(ctx, o)
	if err != nil {
		return err
	}
	if err := fetchClipper(ctx, w, o.cache); err != nil {
		return err
	}
	text, err := json.Marshal(asked)
	if err != nil {
		return err
	}
	ran, err := evaluate[clipperRun](w.tab, fmt.Sprintf(`import("./clipper.mjs").then((m) => m.timeClipper(%s, %d))`,
		text, o.steps))
	if err != nil {
		return fmt.Errorf("%s does not run in the browser: %w", clipperPackage, err)
	}
	fmt.Fprintf(out, "%s: %d pairs of %d outlines, %d of them nearer than %g mm\n", clipperPackage, ran.Pairs,
		ran.Outlines, ran.Near, 2*asked.Half)
	if asked.Near != nil && *asked.Near != ran.Near {
		return fmt.Errorf("the answers differ: the core finds %d pairs too near, %s %d; times of different answers "+
			"say nothing",
			*asked.Near, clipperPackage, ran.Near)
	}

	for _, way := range []struct {
		name  string
		times []float64
	}{{"growing both outlines of each pair", ran.Each}, {"growing each outline once", ran.Once}} {
		row := fmt.Sprintf("the same %d pairs asked of `%s`, %s", ran.Pairs, clipperPackage, way.name)
		measured := spread(way.times, "ms")
		if dragMS > 0 {
			measured += fmt.Sprintf(", %s times our step", short(median(way.times)/dragMS))
		}
		t.add(row, measured, "")
	}
	return dragAtGEOS(ctx, o, asked, dragMS, t)
}

// readQuestion reads the outlines from the file given, or has the package's own test write them.
func readQuestion(ctx context.Context, o options) (question, error) {
	var q question
	path := o.pairs
	if path == "" {
		var err error
		if path, err = filepath.Abs(filepath.Join(o.cache, "pairs.json")); err != nil {
			return q, err
		}
		if err := os.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
			return q, err
		}
		if _, err := output(ctx, []string{pairsVariable + "=" + path}, "go", "test", "-count=1", "-run=^"+pairsTest+"$",
			o.pkg); err != nil {
			return q, err
		}
	}

	text, err := os.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		return q, fmt.Errorf("there are no outlines in %s: %s in %s writes them to the file that %s names, or give a "+
			"file with -pairs",
			path, pairsTest, o.pkg, pairsVariable)
	}
	if err != nil {
		return q, err
	}
	if err := json.Unmarshal(text, &q); err != nil {
		return q, fmt.Errorf("%s: %w", path, err)
	}
	if !(q.Half > 0) || len(q.Pairs) == 0 {
		return q, fmt.Errorf("%s: half must be over 0 mm and pairs must not be empty", path)
	}
	return q, nil
}

// fetchClipper brings the package with npm, once, checks that it is the one meant, and puts its module on the site.
func fetchClipper(ctx context.Context, w *workshop, cache string) error {
	path := filepath.Join(cache, clipperFile)
	if _, err := os.Stat(path); err != nil {
		if _, err := exec.LookPath("npm"); err != nil {
			return errors.New("npm is not installed, which fetches the clipping library to compare with: the Debian " +
				"package npm brings it, or leave clipper out of -only")
		}
		if _, err := output(ctx, nil, "npm", "pack", clipperPackage, "--silent", "--pack-destination",
			cache); err != nil {
			return err
		}
	}

	packed, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if sum := sha256.Sum256(packed); hex.EncodeToString(sum[:]) != clipperSum {
		return fmt.Errorf("%s is not the release it should be (SHA-256 %x); remove it and try again", path, sum)
	}
	for _, name := range []string{"clipper2z.js", "clipper2z.wasm"} {
		file := filepath.Join(cache, name)
		if err := unpack(string(packed), "package/dist/es/"+name, file); err != nil {
			return err
		}
		w.files["/"+name] = file
	}
	return nil
}

// unpack writes one file out of a compressed tar.
func unpack(packed, name, to string) error {
	plain, err := gzip.NewReader(strings.NewReader(packed))
	if err != nil {
		return err
	}
	entries := tar.NewReader(plain)
	for {
		entry, err := entries.Next()
		if errors.Is(err, io.EOF) {
			return fmt.Errorf("%s is not in the package", name)
		}
		if err != nil {
			return err
		}
		if entry.Name != name {
			continue
		}
		data, err := io.ReadAll(io.LimitReader(entries, clipperLimit))
		if err != nil {
			return err
		}
		return os.WriteFile(to, data, 0o644)
	}
}
