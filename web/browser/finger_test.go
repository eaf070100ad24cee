package browser

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// fingers gives the tab a screen that is touched, as a phone has, until the test ends.
func (p *tab) fingers() {
	p.t.Helper()
	p.screenTouched(true)
	p.t.Cleanup(func() { p.screenTouched(false) })
	if !eval[bool](p, `matchMedia("(pointer: coarse)").matches`) {
		p.t.Fatal("the browser does not take the screen for one that is touched")
	}
}

func (p *tab) screenTouched(yes bool) {
	p.do("have the screen touched", func() error {
		_, err := chromedp.Call(p.ctx, emulation.SetTouchEmulationEnabled,
			emulation.SetTouchEmulationEnabledParams{Enabled: yes, MaxTouchPoints: 5})
		return err
	})
}

// touch sends one event of the fingers that are down, in CSS px of the page.
func (p *tab) touch(kind input.DispatchTouchEventType, at ...point) {
	p.t.Helper()
	e := input.DispatchTouchEventParams{Type: kind, TouchPoints: []*input.TouchPoint{}}
	for i, q := range at {
		id := float64(i + 1)
		e.TouchPoints = append(e.TouchPoints, &input.TouchPoint{X: q.x, Y: q.y, ID: &id})
	}
	limited, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if _, err := chromedp.Call(limited, input.DispatchTouchEvent, e); err != nil {
		p.t.Fatalf("the fingers: %v", err)
	}
}

// byFinger presses the middle of an element with a finger.
func (p *tab) byFinger(selector string) {
	p.t.Helper()
	at := p.boxOf(selector).middle()
	p.touch(input.DispatchTouchEventTypeTouchStart, at)
	p.touch(input.DispatchTouchEventTypeTouchEnd)
}

// tooSmall is a script that names every control that can be seen and is less than 44 px wide or high for a finger: what
// is pressed is the control with its label. A link within a sentence is as high as its line (WCAG 2.2, 2.5.8).
const tooSmall = `((within) => {
	const name = (e) => e.id || e.dataset.act || e.dataset.field || e.dataset.wish || e.dataset.trace ||
		e.dataset.way || e.getAttribute("aria-label") || (e.innerText || e.value || e.outerHTML).trim().slice(0, 60);
	const all = document.querySelector("dialog[open]") ?? document.querySelector(within);
	const out = [];
	for (const e of all.querySelectorAll("button, input, select, textarea, summary, a[href]")) {
		if (e.matches(".skip, .unseen, .cure") || e.closest("[inert]") || e.type === "file" && e.hidden) continue;
		if (!e.checkVisibility({visibilityProperty: true}) || getComputedStyle(e).clipPath !== "none") continue;
		let {left, top, right, bottom} = e.getBoundingClientRect();
		const label = e.closest("label");
		if (label && e.matches("[type=radio], [type=checkbox]")) {
			const r = label.getBoundingClientRect();
			[left, top, right, bottom] = [Math.min(left, r.left), Math.min(top, r.top), Math.max(right, r.right), ` +
	`Math.max(bottom, r.bottom)];
		}
		const w = right - left, h = bottom - top;
		if (w < 43.5 || h < 43.5) out.push(name(e) + " is " + Math.round(w) + " × " + Math.round(h));
	}
	return out;
})`

