package browser

import (
	"fmt"
	"testing"

	"openwork/geometry"
	"openwork/geometry/geometrytest"
	"openwork/pattern"
	"openwork/pattern/draft"

	"github.com/paulmach/orb"
)

// focused says what has the focus, "" when the page's body has it or it cannot be seen.
const focused = `(() => {
	const e = document.activeElement;
	if (!e || e === document.body || e.matches(":disabled")) return "";
	if (!e.checkVisibility({visibilityProperty: true})) return "";
	const {key, act} = e.dataset;
	return e.id || key || act || e.getAttribute("aria-label") || e.innerText.slice(0, 40) || e.localName;
})()`

// steady waits until the focus, two frames after a press and at most two seconds later, is where it should be.
const steady = `(async (want) => {
	const frame = () => new Promise((go) => requestAnimationFrame(() => setTimeout(go, 0)));
	const frames = async (n) => { for (; n > 0; n--) await frame(); };
	await frames(3);
	for (let n = 0; n < 60; n++) {
		const at = ` + focused + `;
		if (at && (!want || document.activeElement.matches(want))) return "";
		await frames(2);
	}
	return ` + focused + ` || "the page's body";
})`

// enter gives a control the focus and presses Enter on it; the focus must then be on something that can be seen, and on
// want where that is said.
func (p *tab) enter(selector, want string) {
	p.t.Helper()
	p.wait(selector+" to press", fmt.Sprintf(`(() => { const e = document.querySelector(%q);
		if (!e || e.disabled || !e.checkVisibility()) return false;
		e.focus(); return document.activeElement === e; })()`, selector))
	p.strike("Enter", 0)
	p.rests(selector, want)
}

// rests holds where the focus is after a press.
func (p *tab) rests(press, want string) {
	p.t.Helper()
	if at := eval[string](p, fmt.Sprintf("%s(%q)", steady, want)); at != "" {
		p.t.Errorf("after %s the focus is on %s, not on %q", press, at, want)
	}
}

// Presses that take their own control away, hide it or switch it off, and dialogs that close, leave the focus on what
// was made or on the next place, never on the page's body.
func TestFocusIsNeverLost(t *testing.T) {
	p := open(t, how{})
	p.settled()

	p.cell("207")
	p.enter("[data-act=undo]", "[data-act=redo]")
	p.enter("[data-act=redo]", "[data-act=undo]")
	for _, goThrough := range geometrytest.Share(t, []func(*tab){focusInDialogs, focusInSilhouettes, focusInSubject,
		focusInHand, focusInFaults, focusInEmpty}, 3) {
		goThrough(p)
	}
}

func focusInDialogs(p *tab) {
	p.enter("#help", "#keys button[type=submit]")
	p.enter("#keys button[type=submit]", "#help")
	p.enter("#history-open", "#history [aria-current]")
	p.enter("#history-list li:last-child button", "#history [aria-current]")
	p.strike("Escape", 0)
	p.rests("Escape in the steps", "#history-open")
	p.enter("[data-act=new]", "")
	p.enter(".notices #notice button", "")
	p.shelved()
	p.enter("#shelf-open", "#shelf button")
	p.wait("the shelf", `document.querySelectorAll("#shelf-list button:enabled").length > 1`)
	p.enter(`#shelf-list [aria-label^="Throw away"]:enabled`, "#ask button")
	p.enter("#ask-yes", "#shelf button")
	p.wait("the draft thrown away", `/thrown away/.test(document.getElementById("shelf-said").textContent)`)
	p.rests("throwing a draft away", "#shelf button")
	p.enter("#shelf-close", "#shelf-open")
	p.act("undo")
	p.settled()
}

func focusInSilhouettes(p *tab) {
	p.click("[data-step=silhouettes] .step-head")
	p.enter("#silhouettes [data-key^=place]", "")
	p.enter("#silhouettes [data-key^=copy]", "")
	p.enter("#silhouettes [data-key^=mirror]", "")
	p.enter("#silhouettes li:last-child [data-key^=discard]", "#silhouettes button, #silhouettes input")
	p.enter("#silhouettes [data-key^='motif']", "")
	p.enter("#silhouettes [data-key^='draw']", "#bench")
	p.enter("#draw [data-act=draw-done]", "#bench")
	p.enter("#bring-in", "#bring *")
	p.choose("#bring-file", carpScan(p.t, p))
	p.wait("a piece", `!document.getElementById("bring-add").disabled`)
	p.enter("#bring-add", ".silhouette-name input")
	p.enter("#bring-in", "#bring *")
	p.enter("#bring [data-close]", "#bring-in")
}

