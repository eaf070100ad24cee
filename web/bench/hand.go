package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"math"
	"slices"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/heapprofiler"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"
)

const (
	// frameLimit in ms: no frame of a drag takes longer.
	frameLimit = 50.0
	// pressLimit in ms from a press to the next frame, on a processor pressSlowed times slower.
	pressLimit, pressSlowed = 100.0, 4.0
	// dragFor is how long a copy is dragged while frames are counted.
	dragFor = 10 * time.Second
	// handStep is the time between two moves of the mouse, as a screen of 60 frames a second gathers them.
	handStep = time.Second / 60
	// heldLimit in percent: what is kept after long dragging, over what is kept after the first tenth of it.
	heldLimit = 5.0
)

// presses are what a press is timed on: each is pressed once where it can be.
const presses = `[...document.querySelectorAll(".step-head, .group-picture, .views button, #signs, ` +
	`.head .buttons button, .step.open .step-body :is(button, summary)")].filter((e) => !e.disabled && ` +
	`e.checkVisibility() && ` +
	`!e.closest("[inert]") && !/^(open|save|copy-link|new)$/.test(e.id || e.dataset.act || ""))`

// press is how long one took, in ms, and what was pressed.
type press struct {
	Took float64 `json:"took"`
	Name string  `json:"name"`
}

// handFigures measures the page under a hand: frames of a drag, how long presses take to be answered, and memory.
func handFigures(ctx context.Context, o options, t *table, out io.Writer) error {
	path, err := findChromium(o.browser)
	if err != nil {
		return err
	}
	address, stop, err := startServer(ctx, o.server)
	if err != nil {
		return err
	}
	defer stop()
	tab, end, err := startBrowser(ctx, path)
	if err != nil {
		return fmt.Errorf("%s does not start: %w", path, err)
	}
	defer end()
	if err := navigate(tab, address); err != nil {
		return err
	}
	time.Sleep(settle + browserSettle)

	frames, err := dragged(tab, dragFor)
	if err != nil {
		return err
	}
	slices.Sort(frames)
	longest := frames[len(frames)-1]
	late := 0
	for _, f := range frames {
		if f > frameLimit {
			late++
		}
	}
	t.add(fmt.Sprintf("frames while a copy of the demonstration is dragged for %g s: the median, and the longest",
		dragFor.Seconds()), fmt.Sprintf("%s ms, %s ms; %d of %d over %g ms", short(median(frames)), short(longest),
		late, len(frames), frameLimit), fmt.Sprintf("none over %g ms", frameLimit))

	if err := pressFigures(tab, t, out); err != nil {
		return err
	}
	return memoryFigures(tab, o.hand, t, out)
}

// dragged drags a copy near the middle of the canvas round a small circle, and returns the times between frames in ms.
func dragged(tab context.Context, during time.Duration) ([]float64, error) {
	from, err := evaluate[[2]float64](tab, `(() => {
		// The hand is over a copy where the canvas shows another cursor.
		const host = document.getElementById("bench"), b = host.getBoundingClientRect();
		for (let r = 80; r < 400; r += 5) {
			for (let k = 0; k < 16; k++) {
				const x = b.x + b.width / 2 + r * Math.cos(k), y = b.y + b.height / 2 + r * Math.sin(k);
				host.dispatchEvent(new PointerEvent("pointermove", {clientX: x, clientY: y, pointerId: 1, bubbles: true,
					pointerType: "mouse"}));
				if (host.style.cursor === "grab") return [x, y];
			}
		}
		throw new Error("no copy of the demonstration is found on the canvas");
	})()`)
	if err != nil {
		return nil, err
	}
	if _, err := evaluate[bool](tab, `((window.framesOfDrag = []), (function next(last) {
		requestAnimationFrame((now) => { window.framesOfDrag?.push(now - last); if (window.framesOfDrag) next(now); });
	})(performance.now()), true)`); err != nil {
		return nil, err
	}

	mouse := func(kind input.DispatchMouseEventType, x, y float64) error {
		return chromedp.Do(tab, chromedp.MouseEvent(kind, x, y, chromedp.ButtonLeft))
	}
	if err := mouse(chromedp.MousePressed, from[0], from[1]); err != nil {
		return nil, err
	}
	begin := time.Now()
	for time.Since(begin) < during {
		next := time.Now().Add(handStep)
		turn := 2 * math.Pi * time.Since(begin).Seconds() / 2
		if err := mouse(chromedp.MouseMoved, from[0]+12*math.Sin(turn), from[1]+12*(1-math.Cos(turn))); err != nil {
			return nil, err
		}
		time.Sleep(time.Until(next))
	}
	if err := mouse(chromedp.MouseReleased, from[0], from[1]); err != nil {
		return nil, err
	}
	return evaluate[[]float64](tab, `(() => {
		const all = window.framesOfDrag;
		window.framesOfDrag = null;
		return all.slice(1);
	})()`)
}