// Every control of every step, strip and dialog is 44 px wide and high, or more, where the screen is touched.
func TestTargetsForAFinger(t *testing.T) {
	p := open(t, how{used: true, width: 390, height: 844})
	p.fingers()
	for _, size := range [][2]int64{{390, 844}, {1180, 820}} {
		p.resize(size[0], size[1])
		p.drawn()
		look := func(what, within string) {
			t.Helper()
			if list := eval[[]string](p, fmt.Sprintf("%s(%q)", tooSmall, within)); len(list) > 0 {
				p.keep(fmt.Sprintf("faults/finger-%dx%d-%s", size[0], size[1], strings.ReplaceAll(what, " ", "-")))
				t.Errorf("%d × %d, %s: %s", size[0], size[1], what, strings.Join(list, "; "))
			}
		}
		run := func(script string) { eval[bool](p, "("+script+", true)") }
		narrow := size[0] < 820

		look("the bench", "body")
		if narrow {
			run(`document.getElementById("draw-up").click()`)
		}
		for _, step := range []string{"silhouettes", "repeat", "panel", "subject", "paint", "sheet", "make"} {
			run(fmt.Sprintf(`(() => { const head = document.querySelector("[data-step=%s] .step-head");
				if (head.getAttribute("aria-expanded") !== "true") head.click();
				for (const fold of document.querySelectorAll("details")) fold.open = true;
				for (const id of ["rarer-open", "held-open"]) {
					const open = document.getElementById(id);
					if (open.getAttribute("aria-expanded") !== "true") open.click();
				} })()`, step))
			look(step, "body")
		}
		if narrow {
			run(`document.getElementById("draw-up").click()`)
		}
		run(`openwork.select("m2")`)
		look("a copy in hand", "body")
		if narrow {
			run(`document.getElementById("hand-open").click()`)
			look("the strip drawn out", "#hand")
			run(`document.getElementById("hand-open").click()`)
		}
		run(`openwork.select("")`)
		run(`document.getElementById("more").click()`)
		look("More", ".head")
		run(`document.getElementById("more").click()`)
		run(`document.getElementById("fault-which").click()`)
		look("the list of faults", "#foot")
		run(`document.getElementById("fault-which").click()`)
		for _, name := range eval[[]string](p, `[...document.querySelectorAll("dialog")].map((d) => d.id)`) {
			run(fmt.Sprintf(`document.getElementById(%q).showModal()`, name))
			look("the dialog "+name, "body")
			run(fmt.Sprintf(`document.getElementById(%q).close()`, name))
		}
		for _, way := range []string{"free", "points", "move"} {
			run(`openwork.pen("open", "carp", 0)`)
			run(fmt.Sprintf(`openwork.pen("way", %q, 0)`, way))
			p.wait("the drawing", `!document.getElementById("draw").hidden`)
			look("drawing, "+way, "body")
		}
		run(`openwork.act("draw-done")`)
	}
}

// A finger that stays reads what a mouse reads by hovering, and does nothing else: a button's title, the sign under it.
func TestLongPress(t *testing.T) {
	p := open(t, how{used: true, width: 390, height: 844})
	p.fingers()
	stay := func(at point) {
		t.Helper()
		p.touch(input.DispatchTouchEventTypeTouchStart, at)
		time.Sleep(900 * time.Millisecond)
	}
	lift := func() { p.touch(input.DispatchTouchEventTypeTouchEnd); p.drawn() }

	p.still("a finger that stays on a button", func() {
		stay(p.boxOf("#signs").middle())
		p.wait("the button's words", `document.querySelector(".named")?.innerText.includes("Show the mirrors")`)
		lift()
	})
	p.keep("long-press")
	if eval[bool](p, `JSON.parse(openwork.view()).signs.shown`) {
		t.Error("the press that read the button has pressed it, too")
	}
	p.byFinger("#signs")
	p.wait("a tap to press it, and the words to go",
		`JSON.parse(openwork.view()).signs.shown && !document.querySelector(".named")`)

	// A glide of the demonstration runs upright through the middle of its cell.
	said := ""
	s := p.whole()
	d := p.draft()
	for y := 0.0; y < 150 && said == ""; y += 12 {
		at := s.on([2]float64{d.Field.Origin[0] + d.Repeat.A/2, d.Field.Origin[1] + y})
		p.still("a finger that stays on a sign", func() {
			stay(at)
			said = eval[string](p, `document.getElementById("signs-said").innerText`)
			lift()
		})
	}
	if !strings.Contains(strings.ToLower(said), "glide") {
		t.Errorf("a finger that stays on a glide reads %q", said)
	}
}

