package desk

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/wasm/editor/desk/view"
)

// mode is what the pointer and the keys do on the canvas: to copies and the cell, to ties, to
// colours, to what stands in front, or to a drawing.
type mode interface {
	// Down takes hold of what lies under the pointer; false when that is nothing, and the press pans.
	Down(e view.Event) bool
	Move(e view.Event)
	Up(e view.Event)
	// Holding reports whether something is in hand.
	Holding() bool
	// LetGo ends what is in hand before something else changes the draft, Drop puts it back.
	LetGo(travel float64)
	Drop(travel float64)
	// Hover follows the pointer while nothing is pressed.
	Hover(e view.Event)
	// Key takes a key, or reports that it means nothing here.
	Key(name string, mods int, repeat bool) bool
	Cursor(e view.Event) string
	// Labels are the figures of what is in hand.
	Labels() []view.Label
}

// hand is where the pointers are, and what the one that was pressed first does.
type hand struct {
	fingers  map[int]orb.Point
	mode     mode // that was on when it was pressed, nil when nothing is
	panning  bool // it was pressed on nothing
	pinching bool
	pointer  int
	at       orb.Point // canvas px where it began
	last     orb.Point
	travel   float64 // px gone so far
	span     float64 // between two fingers, px
	before   func()  // takes back what the first finger chose; nil when no finger is down
}

// free forgets what is in hand; fingers stay on the canvas.
func (h *hand) free() { *h = hand{fingers: h.fingers} }

// holding reports whether a mode has something in hand.
func (h *hand) holding() bool { return h.mode != nil && h.mode.Holding() }

// idle reports whether the hand does nothing.
func (h *hand) idle() bool { return !h.panning && !h.pinching && !h.holding() }

// mode returns the mode that is on.
func (k *Desk) mode() mode {
	switch {
	case k.pen.IsOpen():
		return k.pen
	case k.ties.On:
		return k.ties
	case k.brush.On():
		return k.brush
	case k.subjects.On():
		return k.subjects
	}
	return k.copies
}

// Pointer takes one event of a pointer: kind "down", "move", "up", "cancel", "leave", or "rest" for a finger that stays
// where it was pressed, in CSS px on the canvas. It returns the name of the cursor to show. A place that is no number
// is taken for the last one.
func (k *Desk) Pointer(kind string, id int, x, y float64, mods int, device string) string {
	p, ok := view.OnCanvas(x, y)
	if !ok {
		p = k.hand.last
	}

	e := view.Event{At: p, From: p, Mods: mods, Touch: device == "touch"}
	switch kind {
	case "down":
		k.down(id, e)
	case "move":
		if k.hand.idle() {
			k.mode().Hover(e)
		} else {
			k.move(id, e)
		}
	case "up":
		delete(k.hand.fingers, id)
		k.up(id, e)
	case "cancel":
		delete(k.hand.fingers, id)
		k.dropHand()
	case "rest": // what a mouse reads by hovering
		if id == k.hand.pointer && !k.hand.pinching && k.hand.travel < view.Slop && !k.pen.IsOpen() {
			k.mode().Hover(e)
		}
	case "leave":
		if k.pen.IsOpen() {
			k.pen.HoverEnd(e)
		}
	}
	return k.cursor(e)
}

func (k *Desk) cursor(e view.Event) string {
	switch {
	case k.hand.panning, k.hand.pinching:
		return "grabbing"
	case k.hand.holding():
		return k.hand.mode.Cursor(e)
	}
	return k.mode().Cursor(e)
}

func (k *Desk) down(id int, e view.Event) {
	k.Session.EndNudge()
	h := &k.hand
	if e.Touch {
		h.fingers[id] = e.At
		if len(h.fingers) == 2 {
			k.takeBack()
			h.pinching, h.last, h.span = true, h.between(), h.spread()
			return
		}
	}
	if !h.idle() {
		return
	}

	h.free()
	if e.Touch {
		h.before = k.chosen()
	}
	h.mode, h.pointer, h.at, h.last = k.mode(), id, e.At, e.At
	h.panning = !h.mode.Down(e)
	k.Session.Touch()
}

