package browser

import (
	"fmt"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// allSteps are the steps of the job.
var allSteps = []string{"silhouettes", "repeat", "panel", "subject", "paint", "sheet", "make"}

// furnish opens a draft that has something for every step to show: a subject, swatches, colours, a copy coloured by
// hand.
func (p *tab) furnish() {
	p.t.Helper()
	p.scene("scene-heron-before-carp")
	for _, s := range []draft.Swatch{{Name: "Bone", Colour: "#e8dcc0", Note: "titanium white, raw umber"},
		{Name: "Leaf", Colour: "#175f4a"}} {
		p.command(pattern.Command{Name: "swatch", Swatches: []draft.Swatch{s}})
	}
	d := p.draft()
	p.command(pattern.Command{Name: "ground", ID: d.Swatches[0].ID})
	p.command(pattern.Command{Name: "colour", ID: d.Motifs[0].ID, Text: d.Swatches[1].ID})
	p.settled()
}

// scene opens one of the drafts to begin with.
func (p *tab) scene(file string) {
	p.t.Helper()
	if said := eval[string](p, fmt.Sprintf(`fetch("%s.openwork.json").then((r) => r.text())
		.then((text) => openwork.open(text))`, file)); said != "{}" {
		p.t.Fatalf("%s: %s", file, said)
	}
	p.settled()
}

// tap presses a control by script, wherever it is.
func (p *tab) tap(selector string) {
	p.t.Helper()
	eval[bool](p, fmt.Sprintf(`(document.querySelector(%q).click(), true)`, selector))
}

// unfold opens a step of the job, with all that is folded away in it.
func (p *tab) unfold(step string) {
	p.t.Helper()
	eval[bool](p, fmt.Sprintf(`(() => {
		const up = document.getElementById("draw-up");
		if (up.checkVisibility() && up.getAttribute("aria-expanded") !== "true") up.click();
		const head = document.querySelector("[data-step=%s] .step-head");
		if (head.getAttribute("aria-expanded") !== "true") head.click();
		for (const fold of document.querySelectorAll("details")) fold.open = true;
		for (const id of ["rarer-open", "held-open"]) {
			const open = document.getElementById(id);
			if (open.getAttribute("aria-expanded") !== "true") open.click();
		}
		return true;
	})()`, step))
}

// allAtOnce has every step open at the same time, which the page itself never has: for what does not depend on how they
// lie.
const allAtOnce = `(() => {
	for (const step of document.querySelectorAll(".step")) {
		step.classList.add("open");
		step.querySelector(".step-body").hidden = false;
	}
	return true;
})()`

// letDown lets the ticket down on a narrow screen.
func (p *tab) letDown() {
	p.t.Helper()
	eval[bool](p, `(() => { const up = document.getElementById("draw-up");
		if (up.checkVisibility() && up.getAttribute("aria-expanded") === "true") up.click(); return true; })()`)
}

// everyState goes through the states of the page: every step, the strip of what is in hand, faults, notices, every
// dialog, the drawing bench and the empty one. see is told of each, with a selector of the part that is new in it.
func everyState(t *testing.T, p *tab, see func(state, within string)) {
	t.Helper()
	p.furnish()
	see("the page as it opens", "html")
	for _, step := range allSteps {
		p.unfold(step)
		if step == "subject" {
			see("nothing taken up in the step Subject", "[data-step=subject]")
			p.tap("[data-subject]")
		}
		see("the step "+step, fmt.Sprintf("[data-step=%s]", step))
	}
	eval[bool](p, allAtOnce)
	see("all steps at once", "#steps")
	p.unfold("repeat")
	p.letDown()
	see("a subject in hand", "#hand")
	inHand(p, see)
	faulty(t, p, see)
	dialogs(t, p, see)
	drawing(t, p, see)
	p.act("new")
	p.wait("the empty bench", `document.getElementById("over").dataset.kind === "empty"`)
	see("the empty bench", "html")
}

// inHand takes a copy up, and ties.
func inHand(p *tab, see func(state, within string)) {
	p.t.Helper()
	eval[bool](p, `(openwork.select(JSON.parse(openwork.view()).motifs[0].id), true)`)
	p.drawn()
	if eval[bool](p, `document.getElementById("hand-open").checkVisibility()`) {
		p.tap("#hand-open")
	}
	see("a copy in hand", "#hand")
	p.tap("#copies-open")
	p.drawn()
	see("the list of copies", "#copies")
	p.tap("#copies-close")
	eval[bool](p, `(openwork.select(""), true)`)
	if eval[bool](p, `document.getElementById("more").checkVisibility()`) {
		p.tap("#more")
		see("what is under More", ".head")
		p.tap("#more")
	}
}

// faulty makes copies overlap, and has the page say something and keep nothing.
func faulty(t *testing.T, p *tab, see func(state, within string)) {
	t.Helper()
	p.command(pattern.Command{Name: "cell", Values: map[string]float64{"a": 120}})
	p.settled()
	p.tap("#fault-which")
	see("the list of faults", "#foot")
	p.strike("Escape", 0)
	p.strike("z", control)
	p.settled()
	eval[bool](p, `(document.getElementById("unkept-said").textContent = "There is no room in this browser.",
		document.getElementById("newer-said").textContent = "There is a newer version.",
		document.getElementById("unkept").hidden = document.getElementById("newer").hidden = false, true)`)
	p.tap("[data-act=new]")
	p.act("undo")
	p.tap("#figure-look")
	eval[string](p, `(document.querySelector("#photo-file").dispatchEvent(new Event("change")), "")`)
	see("signs that stay, and a notice", ".lastings")
	see("a notice", ".notices")
	eval[bool](p, `(document.getElementById("unkept").hidden = document.getElementById("newer").hidden = true,
		document.querySelectorAll(".notices button").forEach((b) => b.click()), true)`)
}

// dialogs opens each.
func dialogs(t *testing.T, p *tab, see func(state, within string)) {
	t.Helper()
	for _, d := range [][2]string{{"help", "keys"}, {"history-open", "history"}, {"shelf-open", "shelf"}} {
		p.tap("#" + d[0])
		if d[1] == "shelf" {
			p.wait("the shelf", `document.querySelectorAll("#shelf-list button").length > 0`)
		}
		see("the dialog "+d[1], "#"+d[1])
		eval[bool](p, fmt.Sprintf(`(document.getElementById(%q).close(), true)`, d[1]))
	}
	p.tap(".how-open")
	see("the dialog how", "#how")
	eval[bool](p, `(document.getElementById("how").close(), true)`)
	for _, d := range []string{"ask", "link"} {
		eval[bool](p, fmt.Sprintf(`(() => { document.getElementById("ask-name").textContent = "Throw it away?";
			document.getElementById("ask-text").innerHTML = "<p>The draft will be gone.</p>";
			document.getElementById("ask-yes").textContent = "Throw away";
			document.getElementById("ask-no").textContent = "Keep it";
			document.getElementById(%q).showModal(); return true; })()`, d))
		see("the dialog "+d, "#"+d)
		eval[bool](p, fmt.Sprintf(`(document.getElementById(%q).close(), true)`, d))
	}
	p.tap("#bring-in")
	see("bringing in, before a file", "#bring")
	if eval[int](p, "innerWidth") > 820 {
		p.choose("#bring-file", carpScan(t, p))
		p.wait("the outline over the scan", `document.querySelectorAll("#bring-outline path").length > 0 &&
			document.getElementById("bring-busy").hidden`)
	} else { // the same choices, without the wait for what was traced
		eval[bool](p, `(document.getElementById("bring-choices").hidden = false, true)`)
	}
	eval[bool](p, `(document.getElementById("bring-place").open = true, true)`)
	see("bringing in a scan", "#bring")
	p.tap("#bring [data-close]")
}

// drawing opens the drawing bench, each of its ways.
func drawing(t *testing.T, p *tab, see func(state, within string)) {
	t.Helper()
	p.tap("#draw-new")
	p.wait("the drawing", `!document.getElementById("draw").hidden`)
	p.trace(p.plane(), oval(orb.Point{5, 0}, 25, 40)...)
	for _, way := range []string{"free", "points", "move"} {
		p.tap("[name=way][value=" + way + "]")
		p.drawn()
		see("drawing, the way "+way, "#draw")
	}
	p.unfold("silhouettes")
	see("drawing by numbers", "[data-step=silhouettes]")
	p.letDown()
	p.act("draw-done")
	p.act("undo")
	p.settled()
}
