package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

const (
	// dragLimit in ms: half of a frame at 60 Hz, so that drawing has the other half.
	dragLimit = 8.0
	// worstLimit in ms is one frame at 60 Hz.
	worstLimit = 16.0
	// growthLimit is how much longer a drag step may take on a panel sixteen times larger: it should not depend on it.
	growthLimit = 1.1
	// benchTime is how long one run of one benchmark lasts.
	benchTime = "300ms"
)

// goRuns is what gobench.mjs returns.
type goRuns struct {
	Runs      [][]string `json:"runs"`
	Bytes     int        `json:"bytes"` // the most memory that a run's program had
	FineClock bool       `json:"fineClock"`
}

// coreFigures runs the package's benchmarks in the browser, all of them in turn and that many times over, so that a
// disturbance falls on each alike. It adds a row for each and one for the growth with the panel, and returns the median
// of the drag step in ms.
func coreFigures(ctx context.Context, w *workshop, o options, t *table, out io.Writer) (float64, error) {
	ran, _, err := inBrowser(ctx, w, o, o.pkg, o.bench, out)
	if err != nil {
		return 0, err
	}
	results := ran.by
	for _, name := range ran.order {
		asked := ""
		if name == o.drag || name == o.large {
			asked = fmt.Sprintf("under %g ms", dragLimit)
		}
		t.add("`"+name+"` in wasm, median of "+strconv.Itoa(len(results[name]))+" runs", spread(results[name], "ms"),
			asked)
	}

	drag, large := results[o.drag], results[o.large]
	if len(drag) == 0 || len(large) == 0 {
		return 0, fmt.Errorf("%s and %s are not both among the benchmarks; name them with -drag and -large", o.drag,
			o.large)
	}
	t.add("the same step on a panel sixteen times larger", short(median(large)/median(drag))+" times as long",
		fmt.Sprintf("at most %g times", growthLimit))
	worst, _, err := inBrowser(ctx, w, o, o.pkg, "^BenchmarkWorst$", out)
	if err != nil {
		return 0, err
	}
	if slowest := worst.by["BenchmarkWorst"]; len(slowest) > 0 {
		t.add("the slowest of 500 such steps", spread(slowest, "ms"), fmt.Sprintf("under %g ms", worstLimit))
	}
	return median(drag), nil
}

// benchmarks are results in ms by name, and the names in the order they first came.
type benchmarks struct {
	by    map[string][]float64
	order []string
}

// inBrowser compiles a package's benchmarks to wasm and runs those the expression chooses in the browser. bytes is the
// most memory the program had.
func inBrowser(ctx context.Context, w *workshop, o options, pkg, choice string, out io.Writer) (results benchmarks,
	bytes int, err error) {
	fmt.Fprintf(out, "Compiling %s's benchmarks for the browser\n", pkg)
	program := filepath.Join(o.cache, strings.NewReplacer("./", "", "/", "-").Replace(pkg)+".wasm")
	if _, err := output(ctx, []string{"GOOS=js", "GOARCH=wasm"}, "go", "test", "-c", "-o", program, pkg); err != nil {
		return results, 0, err
	}
	w.files["/bench.wasm"] = program
	args, err := json.Marshal([]string{"-test.run=^$", "-test.bench=" + choice, "-test.benchmem", "-test.benchtime=" +
		benchTime})
	if err != nil {
		return results, 0, err
	}
	ran, err := evaluate[goRuns](w.tab,
		fmt.Sprintf(`import("./gobench.mjs").then((m) => m.runGo("bench.wasm", %s, %d))`, args, o.count))
	if err != nil {
		return results, 0, fmt.Errorf("the benchmarks do not run in the browser: %w", err)
	}
	if !ran.FineClock {
		return results, 0, fmt.Errorf("the browser gave the page a coarse clock; figures under a millisecond would " +
			"mean nothing")
	}
	lines := slices.Concat(ran.Runs...)
	for _, line := range lines {
		if strings.Contains(line, "ns/op") {
			fmt.Fprintln(out, line)
		}
	}
	if results.by, results.order = readBenchmarks(lines); len(results.order) == 0 {
		return results, 0, fmt.Errorf("no benchmark in %s is called like %q", pkg, choice)
	}
	return results, ran.Bytes, nil
}

