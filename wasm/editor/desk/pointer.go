package desk

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/pattern"
)

// Modifiers held while a pointer or a key acts.
const (
	Shift   = 1
	Control = 2
	Alt     = 4
	PanKey  = 8 // middle button, or the space bar held
)

// deed is what the pointer is doing.
type deed int

const (
	idle deed = iota
	panning
	moving
	turning
	scaling
	shapingA
	shapingB
	shapingFar
	tying
	starting // moves the cell's own corner: where the repeat starts
	pinching
	stroking      // a line is drawn freehand
	setting       // a point of a line is set
	nudgingPoints // points of an outline are moved
	bending       // a piece of an outline is bent
)

// gesture is the deed in hand, with what was true when it began.
type gesture struct {
	deed    deed
	pointer int
	at      orb.Point // canvas px where it began
	last    orb.Point
	travel  float64 // px gone so far
	motif   pattern.Motif
	repeat  pattern.Repeat
	held    Held
	angle   float64 // from the copy's centre, radians
	reach   float64 // from the copy's centre, px
	span    float64 // between two fingers, px
	blank   bool    // it began on no copy: a click there lets go of the selection
}

// slop is how far a pointer goes, in px, before a press becomes a drag.
const slop = 3.0

// Pointer takes one event of a pointer: kind "down", "move", "up", "cancel" or "leave", in CSS px on the canvas. It
// returns the name of the cursor to show. A place that is no number is taken for the last one.
func (k *Desk) Pointer(kind string, id int, x, y float64, mods int, device string) string {
	p, ok := onCanvas(x, y)
	if !ok {
		p = k.hand.last
	}
	switch kind {
	case "down":
		k.down(id, p, mods, device)
	case "move":
		if k.hand.deed == idle && k.pen != nil {
			k.hoverPen(kind, p)
			return k.cursor(p, device)
		}
		if k.hand.deed == idle {
			if k.signs {
				k.speakOf(k.signAt(p, reachSign(device)))
			}
			return k.cursor(p, device)
		}
		k.move(id, p, mods)
	case "up":
		delete(k.fingers, id)
		k.up(id, p)
	case "cancel":
		delete(k.fingers, id)
		k.dropHand()
	case "leave":
		if k.pen != nil {
			k.hoverPen(kind, p)
		}
	}
	return k.cursor(p, device)
}

func (k *Desk) cursor(p orb.Point, device string) string {
	switch k.hand.deed {
	case panning, pinching, moving, tying:
		return "grabbing"
	case turning, scaling, shapingA, shapingB, shapingFar, starting:
		return "crosshair"
	}
	if k.pen != nil {
		return k.cursorPen(p, device)
	}
	if k.tying {
		return "crosshair"
	}
	if k.gripAt(p[0], p[1], reachOf(device)) != noGrip {
		return "pointer"
	}
	if _, ok := k.hit(p[0], p[1]); ok {
		return "grab"
	}
	return "default"
}

func reachSign(device string) float64 {
	if device == "touch" {
		return fingerPX / 2
	}
	return signPX
}

func reachOf(device string) float64 {
	if device == "touch" {
		return fingerPX
	}
	return handlePX
}

func (k *Desk) down(id int, p orb.Point, mods int, device string) {
	k.endNudge()
	if device == "touch" {
		k.fingers[id] = p
		if len(k.fingers) == 2 {
			k.dropHand()
			k.hand = gesture{deed: pinching, last: k.between(), span: k.span()}
			return
		}
	}
	if k.hand.deed != idle {
		return
	}
	g := gesture{pointer: id, at: p, last: p, repeat: k.Draft().Repeat}
	if k.pen != nil {
		g.deed = k.downPen(p, mods, device)
		g.blank = g.deed == panning && mods&(PanKey|Shift) == 0
		k.hand = g
		k.Redraw, k.Changed = true, true
		return
	}
	if k.tying && mods&PanKey == 0 {
		if !k.downTie(&g, p, device) {
			g.deed = panning
		}
		k.hand = g
		if g.deed == tying && g.travel < slop {
			k.history.Begin()
		}
		k.Redraw, k.Changed = true, true
		return
	}
	taken := k.gripAt(p[0], p[1], reachOf(device))
	switch {
	case mods&PanKey != 0:
		g.deed = panning
	case taken != noGrip:
		g.deed = map[grip]deed{turnGrip: turning, scaleGrip: scaling, sideA: shapingA, sideB: shapingB, farCorner: shapingFar, origin: starting}[taken]
		k.gripped(&g, p)
	default:
		if held, ok := k.hit(p[0], p[1]); ok {
			k.choose(k.Draft().Motifs[held.Motif].ID)
			k.held = held
			g.deed, g.held, g.motif = moving, held, k.Draft().Motifs[held.Motif]
		} else {
			g.deed, g.blank = panning, true
		}
	}
	k.hand = g
	if g.deed != panning {
		k.history.Begin()
	}
	k.Redraw, k.Changed = true, true
}

