package browser

import (
	"fmt"
	"testing"

	"openwork/pattern"
)

// obscured is a script that gives every control in a part of the page the focus, as Tab would, and names those of which
// then nothing can be seen for something that lies over them.
const obscured = `((within) => {
	const out = [];
	const controls = "button, input, select, textarea, summary, a[href], [tabindex='0']";
	for (const e of document.querySelector(within).querySelectorAll(controls)) {
		if (e.matches(":disabled, [tabindex='-1']") || e.closest("[inert]")) continue;
		if (!e.checkVisibility({visibilityProperty: true})) continue;
		e.focus();
		if (document.activeElement !== e) continue;
		const label = e.closest("label"), own = getComputedStyle(e);
		const seen = own.opacity === "0" || own.clipPath !== "none" ? label ?? e : e;
		const r = seen.getBoundingClientRect();
		const [across, down] = [[0.5, 0.08, 0.92], [0.5, 0.15, 0.85]];
		const at = across.flatMap((x) => down.map((y) => [r.left + x * r.width, r.top + y * r.height]));
		const free = at.some(([x, y]) => { const it = document.elementFromPoint(x, y);
			return it && (seen.contains(it) || it.contains(seen) && it.localName === "label"); });
		if (!free) out.push(e.id || e.dataset.field || e.dataset.act || e.outerHTML.slice(0, 80));
	}
	return out;
})`

// WCAG 2.4.11: what has the focus is never wholly under something else, at any step, with the list of copies or the
// list of faults open, in a wide window, a low one and a phone's.
func TestFocusIsNotObscured(t *testing.T) {
	p := open(t, how{used: true})
	p.furnish()
	for _, size := range [][2]int64{{1440, 900}, {390, 844}} {
		p.resize(size[0], size[1])
		p.drawn()
		look := func(what, within string) {
			t.Helper()
			for _, found := range eval[[]string](p, fmt.Sprintf("%s(%q)", obscured, within)) {
				t.Errorf("%d × %d, %s: the focus on %s is obscured", size[0], size[1], what, found)
			}
		}
		for _, step := range allSteps {
			p.unfold(step)
			look("the step "+step, "main")
		}
		p.letDown()
		look("the ticket let down", "body")
		p.tap("#copies-open")
		p.drawn()
		look("the list of copies", "#copies")
		p.tap("#copies-close")
	}
}

// WCAG 1.4.10: in a window of 320 px, which is one of 1280 px enlarged to 400 %, nothing needs scrolling to the side,
// no text is cut off, and all can be reached.
func TestReflowAt320(t *testing.T) {
	p := open(t, how{used: true, width: 320, height: 640})
	p.furnish()
	look := func(what, within string) {
		t.Helper()
		faults := eval[[]string](p, fmt.Sprintf("%s(%q)", unreachable, within))
		for _, fault := range append(faults, eval[[]string](p, clipped)...) {
			t.Errorf("%s: %s", what, fault)
		}
	}
	for _, step := range allSteps {
		p.unfold(step)
		if step == "paint" {
			p.wait("all that is reckoned", `document.querySelector("#paste td") &&
				document.getElementById("colourings-said").innerText`)
		}
		look("the step "+step, "body")
	}
	p.letDown()
	eval[bool](p, `(openwork.select(JSON.parse(openwork.view()).motifs[0].id), true)`)
	p.tap("#hand-open")
	p.drawn()
	look("a copy in hand", "#hand")
	p.tap("#hand-open")
	p.tap("#copies-open")
	p.drawn()
	look("the list of copies", "#copies")
	p.keep("copies-reflow")
	p.tap("#copies-close")
	for _, name := range []string{"keys", "how", "bring", "shelf", "history"} {
		eval[bool](p, fmt.Sprintf(`(document.getElementById(%q).showModal(), true)`, name))
		look("the dialog "+name, "body")
		eval[bool](p, fmt.Sprintf(`(document.getElementById(%q).close(), true)`, name))
	}
}