// pressFigures presses what can be pressed on a processor that is slowed down, and adds how long the page took from a
// press to the next frame: the longest event of each press, as the browser itself times it. What took longest is named.
func pressFigures(tab context.Context, t *table, out io.Writer) error {
	if _, err := chromedp.Call(tab, emulation.SetCPUThrottlingRate,
		emulation.SetCPUThrottlingRateParams{Rate: pressSlowed}); err != nil {
		return err
	}
	if _, err := evaluate[bool](tab, `((window.pressesTimed = new Map()), new PerformanceObserver((list) => {
		for (const e of list.getEntries()) if (e.interactionId) {
			const before = window.pressesTimed.get(e.interactionId);
			const at = e.target?.closest("button, summary, label, [id]");
			const name = at?.dataset.act || at?.id || at?.innerText || before?.name;
			window.pressesTimed.set(e.interactionId, {took: Math.max(e.duration, before?.took ?? 0), name});
		}
	}).observe({type: "event", durationThreshold: 16}), true)`); err != nil {
		return err
	}
	count := 0
	for i := 0; ; i++ {
		at, err := evaluate[[]float64](tab, fmt.Sprintf(`(() => {
			const e = %s[%d];
			if (!e) return [];
			e.scrollIntoView({block: "nearest"});
			const r = e.getBoundingClientRect();
			return [r.x + r.width / 2, r.y + r.height / 2];
		})()`, presses, i))
		if err != nil {
			return err
		}
		if len(at) == 0 {
			break
		}
		for _, kind := range []input.DispatchMouseEventType{chromedp.MousePressed, chromedp.MouseReleased} {
			if err := chromedp.Do(tab, chromedp.MouseEvent(kind, at[0], at[1], chromedp.ButtonLeft,
				chromedp.ClickCount(1))); err != nil {
				return err
			}
		}
		count++
		time.Sleep(300 * time.Millisecond)
		if _, err := evaluate[bool](tab,
			`(document.querySelectorAll("dialog[open]").forEach((d) => d.close()), true)`); err != nil {
			return err
		}
	}
	if _, err := chromedp.Call(tab, emulation.SetCPUThrottlingRate,
		emulation.SetCPUThrottlingRateParams{Rate: 1}); err != nil {
		return err
	}
	timed, err := evaluate[[]press](tab, `[...window.pressesTimed.values()]`)
	if err != nil {
		return err
	}
	slices.SortFunc(timed, func(a, b press) int { return cmp.Compare(b.Took, a.Took) })
	for _, p := range timed[:min(len(timed), 12)] {
		fmt.Fprintf(out, "%s ms from a press of %q to the next frame\n", short(p.Took), p.Name)
	}
	var took []float64
	for _, p := range slices.Backward(timed) {
		took = append(took, p.Took)
	}
	for len(took) < count { // what took less than 16 ms is not told
		took = append([]float64{0}, took...)
	}
	t.add(fmt.Sprintf("from a press to the next frame, %d presses on a processor slowed down %g times: the median, "+
		"the 98th percentile, the longest", count, pressSlowed), fmt.Sprintf("%s ms, %s ms, %s ms", short(median(took)),
		short(took[len(took)*98/100]), short(took[len(took)-1])), fmt.Sprintf("under %g ms", pressLimit))
	return nil
}

// keepMemory keeps the editor's memory where it can be asked for.
const keepMemory = `{ const own = WebAssembly.instantiateStreaming;
	WebAssembly.instantiateStreaming = async (...all) => {
		const made = await own.call(WebAssembly, ...all);
		window.editorMemory = made.instance.exports.mem;
		return made;
	};
}`

// memoryFigures drags for long and adds by how much what the page keeps has grown.
func memoryFigures(tab context.Context, during time.Duration, t *table, out io.Writer) error {
	if _, err := chromedp.Call(tab, performance.Enable, performance.EnableParams{}); err != nil {
		return err
	}
	if _, err := chromedp.Call(tab, page.AddScriptToEvaluateOnNewDocument,
		page.AddScriptToEvaluateOnNewDocumentParams{Source: keepMemory}); err != nil {
		return err
	}
	if err := navigateAgain(tab); err != nil {
		return err
	}
	const parts = 10
	var kept []float64
	for range parts {
		if _, err := dragged(tab, during/parts); err != nil {
			return err
		}
		held, err := heldMB(tab)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "dragging: %.1f MB are held\n", held)
		kept = append(kept, held)
	}
	t.add(fmt.Sprintf("memory after %s of dragging, over that after a tenth of it", during),
		fmt.Sprintf("%s MB, %+.1f %%", short(kept[parts-1]), 100*(kept[parts-1]/kept[0]-1)),
		fmt.Sprintf("flat: within %g %%", heldLimit))
	return nil
}

// navigateAgain loads the page anew and lets it come to rest.
func navigateAgain(tab context.Context) error {
	limited, cancel := context.WithTimeout(tab, patience)
	defer cancel()
	if err := chromedp.Do(limited, chromedp.Reload()); err != nil {
		return err
	}
	time.Sleep(settle)
	return nil
}

// heldMB returns what scripts and the editor's own memory hold, after what is not needed was collected, in MB.
func heldMB(tab context.Context) (float64, error) {
	if _, err := chromedp.Call(tab, heapprofiler.CollectGarbage, cdp.Empty{}); err != nil {
		return 0, err
	}
	metrics, err := chromedp.Call(tab, performance.GetMetrics, cdp.Empty{})
	if err != nil {
		return 0, err
	}
	held, err := evaluate[float64](tab, `window.editorMemory.buffer.byteLength`)
	if err != nil {
		return 0, err
	}
	for _, m := range metrics.Metrics {
		if m.Name == "JSHeapUsedSize" {
			held += m.Value
		}
	}
	return held / 1e6, nil
}