// gripped notes how the copy's handle was taken.
func (k *Desk) gripped(g *gesture, p orb.Point) {
	h := k.Handles()
	g.held = k.held
	if i := k.Draft().Motif(k.selected); i >= 0 {
		g.motif = k.Draft().Motifs[i]
	}
	g.angle = math.Atan2(p[1]-h.Centre[1], p[0]-h.Centre[0])
	g.reach = math.Hypot(p[0]-h.Centre[0], p[1]-h.Centre[1])
}

func (k *Desk) move(id int, p orb.Point, mods int) {
	g := &k.hand
	if g.deed == pinching {
		if _, ok := k.fingers[id]; ok {
			k.fingers[id] = p
			k.pinch()
		}
		return
	}
	if id != g.pointer {
		return
	}
	g.travel = math.Max(g.travel, math.Hypot(p[0]-g.at[0], p[1]-g.at[1]))
	if penGesture(g.deed) {
		k.movePen(p)
		return
	}
	if g.travel < slop {
		return
	}
	switch g.deed {
	case panning:
		k.View.pan(p[0]-g.last[0], p[1]-g.last[1])
		k.whole = false
		k.Redraw, k.Changed = true, true
	case moving:
		k.dragCopy(p, mods)
	case turning:
		k.dragTurn(p, mods)
	case scaling:
		k.dragScale(p, mods)
	case shapingA, shapingB, shapingFar:
		k.dragSide(p)
	case starting:
		k.dragOrigin(p)
	case tying:
		k.dragTie(p)
	}
	g.last = p
}

// try applies a command inside the gesture. One that cannot be is passed over: the hand may go on to where it can.
func (k *Desk) try(c pattern.Command) {
	next, err := k.apply(k.Draft(), c)
	if err != nil || k.layout != nil && k.layout.Overfull(next) {
		return // there would be no end of copies under the pointer
	}
	k.history.Step(next, c.Label())
	k.relay()
}

func (k *Desk) up(id int, p orb.Point) {
	g := k.hand
	if g.deed == pinching {
		if len(k.fingers) < 2 {
			k.hand = gesture{}
		}
		return
	}
	if g.deed == idle || id != g.pointer {
		return
	}
	if k.pen != nil {
		k.hand = gesture{}
		if g.blank && g.travel < slop {
			k.pen.chosen = false
		}
		k.upPen(g)
		return
	}
	if g.blank && g.travel < slop {
		k.choose("")
	}
	k.letGo()
	k.hand = gesture{}
	k.Redraw, k.Changed = true, true
}

// Wheel zooms at the pointer, or pans with Shift. Numbers that are none do nothing.
func (k *Desk) Wheel(x, y, dx, dy float64, mods int) {
	p, ok := onCanvas(x, y)
	if by, moved := onCanvas(dx, dy); ok && moved {
		x, y, dx, dy = p[0], p[1], by[0], by[1]
	} else {
		return
	}
	if mods&Shift != 0 {
		if dx == 0 {
			dx = dy
			dy = 0
		}
		k.View.pan(-dx, -dy)
	} else {
		k.View.zoomAt(x, y, math.Exp(-clamp(dy, -240, 240)/400))
	}
	k.whole = false
	k.Redraw, k.Changed = true, true
}

func (k *Desk) between() orb.Point {
	var p orb.Point
	for _, f := range k.fingers {
		p[0] += f[0] / float64(len(k.fingers))
		p[1] += f[1] / float64(len(k.fingers))
	}
	return p
}

func (k *Desk) span() float64 {
	var p []orb.Point
	for _, f := range k.fingers {
		p = append(p, f)
	}
	if len(p) < 2 {
		return 1
	}
	return math.Max(1, math.Hypot(p[0][0]-p[1][0], p[0][1]-p[1][1]))
}

func (k *Desk) pinch() {
	c, s := k.between(), k.span()
	k.View.pan(c[0]-k.hand.last[0], c[1]-k.hand.last[1])
	k.View.zoomAt(c[0], c[1], s/k.hand.span)
	k.hand.last, k.hand.span = c, s
	k.whole = false
	k.Redraw, k.Changed = true, true
}
