package browser

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"openwork/geometry/geometrytest"
	"openwork/pattern/draft"
)

// screens are the sizes at which the page is looked at, CSS px.
var screens = []struct {
	name          string
	width, height int64
}{
	{"wide", 1440, 900},
	{"narrow", 390, 844},
}

// theme shows the page by day or by lamp, as the system would ask.
func (p *tab) theme(name string) {
	p.t.Helper()
	p.do("set the system's theme", func() error {
		_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: name}}})
		return err
	})
	p.drawn()
	p.wait("colours that change over to be there",
		`document.getAnimations().every((a) => !(a instanceof CSSTransition) || a.playState === "finished")`)
}

// clipped lists what cannot be read as it is: text wider than its place, controls off the page, the page wider than the
// screen.
const clipped = `(() => {
	const out = [];
	const width = document.documentElement.clientWidth;
	if (document.documentElement.scrollWidth > width || document.body.scrollWidth > width)
		out.push("the page is wider than the screen");
	const told = (e) => e.id ? "#" + e.id : e.tagName.toLowerCase() +
		(e.className ? "." + String(e.className).split(" ").join(".") : "");
	for (const e of document.querySelectorAll(".head *, .ticket *, .hand *, .foot *, .views *, .signs-switch, " +
		".saying *, dialog[open] *, .over *, .notices *")) {
		if (e.closest(".unseen, .switch input, [hidden]") ||
			!e.checkVisibility({opacityProperty: true, visibilityProperty: true})) continue;
		const own = [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim());
		const control = e.matches("button, input:not([type=radio], [type=checkbox]), select, textarea");
		if (!own && !control) continue;
		const box = e.getBoundingClientRect();
		if (!box.width || !box.height || getComputedStyle(e).clipPath !== "none") continue;
		if (box.left < -1 || box.right > width + 1)
			out.push(told(e) + " stands off the screen: " + e.innerText.slice(0, 60));
		if (e.matches("input, textarea") && e.id === "title") continue; // may be longer than its field
		if (e.clientWidth && e.scrollWidth > e.clientWidth + 1)
			out.push(told(e) + " is " + e.scrollWidth + " px wide in " + e.clientWidth + ": " +
				(e.value ?? e.innerText).slice(0, 60));
		if (!control && e.clientHeight && e.scrollHeight > e.clientHeight + 3 &&
			/hidden|clip/.test(getComputedStyle(e).overflowY))
			out.push(told(e) + " is cut off below: " + e.innerText.slice(0, 60));
	}
	return out;
})()`

// The main states, at one of two sizes, by day: kept to be looked at, and held against text that is cut off. A long run
// goes through both sizes, and by lamp too.
func TestScreens(t *testing.T) {
	for _, size := range geometrytest.Share(t, screens, 1) {
		t.Run(size.name, func(t *testing.T) {
			p := open(t, how{width: size.width, height: size.height})
			p.settled()
			p.wait("the pictures of the groups",
				`document.querySelectorAll('#groups .group-picture > span[style*="url"]').length === 17 ||
				document.getElementById("step-repeat").offsetParent === null`)
			narrow := size.width < 820
			look := func(state string, themes ...string) {
				t.Helper()
				if !geometrytest.Long() {
					themes = nil // these pictures are for people to look at
				}
				for _, theme := range append(themes, "light") {
					p.theme(theme)
					p.keep(fmt.Sprintf("%s-%s-%s", state, size.name, theme))
				}
				for _, fault := range eval[[]string](p, clipped) {
					t.Errorf("%s: %s", state, fault)
				}
			}
			look("start", "dark")
			if narrow {
				p.click("#draw-up")
			}
			for _, step := range []string{"silhouettes", "repeat", "panel", "paint", "sheet", "make"} {
				if !eval[bool](p,
					fmt.Sprintf(`document.querySelector("[data-step=%s]").classList.contains("open")`, step)) {
					p.click(fmt.Sprintf("[data-step=%s] .step-head", step))
				}
				look("step-" + step)
				named(t, p)
				if step == "repeat" {
					p.click("#rarer-open")
					if !eval[bool](p, `(() => {
						const all = document.getElementById("rarer").getBoundingClientRect();
						const seen = document.getElementById("step-repeat").getBoundingClientRect();
						return all.bottom <= Math.min(innerHeight, seen.bottom) + 1 && all.bottom > 0;
					})()`) {
						t.Error("what Lay and fit opens is not all in sight")
					}
					look("lay-and-fit", "dark")
					p.click("#rarer-open")
				}
			}
			p.click("[data-step=repeat] .step-head")
			if narrow {
				p.click("#draw-up")
			}
			dragging(t, p, look)
			failing(p, look)
			importing(t, p, look)
			keys(p, look)
			p.act("units")
			p.drawn()
			look("inches", "dark")
			p.act("units")
			p.act("new")
			p.wait("the empty bench", `document.getElementById("over").dataset.kind === "empty"`)
			look("empty", "dark")
			eval[string](p, `openwork.act("undo")`)
			large := p.draft()
			large.Panel = draft.Panel{Width: 20000, Height: 20000}
			p.choose("#open-file", write(t, "wall.openwork.json", large.Encode()))
			p.wait("the limit",
				`/20,?000/.test(document.querySelector("#foot .words").innerText +
					document.getElementById("alarm").innerText)`)
			look("error", "dark")
		})
	}
}

