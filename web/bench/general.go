package main

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

//go:embed geos.py
var geosProgram []byte

const (
	// panelTest is the test in panelPackage that writes the whole panel's outlines to the file that panelVariable
	// names.
	panelPackage  = "./pattern/sheet/panel"
	panelTest     = "TestPanelQuestion"
	panelVariable = "OPENWORK_PANEL"

	// panelLimit in ms and memoryLimit in MB: the whole panel in the worker.
	panelLimit  = 3000.0
	memoryLimit = 600.0

	// areaSlack is the part by which the general libraries' area may differ: one of them rounds to 1e-4 mm.
	areaSlack = 1e-5
)

// panelQuestion is the whole panel for a general library, less the outlines.
type panelQuestion struct {
	Near int     `json:"near"`
	Area float64 `json:"area"`
}

// general is what a general library answered, and the times it took in ms.
type general struct {
	MS   []float64 `json:"ms"`
	Near int       `json:"near"`
	Area float64   `json:"area"`
}

// agrees returns an error unless a library gave the answers that the core gave.
func (g general) agrees(q panelQuestion, who string) error {
	if g.Near != q.Near || math.Abs(g.Area-q.Area) > areaSlack*q.Area {
		return fmt.Errorf("the answers differ: the core finds %d pairs too near and %.6g mm² open, %s %d and %.6g; "+
			"times of different answers say nothing",
			q.Near, q.Area, who, g.Near, g.Area)
	}
	return nil
}

// panelFigures times the check of the whole panel in wasm, and puts its two questions to GEOS and to the clipping
// library.
func panelFigures(ctx context.Context, w *workshop, o options, t *table, out io.Writer) error {
	var ours float64
	for _, f := range []struct{ name, words string }{
		{"BenchmarkPanel", "whole panel in wasm: 2,000 copies of 300 points, one in twenty overlapping"},
		{"BenchmarkPanelDifferent", "the same with 500 different motifs, each four times"},
	} {
		results, slowest, err := inBrowser(ctx, w, o, panelPackage, "^"+f.name+"$", out)
		if err != nil {
			return err
		}
		times := results.by[f.name]
		t.add(fmt.Sprintf("%s, median of %d runs", f.words, len(times)), spread(times, "ms"),
			fmt.Sprintf("under %g ms", panelLimit))
		t.add("memory of the program after it", fmt.Sprintf("%.0f MB", float64(slowest)/1e6),
			fmt.Sprintf("under %g MB", memoryLimit))
		if ours == 0 {
			ours = median(times)
		}
	}

	path, err := filepath.Abs(filepath.Join(o.cache, "panel.json"))
	if err != nil {
		return err
	}
	if _, err := output(ctx, []string{panelVariable + "=" + path}, "go", "test", "-count=1", "-run=^"+panelTest+"$",
		panelPackage); err != nil {
		return err
	}
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	var asked panelQuestion
	if err := json.Unmarshal(text, &asked); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	geos, err := askGEOS(ctx, o, path, o.count)
	if err != nil {
		return err
	}
	if err := geos.agrees(asked, "GEOS"); err != nil {
		return err
	}
	t.add("its two plainest questions asked of GEOS, native: near pairs through an STRtree, and the union",
		spread(geos.MS, "ms")+", "+short(median(geos.MS)/ours)+" times our whole check in wasm", "")
	if err := fetchClipper(ctx, w, o.cache); err != nil {
		return err
	}
	w.files["/panel.json"] = path
	clipper, err := evaluate[general](w.tab,
		fmt.Sprintf(`import("./clipper.mjs").then((m) => m.timePanel("panel.json", %d))`, min(o.count, 5)))
	if err != nil {
		return fmt.Errorf("%s does not run in the browser: %w", clipperPackage, err)
	}
	if err := clipper.agrees(asked, clipperPackage); err != nil {
		return err
	}
	t.add("the same asked of `"+clipperPackage+"` in the same browser, growing each outline once",
		spread(clipper.MS, "ms")+", "+short(median(clipper.MS)/ours)+" times our whole check", "")
	return nil
}

// dragAtGEOS asks GEOS, natively, what the clipping library is asked of one drag step.
func dragAtGEOS(ctx context.Context, o options, asked question, dragMS float64, t *table) error {
	text, err := json.Marshal(asked)
	if err != nil {
		return err
	}
	path := filepath.Join(o.cache, "pairs-asked.json")
	if err := os.WriteFile(path, text, 0o644); err != nil {
		return err
	}
	got, err := askGEOS(ctx, o, path, o.steps)
	if err != nil {
		return err
	}
	if asked.Near != nil && *asked.Near != got.Near {
		return fmt.Errorf("the answers differ: the core finds %d pairs too near, GEOS %d; times of different answers "+
			"say nothing", *asked.Near, got.Near)
	}
	native, err := natively(ctx, o)
	if err != nil {
		return err
	}
	measured := fmt.Sprintf("%s, %s times our whole step native", spread(got.MS, "ms"),
		short(median(got.MS)/median(native)))
	if dragMS > 0 {
		measured += fmt.Sprintf(", %s times in wasm", short(median(got.MS)/dragMS))
	}
	t.add(fmt.Sprintf("the same %d pairs asked of GEOS, native: distances alone", len(asked.Pairs)), measured, "")
	return nil
}

// natively runs the drag step's benchmark on this machine without a browser; times in ms.
func natively(ctx context.Context, o options) ([]float64, error) {
	text, err := output(ctx, nil, "go", "test", "-run=^$", "-bench=^"+strings.ReplaceAll(o.drag, "/", "$/^")+"$",
		"-benchtime="+benchTime, "-count="+strconv.Itoa(o.count), "-cpu=1", o.pkg)
	if err != nil {
		return nil, err
	}
	results, _ := readBenchmarks(strings.Split(text, "\n"))
	if len(results[o.drag]) == 0 {
		return nil, fmt.Errorf("%s has no benchmark called %s", o.pkg, o.drag)
	}
	return results[o.drag], nil
}

// askGEOS runs the question in a file a number of times.
func askGEOS(ctx context.Context, o options, path string, times int) (general, error) {
	var g general
	program := filepath.Join(o.cache, "geos.py")
	if err := os.WriteFile(program, geosProgram, 0o644); err != nil {
		return g, err
	}
	text, err := output(ctx, nil, "/usr/bin/python3", program, path, strconv.Itoa(times))
	if err != nil {
		return g, fmt.Errorf("GEOS could not be asked (Debian's python3-shapely): %w", err)
	}
	return g, json.Unmarshal([]byte(text), &g)
}
