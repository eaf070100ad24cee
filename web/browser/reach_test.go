package browser

import (
	"fmt"
	"strings"
	"testing"
)

// unreachable is a script that goes through every control that can be seen, scrolls to it, and names those on whose
// middle a press would not fall: covered, cut off, or outside the window.
const unreachable = `((within) => {
	const name = (e) => e.id || e.dataset.act || e.dataset.field || e.dataset.wish || e.dataset.trace || ` +
	`e.dataset.find ||
		e.getAttribute("aria-label") || (e.innerText || e.value || e.outerHTML).trim().slice(0, 40);
	const modal = document.querySelector("dialog[open]") ?? document.querySelector(within);
	const out = [];
	for (const e of modal.querySelectorAll("button, input, select, textarea, summary, a[href], [tabindex='0']")) {
		if (e.matches(".skip, .unseen, #bench, .keys-scroll, .how-body") || e.closest("[inert]")) continue;
		const seen = e.checkVisibility({visibilityProperty: true}) && getComputedStyle(e).clipPath === "none";
		if (!seen) continue;
		const on = getComputedStyle(e).opacity === "0" ? e.closest("label") : e;
		on.scrollIntoView({block: "nearest", inline: "nearest"});
		const r = on.getBoundingClientRect();
		const [x, y] = [r.x + r.width / 2, r.y + r.height / 2];
		if (r.width < 4 || r.height < 4) { out.push(name(e) + " is " + r.width + " × " + r.height); continue; }
		if (r.right > innerWidth + 1 || r.left < -1) { out.push(name(e) + " is cut off at the side"); continue; }
		const there = document.elementFromPoint(x, y);
		const label = there?.closest("label");
		if (!there || !(on.contains(there) || label && (label.control === e || label.contains(e)))) {
			out.push(name(e) + " lies under " + (there ? (there.id || there.className || there.localName) : "the ` +
	`window's edge"));
		}
	}
	return out;
})`

// Every control of every step, strip and dialog can be pressed where it is seen, in windows of eight sizes: a laptop's,
// low ones, a phone's either way up, and a page enlarged to 200 %.
func TestEveryControlIsInReach(t *testing.T) {
	p := open(t, how{used: true})
	for _, size := range [][2]int64{{1440, 900}, {1366, 650}, {1180, 820}, {960, 540}, {844, 390}, {720, 450},
		{390, 844}, {360, 640}} {
		p.resize(size[0], size[1])
		p.drawn()
		look := func(what, within string) {
			t.Helper()
			if list := eval[[]string](p, fmt.Sprintf("%s(%q)", unreachable, within)); len(list) > 0 {
				p.keep(fmt.Sprintf("faults/reach-%dx%d-%s", size[0], size[1], strings.ReplaceAll(what, " ", "-")))
				t.Errorf("%d × %d, %s: %s", size[0], size[1], what, strings.Join(list, "; "))
			}
		}
		press := func(selector string) {
			t.Helper()
			eval[bool](p, fmt.Sprintf(`(document.querySelector(%q).click(), true)`, selector))
		}
		eval[bool](p, `(() => { const up = document.getElementById("draw-up");
			if (up.checkVisibility() && up.getAttribute("aria-expanded") !== "true") up.click(); return true; })()`)
		for _, step := range []string{"silhouettes", "repeat", "panel", "subject", "paint", "sheet", "make"} {
			eval[bool](p, fmt.Sprintf(`(() => { const head = document.querySelector("[data-step=%s] .step-head");
				if (head.getAttribute("aria-expanded") !== "true") head.click();
				for (const fold of document.querySelectorAll("details")) fold.open = true;
				for (const id of ["rarer-open", "held-open"]) {
					const open = document.getElementById(id);
					if (open.getAttribute("aria-expanded") !== "true") open.click();
				}
				return true; })()`, step))
			look(step, "body")
			if top := eval[float64](p, fmt.Sprintf(`(() => {
				document.querySelector("[data-step=panel] .step-head").click();
				document.querySelector("[data-step=%[1]s] .step-head").click();
				if (%[1]q === "panel") document.querySelector("[data-step=panel] .step-head").click();
				const list = document.getElementById("steps").getBoundingClientRect();
				const head = document.querySelector("[data-step=%[1]s] .step-head").getBoundingClientRect();
				return head.top < list.top - 1 || head.bottom > list.bottom + 1 ? head.top - list.top : 0; })()`,
				step)); top != 0 {
				t.Errorf("%d × %d: the step %s opens with its head %g px from the list's top", size[0], size[1], step,
					top)
			}
		}
		eval[bool](p, `(() => { const up = document.getElementById("draw-up");
			if (up.getAttribute("aria-expanded") === "true") up.click(); return true; })()`)
		eval[bool](p, `(openwork.select("m2"), true)`)
		look("a copy in hand", "body")
		open := `(() => { const it = document.getElementById(%q); const shown = it.checkVisibility();
			if (shown) it.click(); return shown; })()`
		if eval[bool](p, fmt.Sprintf(open, "hand-open")) {
			look("the strip of the copy in hand drawn out", "#hand")
			press("#hand-open")
		}
		eval[bool](p, `(openwork.select(""), true)`)
		if eval[bool](p, fmt.Sprintf(open, "more")) {
			look("More", "#files")
			press("#more")
		}
		for _, name := range []string{"keys", "how", "bring"} {
			eval[bool](p, fmt.Sprintf(`(document.getElementById(%q).showModal(), true)`, name))
			look("the dialog "+name, "body")
			eval[bool](p, fmt.Sprintf(`(document.getElementById(%q).close(), true)`, name))
		}
	}
}
