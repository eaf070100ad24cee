package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"time"

	"github.com/chromedp/chromedp"
)

const (
	// firstDrawing is the mark the page sets when the first drawing is on the screen.
	firstDrawing = "openwork:first-drawing"
	// firstPicture is the mark the page sets when the demonstration, drawn by the page itself, is on the screen.
	firstPicture = "openwork:first-picture"
	// firstLimit in seconds, on localhost.
	firstLimit = 1.0
	// idleLimit in percent of one core.
	idleLimit = 2.0
	// atRest in percent of one core: a page that uses less has nothing left to do.
	atRest = 20.0
	// settle is how long a page gets after its first drawing before it counts as idle: the engine loads in that time.
	settle = 5 * time.Second
	// browserSettle is how long a new browser gets before the page is opened: for some seconds it is busy with pages of
	// its own, which is no part of ours.
	browserSettle = 8 * time.Second
)

// pageFigures serves the page with the program that was built and measures it in browsers with empty profiles.
func pageFigures(ctx context.Context, o options, t *table, out io.Writer) error {
	path, err := findChromium(o.browser)
	if err != nil {
		return err
	}
	address, stop, err := startServer(ctx, o.server)
	if err != nil {
		return err
	}
	defer stop()
	var pictures, seconds []float64
	var idle usage
	for i := range o.loads {
		last := i == o.loads-1
		marks, used, err := coldLoad(ctx, path, address, last, o.idle)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "cold load %d: first picture after %.0f ms, the canvas after %.0f ms\n", i+1, marks[0],
			marks[1])
		pictures, seconds = append(pictures, marks[0]/1000), append(seconds, marks[1]/1000)
		if last {
			idle = used
		}
	}

	t.add(fmt.Sprintf("first drawing on localhost, drawn by the page: the demonstration, median of %d cold loads",
		len(seconds)), spread(pictures, "s"), fmt.Sprintf("under %.1f s", firstLimit))
	t.add("the canvas in its place, ready to drag, in the same loads", spread(seconds, "s"), "")
	t.add(fmt.Sprintf("idle page over %g s, renderer and graphics processes, once the groups are fitted, %.0f s after "+
		"loading", o.idle.Seconds(), idle.busyFor.Seconds()),
		short(idle.drawing)+" % of a core", fmt.Sprintf("under %g %%", idleLimit))
	t.add("the same, all of the browser's processes", short(idle.all)+" % of a core", "")
	return sizeRows(o.dist, t)
}

// sizeRows adds the sizes of the two programs.
func sizeRows(dist string, t *table) error {
	for _, p := range []struct{ name, asked string }{{"editor", "under 2.2 MB brotli"},
		{"engine", "under 3.0 MB brotli, loaded after the first drawing"}} {
		var sizes [3]float64
		for i, ending := range []string{"", ".gz", ".br"} {
			info, err := os.Stat(filepath.Join(dist, p.name+".wasm"+ending))
			if err != nil {
				return fmt.Errorf("the page is not packed: %w", err)
			}
			sizes[i] = float64(info.Size()) / 1e6
		}
		t.add(p.name+".wasm", fmt.Sprintf("%.2f MB; gzip %.2f; brotli %.2f", sizes[0], sizes[1], sizes[2]), p.asked)
	}
	return nil
}

// startServer runs the program on a free port and reads the address it prints.
func startServer(ctx context.Context, program string) (string, func(), error) {
	cmd := exec.CommandContext(ctx, program, "-port", "0")
	cmd.Stderr = os.Stderr
	printed, err := cmd.StdoutPipe()
	if err != nil {
		return "", nil, err
	}
	if err := cmd.Start(); err != nil {
		return "", nil, fmt.Errorf("%s does not start; ./build.sh pack makes it: %w", program, err)
	}
	stop := func() {
		_ = cmd.Process.Signal(os.Interrupt)
		_ = cmd.Wait() // it was told to go
	}
	line, err := bufio.NewReader(printed).ReadString('\n')
	address := regexp.MustCompile(`http://[^ ]+`).FindString(line)
	if err != nil || address == "" {
		stop()
		return "", nil, fmt.Errorf("%s printed no address: %q", program, line)
	}
	return address, stop, nil
}

// coldLoad opens the page in a browser of its own and returns when the first picture and the first drawing of the
// canvas were there, in ms from the start of the navigation. With watch it then leaves the page alone and returns what
// that cost.
func coldLoad(ctx context.Context, path, address string, watch bool, idle time.Duration) ([2]float64, usage, error) {
	var none [2]float64
	tab, end, err := startBrowser(ctx, path)
	if err != nil {
		return none, usage{}, fmt.Errorf("%s does not start: %w", path, err)
	}
	defer end()
	time.Sleep(browserSettle)
	if err := navigate(tab, address); err != nil {
		return none, usage{}, fmt.Errorf("the page does not open: %w", err)
	}
	marks, err := evaluate[[2]float64](tab, fmt.Sprintf(`new Promise((done, fail) => {
		const limit = setTimeout(() => fail(new Error("the page has not set the mark %[1]s in 30 s")), 30000);
		new PerformanceObserver((list, observer) => {
			const [mark] = list.getEntriesByName(%[2]s);
			if (mark) {
				clearTimeout(limit);
				observer.disconnect();
				done([performance.getEntriesByName(%[3]s)[0].startTime, mark.startTime]);
			}
		}).observe({ type: "mark", buffered: true });
	})`, firstDrawing, strconv.Quote(firstDrawing), strconv.Quote(firstPicture)))

	if err != nil {
		return none, usage{}, err
	}
	if !watch {
		return marks, usage{}, nil
	}
	root := chromedp.FromContext(tab).Browser.Process().Pid
	busy, err := untilAtRest(root)
	if err != nil {
		return none, usage{}, err
	}
	used, err := watchProcesses(root, idle)
	used.busyFor = busy
	return marks, used, err
}

// untilAtRest waits until the page has done what it does by itself after loading, which is to fit the groups, and
// returns how long that took.
func untilAtRest(root int) (time.Duration, error) {
	begin := time.Now()
	time.Sleep(settle)
	for time.Since(begin) < patience {
		now, err := watchProcesses(root, 2*time.Second)
		if err != nil || now.all < atRest {
			return time.Since(begin), err
		}
	}
	return 0, fmt.Errorf("the page is still at work %s after it was loaded", patience)
}
