package desk

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
	"openwork/pattern"
)

// downPen begins what the pointer does while a silhouette is drawn, and returns its deed.
func (k *Desk) downPen(p orb.Point, mods int, device string) deed {
	d := k.pen
	k.whole = false // the drawing stays where it is while it is drawn
	at := k.View.Panel(p[0], p[1])
	if mods&PanKey != 0 {
		return panning
	}
	switch d.way {
	case penFree:
		d.jitter = jitterPX / k.View.Zoom
		if device == "touch" {
			d.jitter = fingerJitterPX / k.View.Zoom
		}
		d.stroke = []orb.Point{at}
		return stroking
	case penPoints:
		return k.downPoint(p, at, device)
	}
	reach := reachOf(device) / k.View.Zoom
	if ring, node, ok := k.penNode(at, reach); ok {
		switch {
		case mods&Shift != 0 && d.chosen && ring == d.ring:
			d.sel.To = node
			return panning // a press alone
		case !d.chosen || ring != d.ring || !k.inStretch(node):
			d.ring, d.sel, d.chosen = ring, pen.Stretch{From: node, To: node}, true
		}
		d.hover = at
		return nudgingPoints
	}
	if ring, piece, t, ok := k.penPiece(at, reach); ok {
		n := len(d.shape.Rings()[ring].Nodes)
		d.ring, d.sel, d.spot, d.chosen = ring, pen.Stretch{From: piece, To: (piece + 1) % n}, t, true
		return bending
	}
	return panning
}

// downPoint sets the next point of the line, or closes it when the first is pressed again.
func (k *Desk) downPoint(p, at orb.Point, device string) deed {
	d := k.pen
	reach := reachOf(device)
	if n := len(d.line); n > 1 && far(k.View.Map().Apply(d.line[0].At), p) < reach {
		k.say(k.closeLine())
		return panning
	}
	d.line, d.taken = append(d.line, pen.Point{At: k.onMirror(at, reach), Round: d.round}), nil
	return setting
}

// onMirror draws a place onto the mirror while a half is set and it lies near there.
func (k *Desk) onMirror(at orb.Point, reach float64) orb.Point {
	if d := k.pen; d.half && math.Abs(at[0]-d.axis)*k.View.Zoom < reach {
		at[0] = d.axis
	}
	return orb.Point{geometry.Snap(at[0]), geometry.Snap(at[1])}
}

func (k *Desk) inStretch(node int) bool {
	d := k.pen
	n := len(d.shape.Rings()[d.ring].Nodes)
	span := (d.sel.To - d.sel.From + n) % n
	return (node-d.sel.From+n)%n <= span
}

// penNode returns the node nearest to a place, within reach mm.
func (k *Desk) penNode(at orb.Point, reach float64) (ring, node int, ok bool) {
	for i, r := range k.pen.shape.Rings() {
		for j, v := range r.Nodes {
			if e := far(v.At, at); e < reach {
				ring, node, reach, ok = i, j, e, true
			}
		}
	}
	return ring, node, ok
}

// penPiece returns the piece nearest to a place, within reach mm.
func (k *Desk) penPiece(at orb.Point, reach float64) (ring, piece int, t float64, ok bool) {
	for i, r := range k.pen.shape.Rings() {
		if p, u, e := r.Nearest(at); e < reach {
			ring, piece, t, reach, ok = i, p, u, e, true
		}
	}
	return ring, piece, t, ok
}

func (k *Desk) movePen(p orb.Point) {
	d, g := k.pen, &k.hand
	at := k.View.Panel(p[0], p[1])
	k.Redraw = true
	switch g.deed {
	case stroking:
		if last := d.stroke[len(d.stroke)-1]; far(last, at)*k.View.Zoom >= 0.5 {
			d.stroke = append(d.stroke, at)
		}
	case setting:
		if n := len(d.line); n > 0 && g.travel >= slop {
			d.line[n-1].At = k.onMirror(at, handlePX/2)
		}
	case nudgingPoints:
		if g.travel >= slop {
			k.tryOut(k.movedBy(sub(at, d.hover)))
		}
	case bending:
		if g.travel >= slop {
			k.tryOut(k.bentTo(at))
		}
	}
}

// tryOut shows a shape under the hand, and whether it can be.
func (k *Desk) tryOut(s pen.Shape) {
	d := k.pen
	was := d.trialText
	d.trial, d.trialText = s, ""
	if err := pen.Check(s.Outline()); err != nil {
		d.trialText = pattern.Sentence(err.Error())
	}
	k.Changed = k.Changed || was != d.trialText
}

