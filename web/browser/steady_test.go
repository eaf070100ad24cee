package browser

import (
	"fmt"
	"strings"
	"testing"
)

// Nothing on the page moves while a pointer is down: a copy is pressed that was not in hand, dragged far enough to make
// faults, and back, with the browser's own record of what shifted and the places of everything held against each
// other, on a wide window, a low one and a phone's.
func TestNothingMovesUnderTheHand(t *testing.T) {
	const places = `JSON.stringify([...document.querySelectorAll(
		".step-head, #groups, #group-words, #fit-row, #cell, #hand, #hand-fields > *, .hand-buttons, #bench, #foot, ` +
		`.stepper, #draw-up, .head")]
		.filter((e) => e.checkVisibility()).map((e) => { const r = e.getBoundingClientRect();
			return (e.id || e.className || e.localName) + " " + [r.x, r.y, r.width, ` +
		`r.height].map(Math.round).join(" "); }))`
	p := open(t, how{})
	eval[bool](p, `(window.shifts = [], new PerformanceObserver((list) => {
		for (const e of list.getEntries()) if (window.down) shifts.push(...e.sources.map(({node}) => node?.id || `+
		`node?.className || String(node?.nodeName)));
	}).observe({type: "layout-shift", buffered: false}), true)`)
	for _, size := range [][2]int64{{1440, 900}, {1280, 657}, {960, 540}, {390, 844}} {
		p.resize(size[0], size[1])
		p.settled()
		eval[bool](p, `(openwork.select(""), true)`)
		s := p.whole()
		var c copyOf
		for _, each := range field(t, p.draft()) {
			if each = each.deepen(); s.free(s.on(each.inner)) {
				c = each
				break
			}
		}
		from := s.on(c.inner)
		p.mouse("mouseMoved", from.x, from.y)
		p.drawn()
		before := eval[string](p, places)
		eval[bool](p, `(window.down = true)`)
		p.press(from)
		p.drawn()
		look := func(what string) {
			t.Helper()
			if now := eval[string](p, places); now != before {
				t.Errorf("%d × %d: %s: %s", size[0], size[1], what, firstDifference(before, now))
			}
		}
		look("the copy is taken up")
		to := point{from.x + 40, from.y + 25}
		p.pull(from, to, 5)
		p.drawn()
		look("dragged onto another")
		p.pull(to, from, 3)
		p.drawn()
		look("dragged back")
		shifts := eval[[]string](p, `(window.down = false, shifts.splice(0))`)
		p.release(from)
		if len(shifts) > 0 {
			t.Errorf("%d × %d: shifted while the pointer was down: %s", size[0], size[1], strings.Join(shifts, ", "))
		}
	}
}

// firstDifference names what two lists of places do not share.
func firstDifference(a, b string) string {
	x, y := strings.Split(a, `","`), strings.Split(b, `","`)
	var out []string
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			out = append(out, fmt.Sprintf("%s became %s", x[i], y[i]))
		}
	}
	if len(x) != len(y) {
		out = append(out, fmt.Sprintf("%d things are seen, %d were", len(y), len(x)))
	}
	return strings.Join(out, "; ")
}
