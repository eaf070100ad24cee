package browser

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/paulmach/orb"
)

// entry carries out one gesture and holds that it changed the draft, that one step back brings back what was before,
// and one forward what came of it.
func (p *tab) entry(what string, gesture func()) {
	p.t.Helper()
	before := p.text()
	gesture()
	p.wait(what+" to change the draft",
		fmt.Sprintf(`openwork.save() !== %q && !JSON.parse(openwork.view()).inHand`, before))
	after := p.text()
	p.strike("z", control)
	p.wait("one step back to undo all of: "+what, fmt.Sprintf(`openwork.save() === %q`, before))
	p.strike("z", control|shift)
	p.wait("one step forward to do again: "+what, fmt.Sprintf(`openwork.save() === %q`, after))
}

// still carries out something that may change no draft.
func (p *tab) still(what string, gesture func()) {
	p.t.Helper()
	before, was := p.text(), p.view().Undo
	gesture()
	p.drawn()
	if p.text() != before {
		p.t.Errorf("%s changed the draft", what)
	}
	if now := p.view().Undo; now != was {
		p.t.Errorf("%s made an entry in the history: Undo was %q, now it is %q", what, was, now)
	}
}

// takeUp presses a copy that an operation with the given sign of its determinant gives, inside the margin and in the
// canvas's free part, and returns it.
func (p *tab) takeUp(s sight, mirrored bool) copyOf {
	p.t.Helper()
	d := p.draft()
	field := field(p.t, d)
	best, least := copyOf{}, math.Inf(1)
	for _, c := range field {
		if (c.op != 0) != mirrored || !d.FieldBound().Contains(c.bound.Min) || !d.FieldBound().Contains(c.bound.Max) {
			continue
		}
		far := math.Hypot(c.seat[0]-d.Panel.Width/2, c.seat[1]-d.Panel.Height/2)
		c = c.deepen()
		if at := s.on(c.inner); far < least && s.free(at) && !nearHandle(d, s, at, 30) &&
			!nearHandle(d, s, s.on(c.seat), 120) {
			best, least = c, far
		}
	}
	if math.IsInf(least, 1) {
		p.t.Fatal("there is no copy to take up")
	}
	p.strike("Escape", 0)
	p.clickAt(s.on(best.inner))
	id := d.Motifs[best.motif].ID
	p.wait("the copy in hand", fmt.Sprintf(`JSON.parse(openwork.view()).selected === %q`, id))
	return best
}

// grip finds a handle with the mouse: it goes outward from a copy's origin, along a direction of the panel, until the
// cursor says that there is something to hold.
func (p *tab) grip(s sight, c copyOf, direction orb.Point) point {
	p.t.Helper()
	o := s.on(c.seat)
	l := math.Hypot(direction[0], direction[1])
	for r := 32.0; r < 260; r += 8 {
		at := point{o.x + r*direction[0]/l, o.y - r*direction[1]/l}
		p.mouse(chromedp.MouseMoved, at.x, at.y)
		if eval[string](p, `document.getElementById("bench").style.cursor`) == "pointer" {
			r += 6 // the mouse feels a handle before it stands on it
			return point{o.x + r*direction[0]/l, o.y - r*direction[1]/l}
		}
	}
	p.t.Fatalf("there is no handle on the way %v from the copy in hand", direction)
	return point{}
}

func TestHandles(t *testing.T) {
	p := open(t, how{used: true, width: 1440, height: 900})
	for _, mirrored := range []bool{false, true} {
		s := p.whole()
		c := p.takeUp(s, mirrored)
		o := s.on(c.seat)
		// Turn by the handle over the copy: what is seen turns as the hand does, on a mirrored copy too.
		const turn = 40 * math.Pi / 180
		from := p.grip(s, c, c.up)
		sin, cos := math.Sincos(turn)
		to := point{o.x + (from.x-o.x)*cos - (from.y-o.y)*sin, o.y + (from.x-o.x)*sin + (from.y-o.y)*cos}
		p.entry("turning by the handle", func() { p.drag(from, to) })
		now := field(t, p.draft())[c.name]
		went := math.Atan2(c.up[0]*now.up[1]-c.up[1]*now.up[0], c.up[0]*now.up[0]+c.up[1]*now.up[1])
		if math.Abs(went+turn) > 0.01 { // the page's y runs down
			t.Errorf("mirrored %v: the hand turned by %.1f°, the copy by %.1f°", mirrored, -turn*180/math.Pi,
				went*180/math.Pi)
		}
		if far := math.Hypot(now.seat[0]-c.seat[0], now.seat[1]-c.seat[1]); far > 1e-3 {
			t.Errorf("mirrored %v: turning moved the copy by %.3f mm", mirrored, far)
		}
		// Scale by the handle beside it.
		from = p.grip(s, now, now.along)
		p.entry("scaling by the handle", func() { p.drag(from, point{o.x + 1.3*(from.x-o.x), o.y + 1.3*(from.y-o.y)}) })
		grown := field(t, p.draft())[c.name]
		if f := math.Hypot(grown.up[0], grown.up[1]) / math.Hypot(now.up[0], now.up[1]); math.Abs(f-1.3) > 0.02 {
			t.Errorf("mirrored %v: the hand went 1.3 times as far, the copy grew %.3f times", mirrored, f)
		}
		p.strike("z", control)
		p.strike("z", control)
	}
}