func (k *Desk) upPen(g gesture) {
	d := k.pen
	k.Redraw, k.Changed = true, true
	switch g.deed {
	case stroking:
		stroke := d.stroke
		d.stroke = nil
		if g.travel < slop {
			return
		}
		k.say(k.useStroke(stroke))
	case setting:
		if n := len(d.line); d.half && n > 1 && d.line[n-1].At[0] == d.axis {
			k.say(k.closeLine())
		}
	case nudgingPoints, bending:
		if d.trial == nil {
			return
		}
		shape := d.trial
		d.trial, d.trialText = nil, ""
		if err := k.putShape(shape); err != nil {
			k.say(fmt.Errorf("%w; it is as it was before", err))
		}
	}
}

// say shows the person why something could not be.
func (k *Desk) say(err error) {
	if err != nil {
		k.Say("error", pattern.Sentence(err.Error()))
	}
}

// useStroke makes a closed line, or two, of a stroke and does with it what was chosen.
func (k *Desk) useStroke(stroke []orb.Point) error {
	d := k.pen
	if d.half && pen.Meets(stroke[0], stroke[len(stroke)-1], d.axis) {
		r, err := pen.HalfStroke(stroke, d.jitter, d.axis)
		if err != nil {
			return err
		}
		return k.useLines(r)
	}
	r, err := pen.Stroke(stroke, d.jitter)
	if err != nil {
		return err
	}
	return k.useLines(k.withImage(r)...)
}

func (k *Desk) withImage(r pen.Ring) []pen.Ring {
	if k.pen.half {
		return []pen.Ring{r, r.Mirrored(k.pen.axis)}
	}
	return []pen.Ring{r}
}

// closeLine closes the line of points in hand and does with it what was chosen. On an error the line stays; one of a single
// point is let go.
func (k *Desk) closeLine() error {
	d := k.pen
	if d == nil || len(d.line) == 0 {
		return nil
	}
	line := d.line
	if len(line) == 1 {
		d.line, d.taken = nil, nil
		return nil
	}
	lines := k.linesOf(line)
	if err := k.useLines(lines...); err != nil {
		return err
	}
	d.line, d.taken, d.hovering = nil, nil, false
	return nil
}

// linesOf returns the closed lines that set points mean.
func (k *Desk) linesOf(line []pen.Point) []pen.Ring {
	d := k.pen
	if d.half && pen.Meets(line[0].At, line[len(line)-1].At, d.axis) {
		return []pen.Ring{pen.Half(pen.Through(line, false), d.axis)}
	}
	return k.withImage(pen.Ring{Nodes: pen.Through(line, true)})
}

// takeLast takes the last point of the line back, and bringLast brings it again; they report whether there was one.
func (k *Desk) takeLast() bool {
	if k.pen == nil || len(k.pen.line) == 0 {
		return false
	}
	d := k.pen
	n := len(d.line) - 1
	d.taken = append(d.taken, d.line[n])
	d.line = d.line[:n]
	k.Redraw, k.Changed = true, true
	return true
}

func (k *Desk) bringLast() bool {
	if k.pen == nil || k.pen.way != penPoints || len(k.pen.taken) == 0 {
		return false
	}
	d := k.pen
	n := len(d.taken) - 1
	d.line = append(d.line, d.taken[n])
	d.taken = d.taken[:n]
	k.Redraw, k.Changed = true, true
	return true
}

// hoverPen follows the pointer while nothing is pressed.
func (k *Desk) hoverPen(kind string, p orb.Point) {
	d := k.pen
	d.hovering = kind == "move" && d.way == penPoints
	if d.hovering || len(d.line) > 0 {
		d.hover = k.onMirror(k.View.Panel(p[0], p[1]), handlePX/2)
		k.Redraw = true
	}
}

func (k *Desk) cursorPen(p orb.Point, device string) string {
	d := k.pen
	if d.way != penMove {
		return "crosshair"
	}
	at, reach := k.View.Panel(p[0], p[1]), reachOf(device)/k.View.Zoom
	if _, _, ok := k.penNode(at, reach); ok {
		return "pointer"
	}
	if _, _, _, ok := k.penPiece(at, reach); ok {
		return "grab"
	}
	return "default"
}

// dropPen puts back what a gesture of drawing had in hand.
func (k *Desk) dropPen(g gesture) {
	d := k.pen
	d.stroke, d.trial, d.trialText = nil, nil, ""
	if g.deed == setting && len(d.line) > 0 {
		d.line = d.line[:len(d.line)-1]
	}
	k.Redraw, k.Changed = true, true
}

// penGesture reports whether a deed is one of drawing.
func penGesture(d deed) bool {
	return slices.Contains([]deed{stroking, setting, nudgingPoints, bending}, d)
}

func sub(p, q orb.Point) orb.Point { return orb.Point{p[0] - q[0], p[1] - q[1]} }