// act does by the editor's table what a button elsewhere in these tests is pressed for; on a narrow screen some buttons
// are put away.
func (p *tab) act(name string) {
	p.t.Helper()
	if answer := eval[string](p, fmt.Sprintf(`openwork.act(%q)`, name)); answer != "{}" {
		p.t.Fatalf("%s: %s", name, answer)
	}
}

func dragging(t *testing.T, p *tab, look func(string, ...string)) {
	t.Helper()
	s := p.whole()
	c := collide(t, p.draft(), s)
	p.press(c.from)
	p.pull(c.from, c.to, 6)
	p.wait("an overlap", `/overlap/.test(document.getElementById("verdict-line").textContent)`)
	look("dragging", "dark")
	p.release(c.to)
}

func failing(p *tab, look func(string, ...string)) {
	p.t.Helper()
	p.settled()
	p.act("next-fault")
	p.click("#fault-which")
	p.wait("the list of faults", `!document.getElementById("fault-list").hidden`)
	look("failing", "dark")
	// The list lies over the drawing and takes nothing of it away beside itself.
	list, bench := p.boxOf("#fault-list"), p.boxOf("#bench")
	open := p.shot()
	p.click("#fault-which")
	p.wait("the list to close", `document.getElementById("fault-list").hidden`)
	const shadow = 40 // px, of the list
	above := box{bench.X, bench.Y, bench.Width, list.Y - shadow - bench.Y}
	if !same(open, p.shot(), sight{bench: above}) {
		p.t.Errorf("the drawing above the open list of faults is not what it is without the list")
	}
	p.strike("z", control)
	p.settled()
	p.whole()
	look("holding", "dark")
}

func importing(t *testing.T, p *tab, look func(string, ...string)) {
	t.Helper()
	eval[bool](p, `(document.getElementById("bring-in").click(), true)`) // the step may be put away
	p.wait("the dialog", `document.getElementById("bring").open`)
	look("import-empty")
	p.choose("#bring-file", carpScan(t, p))
	p.wait("the outline over the scan",
		`document.querySelectorAll("#bring-outline path").length > 0 && document.getElementById("bring-busy").hidden`)
	look("import", "dark")
	named(t, p)
	p.click("#bring [data-close]")
}

func keys(p *tab, look func(string, ...string)) {
	p.t.Helper()
	eval[bool](p, `(document.getElementById("help").click(), true)`)
	p.wait("the keys", `document.getElementById("keys").open`)
	look("keys")
	eval[bool](p, `(document.getElementById("keys").close(), true)`)
}

// named holds that every control has a name and that the verdict is said by itself.
func named(t *testing.T, p *tab) {
	t.Helper()
	tree, err := chromedp.Call(p.ctx, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
	if err != nil {
		t.Fatal(err)
	}
	controls := map[string]bool{"textbox": true, "combobox": true, "checkbox": true, "radio": true, "slider": true,
		"spinbutton": true, "button": true, "link": true, "searchbox": true, "listbox": true, "dialog": true,
		"application": true}
	found := 0
	for _, n := range tree.Nodes {
		if n.Ignored || n.Role == nil || !controls[word(n.Role)] {
			continue
		}
		found++
		if strings.TrimSpace(word(n.Name)) == "" {
			t.Errorf("a %s has no name (node %d)", word(n.Role), n.BackendDOMNodeID)
		}
	}
	if found < 5 {
		t.Errorf("only %d controls were found", found)
	}
	live := eval[string](p, `(() => { const e = document.querySelector("#foot .words");
		return e.getAttribute("role") + " " + (e.getAttribute("aria-live") ?? "polite"); })()`)
	if live != "status polite" {
		t.Errorf("the verdict should be a live region that waits its turn; it is %q", live)
	}
}

// word is the text of a value of the accessibility tree.
func word(v *accessibility.Value) string {
	if v == nil {
		return ""
	}
	return strings.Trim(string(v.Value), `"`)
}
