// Bench measures, in headless Chromium, what README's table says, and prints that table in Markdown:
//
//   - one drag step of the live check, as Go's own benchmarks compiled to wasm, and the same on a larger panel;
//   - the same question put to a general clipping library (the npm package clipper2-wasm, fetched into the cache) in
//     the same browser: grow both outlines of each pair by half the bridge, and intersect; and put to GEOS, natively;
//   - the check of the whole panel, its memory, and its plainest questions put to both;
//   - laying out, recognition, small pictures; reading scans and writing files;
//   - fitting, beside a general optimiser over GEOS distances;
//   - the overlay and another library's on adversarial families, natively, GEOS judging both;
//   - the time to the first drawing on localhost, what an idle page costs, and the sizes of the programs;
//   - the page under a hand: frames of a drag, how soon presses are answered, memory over long dragging.
//
// It is run by ./build.sh bench from the root of the repository, after everything is built.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"
	"time"
)

// options are the flags.
type options struct {
	only    string
	pkg     string
	bench   string
	drag    string
	large   string
	pairs   string
	count   int
	steps   int
	loads   int
	cases   int
	fits    int
	idle    time.Duration
	hand    time.Duration
	server  string
	dist    string
	cache   string
	browser string
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := run(ctx, os.Args[1:], os.Stdout); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return
		}
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(ctx context.Context, args []string, out io.Writer) error {
	var o options
	flags := flag.NewFlagSet("bench", flag.ContinueOnError)
	flags.StringVar(&o.only, "only", "core,clipper,panel,repeat,files,fit,overlay,page,hand",
		"what to measure, a list of core, clipper, panel, repeat, files, fit, overlay, page, hand")
	flags.StringVar(&o.pkg, "package", "./pattern/sheet", "package whose benchmarks are run in the browser")
	flags.StringVar(&o.bench, "bench", "Drag", "regular expression that chooses the benchmarks")
	flags.StringVar(&o.drag, "drag", "BenchmarkDrag/panel-1", "name of the benchmark that is one drag step")
	flags.StringVar(&o.large, "large", "BenchmarkDrag/panel-16", "name of the same on a panel sixteen times larger")
	flags.StringVar(&o.pairs, "pairs", "",
		"file with the outlines of one drag step (default: asked of the package's test "+pairsTest+")")
	flags.IntVar(&o.count, "count", 9, "runs of each benchmark; the median is told")
	flags.IntVar(&o.steps, "steps", 41, "drag steps the clipping library is timed over; the median is told")
	flags.IntVar(&o.loads, "loads", 5, "cold loads of the page; the median is told")
	flags.IntVar(&o.cases, "cases", 60, "cases of each family that are put to the overlays")
	flags.IntVar(&o.fits, "fits", 10, "random silhouettes that are fitted for a minute each")
	flags.DurationVar(&o.idle, "idle", 10*time.Second, "how long an idle page is watched")
	flags.DurationVar(&o.hand, "hand", 10*time.Minute, "how long a copy is dragged while memory is watched")
	flags.StringVar(&o.server, "server", "bin/openwork", "program that serves the page")
	flags.StringVar(&o.dist, "dist", "web/dist", "folder with the packed page")
	flags.StringVar(&o.cache, "cache", ".cache/bench", "folder for what is compiled and fetched")
	flags.StringVar(&o.browser, "chromium", "", "Chromium's path (default: looked for on the PATH)")
	if err := flags.Parse(args); err != nil {
		return err
	}
	known := []string{"core", "clipper", "panel", "repeat", "files", "fit", "overlay", "page", "hand"}
	wanted := map[string]bool{}
	for part := range strings.SplitSeq(o.only, ",") {
		if !slices.Contains(known, part) {
			return fmt.Errorf("-only: %q is not one of %s", part, strings.Join(known, ", "))
		}
		wanted[part] = true
	}
	if o.count < 1 || o.steps < 1 || o.loads < 1 || o.cases < 1 || o.fits < 1 || o.idle < time.Second {
		return errors.New("-count, -steps, -loads, -cases and -fits must be at least 1, and -idle at least 1s")
	}
	if err := os.MkdirAll(o.cache, 0o755); err != nil {
		return fmt.Errorf("the cache cannot be made: %w", err)
	}

	busy, err := otherWork()
	if err != nil {
		return err
	}
	if busy > busyLimit {
		fmt.Fprintf(out, "Other programs keep %.0f %% of this machine busy: these figures will be too high, and the "+
			"ratios noisy.\n", busy)
	}

	var t table
	var dragMS float64
	if wanted["core"] || wanted["clipper"] || wanted["panel"] || wanted["repeat"] || wanted["files"] || wanted["fit"] {
		bench, err := newWorkshop(ctx, o)
		if err != nil {
			return err
		}
		defer bench.close()
		if wanted["core"] {
			if dragMS, err = coreFigures(ctx, bench, o, &t, out); err != nil {
				return err
			}
		}
		if wanted["clipper"] {
			if err := clipperFigures(ctx, bench, o, dragMS, &t, out); err != nil {
				return err
			}
		}
		if wanted["panel"] {
			if err := panelFigures(ctx, bench, o, &t, out); err != nil {
				return err
			}
		}
		for part, list := range map[string][]figure{"repeat": repeatFigures, "files": fileFigures,
			"fit": fitBenchmarks} {
			if !wanted[part] {
				continue
			}
			if err := rows(ctx, bench, o, list, &t, out); err != nil {
				return err
			}
		}
	}

	if wanted["fit"] {
		if err := fitFigures(ctx, o, &t); err != nil {
			return err
		}
	}
	if wanted["overlay"] {
		if err := overlayFigures(ctx, o, &t); err != nil {
			return err
		}
	}
	if wanted["page"] {
		if err := pageFigures(ctx, o, &t, out); err != nil {
			return err
		}
	}
	if wanted["hand"] {
		if err := handFigures(ctx, o, &t, out); err != nil {
			return err
		}
	}
	machine, err := machineLine(ctx, o, busy)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "\n%s\n%s\n", t.markdown(), machine)
	return nil
}
