package desk

import (
	"errors"
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
)

// choosePoint chooses by numbers, counted from one: an outline or hole, a point of it, or the other end of a stretch.
func (k *Desk) choosePoint(name string, i int) error {
	d := k.pen
	rings := d.shape.Rings()
	if len(rings) == 0 {
		return errors.New("there is no point yet; draw something first")
	}
	ring := d.ring
	if !d.chosen {
		ring = 0
	}
	if name == "line" {
		if i < 1 || i > len(rings) {
			return fmt.Errorf("there are %d outlines and holes; choose one from 1 to %d", len(rings), len(rings))
		}
		d.way, d.chosen, d.ring, d.sel = penMove, true, i-1, pen.Stretch{}
		k.showPoint()
		return nil
	}
	n := len(rings[ring].Nodes)
	if i < 1 || i > n {
		return fmt.Errorf("this outline has %d points; choose one from 1 to %d", n, n)
	}
	d.way = penMove
	if name == "to" && d.chosen {
		d.sel.To = i - 1
		return nil
	}
	d.chosen, d.ring, d.sel = true, ring, pen.Stretch{From: i - 1, To: i - 1}
	k.showPoint()
	return nil
}

// setPoint puts the first point of the chosen stretch at x or y mm; the others go with it.
func (k *Desk) setPoint(name string, v float64) error {
	if n := len(k.pen.line); n > 0 && k.pen.way == penPoints {
		k.pen.line[n-1].At[axisOf(name)] = geometry.Snap(v)
		return nil
	}
	r, err := k.ringInHand()
	if err != nil {
		return err
	}
	var by orb.Point
	by[axisOf(name)] = geometry.Snap(v) - r.Nodes[k.pen.sel.From].At[axisOf(name)]
	return k.putShape(k.movedBy(by))
}

func axisOf(name string) int {
	if name == "y" {
		return 1
	}
	return 0
}

// keyPen takes a key while a silhouette is drawn.
func (k *Desk) keyPen(name string, mods int, step float64, repeat bool) bool {
	d := k.pen
	switch name {
	case "ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown":
		way := map[string]orb.Point{"ArrowLeft": {-1, 0}, "ArrowRight": {1, 0}, "ArrowUp": {0, 1}, "ArrowDown": {0, -1}}[name]
		if n := len(d.line); n > 0 {
			at := &d.line[n-1].At
			*at = orb.Point{geometry.Snap(at[0] + way[0]*step*nudgeMM), geometry.Snap(at[1] + way[1]*step*nudgeMM)}
			k.Redraw, k.Changed = true, true
			return true
		}
		if !d.chosen {
			k.View.pan(-way[0]*step*panPX, way[1]*step*panPX)
			k.whole = false
			k.Redraw, k.Changed = true, true
			return true
		}
		k.nudgePoints(orb.Point{way[0] * step * nudgeMM, way[1] * step * nudgeMM}, repeat)
		return true
	case "Escape":
		k.escapePen()
		return true
	case "Backspace":
		name = "Delete"
	}
	if name == "Delete" && mods&Shift != 0 {
		name = "Shift+Delete"
	}
	for _, a := range actions {
		if a.Group != "drawing" && a.Group != "view" {
			continue
		}
		for _, key := range a.Keys {
			if key == name {
				k.say(k.Act(a.Name))
				return true
			}
		}
	}
	return false
}

// escapePen ends one thing: the gesture in hand, the line, the choice, and at last the drawing.
func (k *Desk) escapePen() {
	d := k.pen
	k.Redraw, k.Changed = true, true
	switch {
	case k.hand.deed != idle:
		k.dropHand()
	case len(d.line) > 0:
		if err := k.closeLine(); err != nil {
			d.line, d.taken = nil, d.line // Redo brings the points back one by one
			reverse(d.taken)
			k.Say("note", "The points enclose nothing yet and were let go; Redo brings them back.")
		}
	case d.chosen:
		d.chosen = false
	default:
		k.leavePen()
	}
}

func reverse(p []pen.Point) {
	for i, j := 0, len(p)-1; i < j; i, j = i+1, j-1 {
		p[i], p[j] = p[j], p[i]
	}
}

// nudgePoints moves the chosen stretch by keys: one entry as long as the key is held.
func (k *Desk) nudgePoints(by orb.Point, repeat bool) {
	if !k.nudging || !repeat {
		k.endNudge()
		k.history.Begin()
		k.nudging = true
	}
	shape := k.movedBy(by)
	outline := shape.Outline()
	err := pen.Check(outline)
	if err == nil {
		err = k.tryShape(shape, outline)
	}
	k.say(err)
	if err == nil {
		k.relay()
	}
}