// A pinch that begins as a drag of one finger takes back what that finger moved, and what it took up.
func TestPinchAfterADrag(t *testing.T) {
	p := open(t, how{used: true, width: 390, height: 844})
	p.fingers()
	s := p.whole()
	at := s.on(p.takeUp(s, false).inner)
	p.strike("Escape", 0)
	p.wait("nothing in hand", `JSON.parse(openwork.view()).selected === ""`)
	zoom := p.view().Zoom
	moved := ""
	p.still("a drag that becomes a pinch", func() {
		before := p.text()
		p.touch(input.DispatchTouchEventTypeTouchStart, at)
		for i := 1; i <= 5; i++ {
			p.touch(input.DispatchTouchEventTypeTouchMove, point{at.x + 6*float64(i), at.y + 4*float64(i)})
		}
		p.wait("the copy to go with the finger", fmt.Sprintf(`openwork.save() !== %q`, before))
		first, second := point{at.x + 30, at.y + 20}, point{at.x + 30, at.y + 100}
		p.touch(input.DispatchTouchEventTypeTouchStart, first, second)
		for i := 1; i <= 6; i++ {
			second.y += 10
			p.touch(input.DispatchTouchEventTypeTouchMove, first, second)
		}
		p.touch(input.DispatchTouchEventTypeTouchEnd)
		moved = p.view().Selected
	})
	if moved != "" {
		t.Errorf("%q was taken up by two fingers", moved)
	}
	if now := p.view().Zoom; math.Abs(now/zoom-1.75) > 0.15 {
		t.Errorf("fingers 80 px apart went to 140; %g px/mm became %g", zoom, now)
	}
}

// Escape, and the browser's own way back, close what is open and nothing else: a dialog, the shelf, More, the strip of
// the copy in hand, the drawing bench, the ticket with its step; one at a press, the last opened first.
func TestLeavingWhatIsOpen(t *testing.T) {
	p := open(t, how{used: true, width: 390, height: 844})
	address := eval[string](p, `location.href`)
	length := eval[int](p, `history.length`)
	back := map[string]func(){
		"the way back": func() { eval[bool](p, `(history.back(), true)`) },
		"Escape":       func() { p.strike("Escape", 0) },
	}
	shown := func(id string) string { return fmt.Sprintf(`document.getElementById(%q).open`, id) }
	more := func(id string) func() {
		return func() {
			p.click("#more")
			p.click("#" + id)
		}
	}
	ticket := `document.getElementById("ticket").classList.contains("up")`
	for _, layer := range []struct {
		name string
		open func()
		is   string
	}{
		{"the shelf", more("shelf-open"), shown("shelf")},
		{"the keys", more("help"), shown("keys")},
		{"the steps of the draft", more("history-open"), shown("history")},
		{"More", func() { p.click("#more") },
			`document.getElementById("more").getAttribute("aria-expanded") === "true"`},
		{"the ticket", func() { p.click("#draw-up") }, ticket},
		{"the strip of the copy in hand", func() { p.click("#hand-open") },
			`document.getElementById("hand").classList.contains("open")`},
		{"the list of faults", func() { p.click("#fault-which") }, `!document.getElementById("fault-list").hidden`},
		{"the drawing bench", func() { eval[string](p, `openwork.pen("open", "", 0)`) },
			`!document.getElementById("draw").hidden`},
	} {
		for how, leave := range back {
			layer.open()
			p.wait(layer.name, layer.is)
			p.wait("an entry to go back from", `history.state?.open === true`)
			leave()
			p.wait(layer.name+" to be closed by "+how, "!("+layer.is+")")
			p.wait("the history as it was", `!history.state?.open`)
		}
	}

	// A dialog over the ticket's step: the dialog first, then the ticket; the bench is there all the while.
	for how, leave := range back {
		p.click("#draw-up")
		if !eval[bool](p, `document.querySelector("[data-step=silhouettes]").classList.contains("open")`) {
			p.click("[data-step=silhouettes] .step-head")
		}
		p.click("#bring-in")
		p.wait("the dialog", shown("bring"))
		leave()
		p.wait("the dialog alone to be closed by "+how, "!("+shown("bring")+") && "+ticket)
		p.wait("an entry to go back from", `history.state?.open === true`)
		leave()
		p.wait("the ticket to be let down by "+how, "!("+ticket+") && !history.state?.open")
	}
	if now := eval[string](p, `location.href`); now != address {
		t.Errorf("the page has gone to %s", now)
	}
	if now := eval[int](p, `history.length`); now > length+1 {
		t.Errorf("the history has %d entries, and had %d", now, length)
	}
}