// figure is a benchmark with what its row says and what is asked of it.
type figure struct {
	pkg, name, words string
	limit            float64 // ms
}

// repeatFigures are what working with the plane groups costs.
var repeatFigures = []figure{
	{"./pattern", "BenchmarkCopies",
		"4,000 copies of three motifs of 300 points in p6mm on 2,400 × 1,200 mm, laid out and listed in wasm", 30},
	{"./pattern/sheet/whole", "BenchmarkWholeLive/p6mm-crop", "whole panel live: drag step of one of three motifs of " +
		"300 points in p6mm, 2,000 copies cropped at the edge, in wasm", 16},
	{"./pattern/sheet/whole", "BenchmarkWholeLive/p6mm-crop-turned",
		"the same with the field turned, looked at as far as the frame has time", 16},
	{"./pattern/sheet/whole", "BenchmarkWholeLive/p6mm-whole", "the same with whole copies only", 16},
	{"./pattern/sheet/mends", "BenchmarkOffer/near",
		"the mends after a drag of the demonstration, each measured on the whole panel, in wasm: a bridge too thin",
		1000},
	{"./pattern/sheet/mends", "BenchmarkOffer/overlap", "the same: copies that overlap", 1000},
	{"./pattern/sheet/mends", "BenchmarkOffer/far", "the same: copies dragged far over others", 1000},
	{"./pattern/recognise", "BenchmarkOf/p6mm", "recognition of a field of three motifs of 300 points in wasm", 100},
	{"./pattern/recognise", "BenchmarkColoured/p6mm", "the same in twelve colours: what keeps and what permutes them",
		500},
	{"./pattern/colouring/subgroups", "BenchmarkOf/six",
		"all perfect colourings of all seventeen groups by up to six colours, in wasm", 1000},
	{"./pattern/colouring/subgroups", "BenchmarkOf/twelve", "the same by up to twelve", 10000},
	{"./pattern/study", "BenchmarkSeventeen", "the seventeen small pictures, drawn and written in wasm", 300},
}

// fileFigures are what reading drawings and writing files costs.
var fileFigures = []figure{
	{"./pattern/scan", "BenchmarkReadPage/grey_PNG",
		"a page of A4 at 600 dpi (35 megapixels), grey PNG, traced in wasm", 3000},
	{"./pattern/scan", "BenchmarkReadPage/colour_JPEG", "the same as a JPEG in colour", 3000},
	{"./pattern/cutfile", "BenchmarkSVG", "cut file of some 2,000 copies of 300 points, as SVG in wasm", 2000},
	{"./pattern/study/pages", "BenchmarkStudy", "full-scale study of 600 × 900 mm on A4, in wasm", 2000},
}

// rows runs benchmarks one by one and adds a row for each.
func rows(ctx context.Context, w *workshop, o options, list []figure, t *table, out io.Writer) error {
	for _, f := range list {
		results, slowest, err := inBrowser(ctx, w, o, f.pkg, "^"+strings.ReplaceAll(f.name, "/", "$/^")+"$", out)
		if err != nil {
			return err
		}
		times := results.by[f.name]
		if len(times) == 0 {
			return fmt.Errorf("%s has no benchmark called %s", f.pkg, f.name)
		}
		t.add(fmt.Sprintf("%s, median of %d runs", f.words, len(times)),
			fmt.Sprintf("%s; %.0f MB", spread(times, "ms"), float64(slowest)/1e6), fmt.Sprintf("under %g ms", f.limit))
	}
	return nil
}

// readBenchmarks reads Go's benchmark lines into ms by name, and the names in the order they first came. The number of
// processors that Go may add to a name is not there in wasm, which has one.
func readBenchmarks(lines []string) (map[string][]float64, []string) {
	results := map[string][]float64{}
	var order []string
	for _, line := range lines {
		words := strings.Fields(line)
		if len(words) < 4 || !strings.HasPrefix(words[0], "Benchmark") || words[3] != "ns/op" {
			continue
		}
		ns, err := strconv.ParseFloat(words[2], 64)
		if err != nil {
			continue
		}
		if results[words[0]] == nil {
			order = append(order, words[0])
		}
		results[words[0]] = append(results[words[0]], ns/1e6)
	}
	return results, order
}