// faint is a script that names, of the controls that can be seen and used, those of which neither the edge nor the
// ground stands out from what is around by 3 : 1; and pairs of the page's and the canvas's colours that do not. A
// control that is known by its words alone has no edge to be seen.
const faint = `(() => {
	const context = document.createElement("canvas").getContext("2d", {willReadFrequently: true});
	const parts = (colour) => { context.clearRect(0, 0, 1, 1); context.fillStyle = colour; context.fillRect(0, 0, 1, 1);
		return [...context.getImageData(0, 0, 1, 1).data]; };
	const linear = (v) => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
	const light = ([r, g, b]) => { const [R, G, B] = [r, g, b].map((v) => linear(v / 255));
		return 0.2126 * R + 0.7152 * G + 0.0722 * B; };
	const ratio = (a, b) => { const [x, y] = [light(parts(a)), light(parts(b))].sort((m, n) => n - m);
		return (x + 0.05) / (y + 0.05); };
	const ground = (e) => { for (; e; e = e.parentElement) { const c = getComputedStyle(e).backgroundColor;
		if (parts(c)[3] > 250) return c; } return "#fff"; };
	const out = [];
	const edged = ".edged, .main, select, textarea, .switch, .motif-pick, .copy-row, .stepper, .views, " +
		".signs-switch, .mend, input:not([type=radio], [type=checkbox], [type=range], [type=file], [type=color])";
	for (const e of document.querySelectorAll(edged)) {
		if (e.matches("#title, .silhouette-name input, #theme") || e.closest(":disabled, .unseen")) continue;
		if (!e.checkVisibility({visibilityProperty: true})) continue;
		const own = getComputedStyle(e), around = ground(e.parentElement);
		const by = (colour) => parts(colour)[3] > 250 ? ratio(colour, around) : 1;
		const edge = parseFloat(own.borderTopWidth) > 0 ? by(own.borderTopColor) : 1;
		const most = Math.max(edge, by(own.backgroundColor));
		const name = e.id || e.className || e.dataset.field || e.localName;
		if (most < 3) out.push(name + " stands out by " + most.toFixed(2));
	}
	const token = (name) => { const probe = document.createElement("i"); probe.style.color = "var(--" + name + ")";
		document.body.append(probe); const c = getComputedStyle(probe).color; probe.remove(); return c; };
	const pairs = [["focus", "paper"], ["focus", "paper-open"], ["focus", "table"], ["focus", "green-wash"], 
		["green", "paper"], ["green", "paper-open"], ["green", "green-wash"], ["red", "paper"], ["red", "paper-open"],
		["ochre", "paper"], ["ochre", "paper-open"], ["canvas-accent", "canvas-sheet"],
		["canvas-fault", "canvas-sheet"], ["canvas-warn", "canvas-sheet"], ["canvas-paint", "canvas-sheet"],
		["canvas-fault", "canvas-halo"], ["canvas-warn", "canvas-halo"], ["canvas-halo", "canvas-paint"],
		["canvas-faint", "canvas-ground"]];
	for (const [a, b] of pairs) {
		const by = ratio(token(a), token(b));
		if (by < 3) out.push(a + " on " + b + " stands out by " + by.toFixed(2));
	}
	return [...new Set(out)];
})()`

// WCAG 1.4.11: the edges or grounds of controls, the focus, what is chosen and the signs on the canvas stand out by 3 :
// 1, by day and by lamp.
func TestControlsStandOut(t *testing.T) {
	p := open(t, how{used: true})
	p.furnish()
	eval[bool](p, `(openwork.select(JSON.parse(openwork.view()).motifs[0].id), true)`)
	p.tap("#copies-open")
	p.unfold("make")
	eval[bool](p, allAtOnce)
	for _, theme := range []string{"light", "dark"} {
		p.theme(theme)
		p.drawn()
		for _, found := range eval[[]string](p, faint) {
			t.Errorf("%s: %s", theme, found)
		}
	}
}

// WCAG 4.1.3: what happens is said in regions that were there before and that are read without the focus going to them.
func TestStatusIsSaidWithoutFocus(t *testing.T) {
	p := open(t, how{})
	p.furnish()
	p.unfold("make")
	eval[bool](p, `(document.getElementById("bench").focus(), true)`)
	for _, c := range []struct {
		what, region string
		do           func()
	}{
		{"the verdict", "#foot .words", func() {
			p.command(pattern.Command{Name: "cell", Values: map[string]float64{"a": 90}})
			p.settled()
		}},
		{"a fault gone to", "#fault-said", func() { p.strike("f", 0) }},
		{"what is in hand", "#hand-site", func() { p.strike("n", 0) }},
		{"what was made", "#made", func() { p.tap("#picture"); p.download("*.png") }},
		{"a notice", "#notice", func() { p.tap("[data-act=new]") }},
		{"a refusal", "#alarm", func() { p.choose("#open-file", write(t, "torn.openwork.json", []byte("{"))) }},
	} {
		live := eval[bool](p, fmt.Sprintf(`(() => { const e = document.querySelector(%q);
			globalThis.before = e?.textContent; globalThis.region = e;
			return Boolean(e) && !e.closest("[hidden]") &&
				e.matches("[role=status], [role=alert], [aria-live=polite], [aria-live=assertive]"); })()`,
			c.region))
		if !live {
			t.Errorf("%s: %s is no live region", c.what, c.region)
		}
		c.do()
		p.wait(c.what+" to be said", fmt.Sprintf(`region === document.querySelector(%q) && region.textContent.trim() &&
			region.textContent !== before`, c.region))
		if at := eval[string](p, `document.activeElement.id`); at != "bench" {
			t.Errorf("%s took the focus to %q", c.what, at)
		}
	}
}

// WCAG 2.5.1 and 2.5.7 for the view and the cell: what two fingers and drags do, single presses and fields do too.
func TestViewAndCellWithoutDragging(t *testing.T) {
	p := open(t, how{used: true})
	p.settled()
	was := p.view().Zoom
	p.click(".views [data-act=closer]")
	p.wait("a closer view", fmt.Sprintf(`JSON.parse(openwork.view()).zoom > %g`, was))
	p.click(".views [data-act=further]")
	p.click(".views [data-act=fit]")
	p.wait("the whole panel", fmt.Sprintf(`Math.abs(JSON.parse(openwork.view()).zoom - %g) < 1e-6`, was))
	p.cell("207")
	p.click("[data-step=panel] .step-head")
	p.entry("where the repeat starts", func() { p.fill(`[data-field="field.x"]`, "310") })
	if at := p.draft().Field.Origin; at[0] != 310 {
		t.Errorf("typed 310, the repeat starts at %v", at)
	}
}