func (k *Desk) move(id int, e view.Event) {
	h := &k.hand
	_, finger := h.fingers[id]
	if finger {
		h.fingers[id] = e.At
	}
	if h.pinching {
		if finger {
			k.pinch()
		}
		return
	}
	if id != h.pointer {
		return
	}

	h.travel = math.Max(h.travel, geometry.PointDistance(e.At, h.at))
	e.From, e.Travel = h.at, h.travel
	switch {
	case !h.panning:
		h.mode.Move(e)
	case e.Dragged():
		k.View.Pan(e.At[0]-h.last[0], e.At[1]-h.last[1])
		k.Session.Touch()
	}
	if e.Dragged() {
		h.last = e.At
	}
}

func (k *Desk) up(id int, e view.Event) {
	h := &k.hand
	if h.pinching {
		if len(h.fingers) < 2 {
			h.free()
		}
		return
	}
	if h.idle() || id != h.pointer {
		return
	}

	m := h.mode
	e.From, e.Travel = h.at, h.travel
	h.free()
	m.Up(e)
	k.Session.Touch()
}

// takeBack puts back all that the first finger did: two fingers change the view alone.
func (k *Desk) takeBack() {
	before := k.hand.before
	k.dropHand()
	if before != nil {
		before()
		k.Session.Touch()
	}
}

// chosen returns what chooses again what is chosen now: a copy, a tie, a subject, points of a drawing.
func (k *Desk) chosen() func() {
	selection, tie, points := k.Session.sel, k.ties.Chosen, k.pen.Chosen()
	subject, _ := k.subjects.Chosen()
	first := k.copies.Right()
	return func() {
		k.Session.sel = selection
		k.Session.sel.Keep(k.Session.Draft())
		k.ties.Chosen = tie
		k.subjects.Choose(subject.ID)
		first()
		points()
	}
}

// dropHand puts back what the gesture in hand changed.
func (k *Desk) dropHand() {
	m, travel := k.hand.mode, k.hand.travel
	k.hand.free()
	if m != nil {
		m.Drop(travel)
	}
}

// letGo ends what is in hand before something else changes the draft: a drag stays as far as it went, and a stroke or
// a trial of a drawing, which is nothing yet, goes.
func (k *Desk) letGo() {
	k.Session.EndNudge()
	if k.hand.holding() {
		m, travel := k.hand.mode, k.hand.travel
		k.hand.free()
		m.LetGo(travel)
	}
}

// Wheel zooms at the pointer, or pans with Shift. Numbers that are none do nothing.
func (k *Desk) Wheel(x, y, dx, dy float64, mods int) {
	p, ok := view.OnCanvas(x, y)
	by, moved := view.OnCanvas(dx, dy)
	if !ok || !moved {
		return
	}

	dx, dy = by[0], by[1]
	if mods&view.Shift != 0 {
		if dx == 0 {
			dx, dy = dy, 0
		}
		k.View.Pan(-dx, -dy)
	} else {
		k.View.ZoomAt(p[0], p[1], math.Exp(-view.Clamp(dy, -240, 240)/400))
	}
	k.Session.Touch()
}

// between returns the middle of the fingers.
func (h *hand) between() orb.Point {
	var p orb.Point
	for _, f := range h.fingers {
		p[0] += f[0] / float64(len(h.fingers))
		p[1] += f[1] / float64(len(h.fingers))
	}
	return p
}

// spread returns how far apart two fingers are, px.
func (h *hand) spread() float64 {
	var p []orb.Point
	for _, f := range h.fingers {
		p = append(p, f)
	}
	if len(p) < 2 {
		return 1
	}
	return math.Max(1, geometry.PointDistance(p[0], p[1]))
}

func (k *Desk) pinch() {
	h := &k.hand
	c, s := h.between(), h.spread()
	k.View.Pan(c[0]-h.last[0], c[1]-h.last[1])
	k.View.ZoomAt(c[0], c[1], s/h.span)
	h.last, h.span = c, s
	k.Session.Touch()
}