func TestKeysAndFields(t *testing.T) {
	p := open(t, how{used: true})
	s := p.whole()
	c := p.takeUp(s, true)
	move := func(name string, mods int64, times int, want orb.Point) {
		t.Helper()
		was := field(t, p.draft())[c.name]
		p.entry(fmt.Sprintf("%s held for %d steps", name, times), func() { p.hold(name, mods, times) })
		now := field(t, p.draft())[c.name]
		have := orb.Point{now.seat[0] - was.seat[0], now.seat[1] - was.seat[1]}
		if math.Hypot(have[0]-want[0], have[1]-want[1]) > 1e-3 {
			t.Errorf("%s held for %d steps moved the copy in hand by %.3f mm, not %v", name, times, have, want)
		}
	}
	move("ArrowRight", 0, 5, orb.Point{5, 0})
	move("ArrowUp", shift, 2, orb.Point{0, 20})
	move("ArrowLeft", alt, 3, orb.Point{-0.3, 0})
	p.entry("turning by the keyboard", func() { p.hold("[", 0, 4) })
	p.entry("scaling by the keyboard", func() { p.hold(".", 0, 3) })
	fields := []struct {
		name, text string
		value      func(x, y, turn, scale float64) float64
		want       float64
	}{
		{"x", "-40.5", func(x, _, _, _ float64) float64 { return x }, -40.5},
		{"y", "12,25", func(_, y, _, _ float64) float64 { return y }, 12.25},
		{"turn", "-30", func(_, _, turn, _ float64) float64 { return turn }, -30},
		{"scale", "0.85", func(_, _, _, scale float64) float64 { return scale }, 0.85},
		{"x", "2 in", func(x, _, _, _ float64) float64 { return x }, 50.8},
	}
	for _, f := range fields {
		p.entry("the field "+f.name, func() { p.fill(fmt.Sprintf(`[data-field="place.%s"]`, f.name), f.text) })
		for _, m := range p.view().Motifs {
			if m.ID == p.view().Selected && math.Abs(f.value(m.X, m.Y, m.Turn, m.Scale)-f.want) > 1e-4 {
				t.Errorf("%s typed into %s gives %+v", f.text, f.name, m)
			}
		}
	}
	p.still("a word in a number's field", func() { p.fill(`[data-field="place.x"]`, "wide") })
	if said := p.said(); !containsAll(said, "wide", "not a number") {
		t.Errorf("a word in a number's field brings %q", said)
	}
	p.strike("Escape", 0)
}

func TestViewChangesNoDraft(t *testing.T) {
	p := open(t, how{used: true})
	s := p.whole()
	p.takeUp(s, false)
	blank := point{s.bench.X + s.bench.Width - 60, s.bench.Y + 200}
	p.still("letting go", func() { p.clickAt(blank) })
	if v := p.view(); v.Selected != "" {
		t.Errorf("a press beside the panel should let go of the motif; in hand is %q", v.Selected)
	}
	before := p.shot()
	p.still("dragging the table", func() { p.drag(blank, point{blank.x - 120, blank.y + 80}) })
	if same(before, p.shot(), s) {
		t.Error("dragging the table should move the view")
	}
	zoom := p.view().Zoom
	p.still("the wheel", func() { p.wheel(s.on(s.centre), -240) })
	if now := p.view().Zoom; now <= zoom {
		t.Errorf("the wheel turned away should bring the panel closer; %g px/mm became %g", zoom, now)
	}
	s = p.whole()
	zoom = p.view().Zoom
	// The first of two fingers may come down on a copy: it must not be dragged along.
	at := s.on(p.takeUp(s, false).inner)
	p.still("a pinch", func() { p.pinch(at, 40, 120) })
	if now := p.view().Zoom; math.Abs(now/zoom-3) > 0.2 {
		t.Errorf("two fingers went three times as far apart; %g px/mm became %g", zoom, now)
	}
}

// pinch puts two fingers down beside each other, spreads them from one distance to another, and lifts them.
func (p *tab) pinch(at point, from, to float64) {
	p.t.Helper()
	touch := func(kind input.DispatchTouchEventType, apart ...float64) {
		p.t.Helper()
		e := input.DispatchTouchEventParams{Type: kind, TouchPoints: []*input.TouchPoint{}}
		for i, by := range apart {
			id := float64(i + 1)
			e.TouchPoints = append(e.TouchPoints, &input.TouchPoint{X: at.x + by, Y: at.y, ID: &id})
		}
		limited, cancel := context.WithTimeout(p.ctx, patience)
		defer cancel()
		if _, err := chromedp.Call(limited, input.DispatchTouchEvent, e); err != nil {
			p.t.Fatalf("the fingers: %v", err)
		}
	}
	touch(input.DispatchTouchEventTypeTouchStart, -from/2)
	touch(input.DispatchTouchEventTypeTouchStart, -from/2, from/2)
	for i := 1; i <= 6; i++ {
		half := (from + (to-from)*float64(i)/6) / 2
		touch(input.DispatchTouchEventTypeTouchMove, -half, half)
	}
	touch(input.DispatchTouchEventTypeTouchEnd)
}
