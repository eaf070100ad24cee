package browser

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Modifiers of pointer and key events.
const (
	alt     = 1
	control = 2
	shift   = 8
)

// resize gives the page a size in CSS px; 0 × 0 is 1320 × 760.
func (p *tab) resize(width, height int64) {
	p.t.Helper()
	if width == 0 || height == 0 {
		width, height = 1320, 760
	}
	p.do("size the page", func() error {
		_, err := chromedp.Call(p.ctx, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
			Width: width, Height: height, DeviceScaleFactor: 1})
		return err
	})
}

// mouse sends one event of the mouse, in CSS px of the page.
func (p *tab) mouse(kind input.DispatchMouseEventType, x, y float64, change ...func(*input.DispatchMouseEventParams)) {
	p.t.Helper()
	e := input.DispatchMouseEventParams{Type: kind, X: x, Y: y, Button: input.MouseButtonNone}
	switch kind {
	case chromedp.MousePressed:
		e.Button, e.Buttons, e.ClickCount = input.MouseButtonLeft, 1, 1
	case chromedp.MouseReleased:
		e.Button, e.ClickCount = input.MouseButtonLeft, 1
	}
	for _, f := range change {
		f(&e)
	}
	limited, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if _, err := chromedp.Call(limited, input.DispatchMouseEvent, e); err != nil {
		p.t.Fatalf("the mouse: %v", err)
	}
}

func held(e *input.DispatchMouseEventParams) { e.Button, e.Buttons = input.MouseButtonLeft, 1 }

// press and its like act on a point of the page.
func (p *tab) press(at point) {
	p.t.Helper()
	p.mouse(chromedp.MouseMoved, at.x, at.y)
	p.mouse(chromedp.MousePressed, at.x, at.y)
}

// pull moves the pressed mouse from one point to another in steps, and leaves it pressed.
func (p *tab) pull(from, to point, steps int) {
	p.t.Helper()
	for i := 1; i <= steps; i++ {
		f := float64(i) / float64(steps)
		p.mouse(chromedp.MouseMoved, from.x+f*(to.x-from.x), from.y+f*(to.y-from.y), held)
	}
}

func (p *tab) release(at point) {
	p.t.Helper()
	p.mouse(chromedp.MouseReleased, at.x, at.y)
}

// drag is a whole gesture.
func (p *tab) drag(from, to point) {
	p.t.Helper()
	p.press(from)
	p.pull(from, to, 6)
	p.release(to)
}

// painted waits for two frames, and for what was to come after them.
const painted = `new Promise((done) => ` +
	`requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => done(true), 0))))`

func (p *tab) clickAt(at point) {
	p.t.Helper()
	p.press(at)
	p.release(at)
	// What a press does comes after the browser has painted it. A press may also have left the page: then nothing is
	// there to wait for.
	limited, cancel := context.WithTimeout(p.ctx, 2*time.Second)
	defer cancel()
	_, _ = chromedp.Run(limited, chromedp.Evaluate[bool](painted, chromedp.EvalAwaitPromise))
}

// wheel turns the wheel over a point; Chromium takes no wheel event without some way across.
func (p *tab) wheel(at point, by float64) {
	p.t.Helper()
	p.mouse(chromedp.MouseWheel, at.x, at.y, func(e *input.DispatchMouseEventParams) { e.DeltaX, e.DeltaY = 0.01, by })
}

// point is a place on the page, in CSS px from its upper left corner.
type point struct{ x, y float64 }

// box is an element's rectangle on the page, in CSS px.
type box struct{ X, Y, Width, Height float64 }

func (b box) middle() point { return point{b.X + b.Width/2, b.Y + b.Height/2} }

// boxOf scrolls an element into view and returns its rectangle.
func (p *tab) boxOf(selector string) box {
	p.t.Helper()
	b := eval[*box](p, fmt.Sprintf(`(() => {
		const e = document.querySelector(%s);
		if (!e) return null;
		e.scrollIntoView({block: "nearest", inline: "nearest"});
		const r = e.getBoundingClientRect();
		return {X: r.x, Y: r.y, Width: r.width, Height: r.height};
	})()`, strconv.Quote(selector)))
	if b == nil {
		p.t.Fatalf("there is no %s on the page", selector)
	}
	return *b
}

// click presses the middle of an element with the mouse. What lies there must be the element itself or inside it.
func (p *tab) click(selector string) {
	p.t.Helper()
	p.wait(selector+" in reach of the mouse", fmt.Sprintf(`(() => {
		const e = document.querySelector(%s);
		if (!e || e.disabled) return false;
		e.scrollIntoView({block: "nearest", inline: "nearest"});
		const r = e.getBoundingClientRect();
		const there = document.elementFromPoint(r.x + r.width / 2, r.y + r.height / 2);
		return there && (e.contains(there) || there.closest("label")?.contains(e));
	})()`, strconv.Quote(selector)))
	p.clickAt(p.boxOf(selector).middle())
}

// keyCode holds Windows' numbers of keys that are no letters.
var keyCode = map[string]int64{
	"Tab": 9, "Enter": 13, "Escape": 27, " ": 32, "ArrowLeft": 37, "ArrowUp": 38, "ArrowRight": 39, "ArrowDown": 40,
	"Delete": 46, "[": 219, "]": 221, ",": 188, ".": 190, "-": 189, "+": 187,
}

