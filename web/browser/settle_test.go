package browser

import (
	"math"
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// A copy let go of on top of another settles in the nearest place that holds, by the switch and by the key, and one
// step back takes drag and settling away together. Without either it stays where the hand left it.
func TestDraggedCopySettles(t *testing.T) {
	p := open(t, how{used: true})
	p.lay(draft.Repeat{Group: "p2", A: 120, B: 100, Gamma: 90}, leaning, orb.Point{30, 25})
	p.wholeCopies()
	clear := func() bool {
		l, err := pattern.NewLayout(p.draft(), nil)
		if err != nil {
			t.Fatal(err)
		}
		live := sheet.Check(l, nil)
		return len(live.Overlaps)+len(live.Bridges) == 0
	}

	// Half of the way to a rotation point: there it lies over its own half-turn.
	over := func() {
		s := p.whole()
		c := p.takeUp(s, false)
		from, by := s.on(c.inner), orb.Point{-24, -19}
		a, b := s.on(orb.Point{}), s.on(orb.Point{by[0], by[1]})
		p.drag(from, point{from.x + b.x - a.x, from.y + b.y - a.y})
		p.settled()
	}
	for name, by := range map[string]struct{ before, after func() }{
		"switch": {func() { p.click("#hand-settle") }, func() { p.click("#hand-settle") }},
		"key": {func() { p.key(input.DispatchKeyEventTypeKeyDown, "l", 0, false) },
			func() { p.key(input.DispatchKeyEventTypeKeyUp, "l", 0, false) }},
	} {
		t.Run(name, func(t *testing.T) {
			before := p.text()
			eval[bool](p, `(document.querySelectorAll("#notice button").forEach((close) => close.click()), true)`)
			p.wait("what was said before to go", `!document.getElementById("notice").innerText`)
			s := p.whole()
			p.takeUp(s, false)
			by.before()
			over()
			p.wait("word that it settled", `/settled where it holds/.test(document.getElementById("notice").innerText)`)
			by.after()
			if !clear() {
				t.Error("it settled where it does not hold")
			}
			if p.text() == before {
				t.Error("nothing was moved")
			}
			if label := p.view().Undo; label != "place of a motif" {
				t.Errorf("Undo is of %q", label)
			}
			p.strike("z", control)
			p.wait("one step back to undo drag and settling", `openwork.save() === `+strconv.Quote(before))
		})
	}

	over()
	if clear() {
		t.Error("without the switch it should lie where the hand left it")
	}
	if d := p.draft().Motifs[0].At; math.Abs(d[0]-6) > 2 || math.Abs(d[1]-6) > 2 {
		t.Errorf("the hand left it at about 6, 6; it lies at %v", d)
	}
}
