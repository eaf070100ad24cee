package browser

import (
	"fmt"
	"strings"
	"testing"

	"openwork/geometry/geometrytest"
)

// The first minute: three hints, each at the place where it is needed, one after the other, gone for good once done.
func TestFirstMinute(t *testing.T) {
	for _, c := range geometrytest.Share(t, []struct {
		name string
		end  func(*tab)
	}{{"followed", followHints}, {"closed", closeHints}}, 1) {
		t.Run(c.name, func(t *testing.T) { c.end(open(t, how{})) })
	}
}

// hinted waits until one hint is there, and no other; none where the name is "".
func (p *tab) hinted(name string) {
	p.t.Helper()
	p.wait("the hint "+name, fmt.Sprintf(`(() => { const all = document.querySelectorAll(".first-hint");
		const is = %q; return is ? all.length === 1 && all[0].dataset.hint === is : !all.length; })()`, name))
}

// followHints does what each hint says.
func followHints(p *tab) {
	p.t.Helper()
	p.hinted("drag")
	if words := eval[string](p, `document.querySelector(".saying > .first-hint").innerText`); !containsAll(words,
		"press any copy and drag") {
		p.t.Errorf("the first hint reads %q", words)
	}
	s := p.whole()
	from := s.on(p.takeUp(s, false).inner)
	p.hinted("drag") // a press alone is no drag
	p.entry("a copy dragged", func() { p.drag(from, point{from.x + 12, from.y + 9}) })
	p.hinted("group")
	p.keep("first-minute")

	p.reload()
	p.hinted("group")
	chooseGroup(p, "p2")
	p.hinted("own")
	if !eval[bool](p, `document.querySelector("[data-step=silhouettes] .first-hint").checkVisibility()`) {
		p.t.Error("the third hint cannot be seen at step 1 while it is closed")
	}
	p.click("[data-step=silhouettes] .step-head")
	p.click("#draw-new")
	p.trace(p.plane(), oval([2]float64{5, 0}, 25, 40)...)
	p.click("[data-act=draw-done]")
	p.hinted("")

	p.reload()
	p.hinted("")
}

// closeHints presses each away.
func closeHints(p *tab) {
	p.t.Helper()
	for _, name := range []string{"drag", "group", "own"} {
		p.hinted(name)
		if name == "own" {
			break
		}
		p.click(".first-hint button")
	}
	p.reload()
	p.hinted("own") // those that were closed are gone for good
}

// Examples are offered from the first screen, with pictures that were fetched after the bench was set up; each opens in
// one press, and Undo brings back what was there. The guide says the whole job, with its pictures.
func TestExamplesAndGuide(t *testing.T) {
	for _, size := range geometrytest.Share(t, screens, 1) {
		p := open(t, how{width: size.width, height: size.height})
		start := p.text()
		late := `performance.getEntriesByType("resource").every((e) => !e.name.includes("/pictures/") ||
			e.startTime >= performance.getEntriesByName("openwork:first-drawing")[0].startTime)`
		if !eval[bool](p, late) || eval[int](p, `performance.getEntriesByType("resource").filter((e) =>
			/guide[.-]/.test(e.name) && !/[.](css|mjs)/.test(e.name)).length`) > 0 {
			t.Errorf("%s: the first load carries pictures, or the guide", size.name)
		}
		p.click("#examples-open")
		p.wait("four pictures", `(() => { const all = [...document.querySelectorAll("#examples-list img")];
			return all.length === 4 && all.every((i) => i.complete && i.naturalWidth > 0); })()`)
		p.drawn()
		p.keep("examples-" + size.name)
		p.click(`#examples-list [data-scene="scene-six-fold.openwork.json"]`)
		p.wait("the example", `JSON.parse(openwork.view()).repeat.group === "p6"`)
		p.strike("z", control)
		p.wait("what was there", fmt.Sprintf(`openwork.save() === %q`, start))
		p.readGuide()
		p.keep("guide-" + size.name)
		p.click("#guide-body [data-to=sheet]")
		p.wait("step 6, and no guide", `!document.getElementById("guide").open &&
			document.querySelector("[data-step=sheet]").classList.contains("open") &&
			document.getElementById("step-sheet").checkVisibility()`)
	}
}

// readGuide opens the guide and goes through it: every picture is there, and the cautions.
func (p *tab) readGuide() {
	p.t.Helper()
	eval[bool](p, `(document.getElementById("guide-open").click(), true)`) // it may lie under More
	p.wait("the guide's pictures", `(() => { const all = [...document.querySelectorAll("#guide-body img")];
		return all.length >= 7 && all.every((i) => i.complete && i.naturalWidth > 0 && i.alt); })()`)
	if words := eval[string](p, `document.getElementById("guide-body").innerText`); !containsAll(words, "silhouette",
		"repeat", "island", "tie", "bridge", "subject", "kerf", "hydrogen chloride", "respirator") ||
		len(strings.Fields(words)) > 600 {
		p.t.Errorf("the guide reads %q", words)
	}
}