// key sends one event of a key; repeat is what a key that is held down sends again and again.
func (p *tab) key(kind input.DispatchKeyEventType, name string, mods int64, repeat bool) {
	p.t.Helper()
	e := input.DispatchKeyEventParams{Type: kind, Key: name, Modifiers: mods, WindowsVirtualKeyCode: keyCode[name],
		AutoRepeat: &repeat}
	e.Code = name
	if len(name) == 1 {
		c := name[0]
		if c >= 'a' && c <= 'z' {
			e.Code, e.WindowsVirtualKeyCode = "Key"+string(c-32), int64(c-32)
		}
		if kind == input.DispatchKeyEventTypeKeyDown && mods&(control|alt) == 0 {
			e.Text = name
		}
	}
	if name == "Enter" && kind == input.DispatchKeyEventTypeKeyDown {
		e.Text = "\r"
	}
	limited, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if _, err := chromedp.Call(limited, input.DispatchKeyEvent, e); err != nil {
		p.t.Fatalf("the key %q: %v", name, err)
	}
}

// strike presses a key and lets it go.
func (p *tab) strike(name string, mods int64) {
	p.t.Helper()
	p.hold(name, mods, 1)
}

// hold holds a key down for a number of its own repetitions, and lets it go.
func (p *tab) hold(name string, mods int64, times int) {
	p.t.Helper()
	for i := range times {
		p.key(input.DispatchKeyEventTypeKeyDown, name, mods, i > 0)
	}
	p.key(input.DispatchKeyEventTypeKeyUp, name, mods, false)
}

// fill types a number into a field in place of what stands there, and commits it with Enter.
func (p *tab) fill(selector, text string) {
	p.t.Helper()
	p.click(selector)
	p.do("mark the field's text", func() error {
		_, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](fmt.Sprintf(`(document.querySelector(%s).select(), true)`,
			strconv.Quote(selector))))
		return err
	})
	if err := chromedp.Do(p.ctx, chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := chromedp.Call(ctx, input.InsertText, input.InsertTextParams{Text: text})
		return err
	})); err != nil {
		p.t.Fatalf("typing %q: %v", text, err)
	}
	p.strike("Enter", 0)
}

// pick takes an option of a select by its words, by the keyboard: the list itself is drawn by the browser, out of the
// page's reach.
func (p *tab) pick(selector, words string) {
	p.t.Helper()
	p.wait(fmt.Sprintf("%s to offer %q", selector, words),
		fmt.Sprintf(`[...document.querySelector(%s).options].some((o) => o.text === %q)`,
			strconv.Quote(selector), words))
	index := eval[int](p, fmt.Sprintf(`(() => { const s = document.querySelector(%s); s.focus();
		return [...s.options].findIndex((o) => o.text === %q) - s.selectedIndex; })()`, strconv.Quote(selector), words))
	name := "ArrowDown"
	if index < 0 {
		name, index = "ArrowUp", -index
	}
	for range index {
		p.strike(name, 0)
	}
}

// change gives a control a value by script, as where the browser's own window for choosing would.
func (p *tab) change(selector, value string) {
	p.t.Helper()
	eval[bool](p, fmt.Sprintf(`(() => { const e = document.querySelector(%q); e.value = %q;
		e.dispatchEvent(new Event("change", {bubbles: true})); return true; })()`, selector, value))
}

// choose gives a file to a file field, as the browser's own window for choosing would.
func (p *tab) choose(selector, path string) {
	p.t.Helper()
	absolute, err := filepath.Abs(path)
	if err != nil {
		p.t.Fatal(err)
	}
	if err := chromedp.Do(p.ctx,
		chromedp.SetUploadFiles(chromedp.CSS(selector), []string{absolute}, chromedp.NodeReady)); err != nil {
		p.t.Fatalf("choosing %s: %v", path, err)
	}
}

// shot is a picture of what the tab shows now.
func (p *tab) shot() image.Image {
	p.t.Helper()
	img, err := png.Decode(bytes.NewReader(p.capture()))
	if err != nil {
		p.t.Fatalf("the screenshot: %v", err)
	}
	return img
}

func (p *tab) capture() []byte {
	p.t.Helper()
	p.drawn()
	limited, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	fast := true // a larger file in less time
	shot, err := chromedp.Call(limited, page.CaptureScreenshot, page.CaptureScreenshotParams{OptimizeForSpeed: &fast})
	if err != nil {
		p.t.Fatalf("the screenshot: %v", err)
	}
	return shot.Data
}

// drawn waits for two frames, so that what was last asked for is on the screen.
func (p *tab) drawn() {
	p.t.Helper()
	eval[bool](p, painted)
}

// keep leaves a screenshot among the build's artefacts.
func (p *tab) keep(name string) {
	p.t.Helper()
	if err := os.WriteFile(filepath.Join(artefacts, name+".png"), p.capture(), 0o644); err != nil {
		p.t.Fatalf("the screenshot cannot be kept: %v", err)
	}
}