func focusInSubject(p *tab) {
	p.click("[data-step=subject] .step-head")
	p.enter("#subject-set", "[data-subject]")
	p.enter("[data-subject]", "[data-subject]")
	p.enter("[data-subject]", "[data-subject]")
	p.enter("#subject-remove", "#subject-in")
	p.click("[data-step=paint] .step-head")
	p.enter("#swatch-new", ".swatch-name")
	p.enter("#swatch-new", ".swatch-name")
	p.enter("#swatches li:first-child button", ".swatches *")
	p.enter("#swatches li:first-child button", "#swatch-new, .swatches *")
	p.click("[data-step=make] .step-head")
	p.enter("#picture", "")
	p.download("*.png")
	p.rests("the picture made", "#picture")
}

func focusInHand(p *tab) {
	eval[bool](p, `(openwork.select(JSON.parse(openwork.view()).motifs[0].id), true)`)
	p.drawn()
	p.enter("#hand-another", "")
	p.enter("#hand-remove", "#hand-motif")
	p.act("undo")
	p.act("undo")
	p.enter("#copies-open", "#copies-open")
	p.enter("#copies-list button", ".copy-row")
	for range 30 {
		if eval[bool](p, `document.getElementById("copies-after").disabled`) {
			break
		}
		p.enter("#copies-after", "#copies button")
	}
	p.enter("#copies-before", "#copies button")
	p.enter("#copies-close", "#copies-open")
}

func focusInFaults(p *tab) {
	p.lay(draft.Repeat{Group: "p1", A: 120, B: 110, Gamma: 90}, ring(24, 12), orb.Point{60, 55})
	p.settled()
	p.enter("#fault-which", "#faults button")
	p.wait("a mend", `document.querySelector("#faults .fix")`)
	p.enter("#faults .fix", "")
	p.settled()
	p.rests("a mend of the list", "")
	p.act("undo")
	p.settled()
	p.wait("the mend beside the line", `document.getElementById("mend").checkVisibility()`)
	p.enter("#mend", "")
	p.settled()
	p.rests("the mend beside the line", "")
	p.act("undo")
	p.click("[data-step=sheet] .step-head")
	p.enter("#tie-all", "")
	p.wait("ties", `(JSON.parse(openwork.save()).ties ?? []).length > 0`)
	p.rests("every island tied", "#tie-all")
	p.act("next-tie")
	p.enter("#tie-out", "#step-sheet *")
	eval[bool](p, `(document.getElementById("bench").focus(), true)`)
	p.strike("Escape", 0)
	p.strike("n", 0)
	p.strike("Delete", 0)
	p.rests("Delete", "#bench")
}

func focusInEmpty(p *tab) {
	p.act("new")
	p.wait("the empty bench", `document.querySelectorAll("#over .scenes button").length >= 3`)
	p.enter("#over .scenes button", "#bench")
	p.wait("the scene", `JSON.parse(openwork.view()).motifs.length > 0`)
	p.rests("a scene", "#bench")
	for _, m := range p.view().Motifs {
		p.command(pattern.Command{Name: "remove", ID: m.ID})
	}
	p.wait("nothing placed", `document.getElementById("over").dataset.kind === "empty"`)
	p.enter("#over button", "#step-silhouettes button")
}

// A fault that is gone to by a key is said, and lies in the middle of the panel's window; the keys stay on the panel.
func TestFaultByKeyIsSaidAndShown(t *testing.T) {
	p := open(t, how{used: true})
	p.lay(draft.Repeat{Group: "p1", A: 120, B: 110, Gamma: 90}, ring(24, 12), orb.Point{60, 55})
	p.settled()
	if role := eval[string](p, `document.getElementById("fault-said").getAttribute("role")`); role != "status" {
		t.Fatalf("what is said of a fault has the role %q", role)
	}
	eval[bool](p, `(document.getElementById("bench").focus(), true)`)
	p.strike("f", 0)
	p.wait("the fault to be said", `document.getElementById("fault-said").textContent.includes(
		JSON.parse(openwork.view()).faults[JSON.parse(openwork.view()).fault]?.text ?? "?")`)
	p.rests("the key f", "#bench")
	v := p.view()
	at := eval[orb.Point](p, `(() => { const b = document.getElementById("bench");
		const [zoom, x, y] = JSON.parse(openwork.view()).bench;
		return [((b.clientWidth + 40) / 2 - x) / zoom, (y - (b.clientHeight + 28) / 2) / zoom]; })()`)
	nearest := -1.0
	for _, c := range field(t, p.draft()) {
		m := c.bound.Center()
		if d := geometry.PointDistance(m, at); nearest < 0 || d < nearest {
			nearest = d
		}
	}
	if v.Fault < 0 || nearest > 13 {
		t.Errorf("fault %d; the nearest island is %.1f mm from the window's middle %v", v.Fault, nearest, at)
	}
}
