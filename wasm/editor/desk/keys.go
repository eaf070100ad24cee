package desk

import (
	"github.com/paulmach/orb"

	"openwork/pattern"
)

// Steps of the keys. With Shift a step is ten times as long, with Alt a tenth.
const (
	nudgeMM   = 1.0
	turnDeg   = 1.0
	scaleStep = 0.01
	panPX     = 60.0
	zoomStep  = 1.25
)

// Key takes a key while the canvas has the focus; name is the key's value ("ArrowLeft", "[", "Delete"). It reports
// whether the key meant something. Holding a key down is one gesture and one entry of the history.
func (k *Desk) Key(name string, mods int, down, repeat bool) bool {
	if !down {
		if k.nudging {
			k.endNudge()
			return true
		}
		return false
	}
	step := 1.0
	if mods&Shift != 0 {
		step = 10
	} else if mods&Alt != 0 {
		step = 0.1
	}
	if k.pen != nil {
		return k.keyPen(name, mods, step, repeat)
	}
	switch name {
	case "ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown":
		way := map[string]orb.Point{"ArrowLeft": {-1, 0}, "ArrowRight": {1, 0}, "ArrowUp": {0, 1}, "ArrowDown": {0, -1}}[name]
		if k.tying && k.nudgeTie(way[0]*step*nudgeMM, way[1]*step*nudgeMM, repeat) {
			return true
		}
		return k.nudge(way[0]*step, way[1]*step, repeat)
	case "[", "{":
		return k.adjust("turn", step*turnDeg, repeat)
	case "]", "}":
		return k.adjust("turn", -step*turnDeg, repeat)
	case ",", "<":
		return k.adjust("scale", -step*scaleStep, repeat)
	case ".", ">":
		return k.adjust("scale", step*scaleStep, repeat)
	case "Escape":
		if k.hand.deed != idle {
			k.dropHand()
		} else if k.tying {
			if k.tie < 0 {
				return k.Act("tying") == nil
			}
			k.tie = -1
			k.Redraw, k.Changed = true, true
		} else {
			k.choose("")
		}
		return true
	case "Delete", "Backspace":
		if k.tying {
			return k.Act("untie") == nil
		}
		return k.Act("take-out") == nil
	}
	for _, a := range actions {
		if a.Group == "drawing" {
			continue
		}
		for _, key := range a.Keys {
			if key == name {
				return k.Act(a.Name) == nil
			}
		}
	}
	return false
}

// nudge moves the held copy by whole steps as seen on the panel, or the view when nothing is selected.
func (k *Desk) nudge(dx, dy float64, repeat bool) bool {
	i := k.Draft().Motif(k.selected)
	if i < 0 || k.layout == nil {
		k.View.pan(-dx*panPX, dy*panPX)
		k.whole = false
		k.Redraw, k.Changed = true, true
		return true
	}
	m := k.Draft().Motifs[i]
	v := k.copyMap(k.held).Rigid().Vector([2]float64{dx * nudgeMM, dy * nudgeMM})
	return k.nudgeBy(pattern.Command{Name: "place", ID: m.ID,
		Values: map[string]float64{"x": m.At[0] + v[0], "y": m.At[1] + v[1]}}, repeat)
}

// adjust turns or scales the selected motif by a step; turning is as seen on the held copy.
func (k *Desk) adjust(what string, by float64, repeat bool) bool {
	i := k.Draft().Motif(k.selected)
	if i < 0 || k.layout == nil {
		return false
	}
	m := k.Draft().Motifs[i]
	values := map[string]float64{}
	if what == "turn" {
		if k.copyMap(k.held).Det() < 0 {
			by = -by
		}
		values["turn"] = m.Turn + by
	} else {
		values["scale"] = m.Scale * (1 + by)
	}
	return k.nudgeBy(pattern.Command{Name: "place", ID: m.ID, Values: values}, repeat)
}

func (k *Desk) nudgeBy(c pattern.Command, repeat bool) bool {
	if !k.nudging || !repeat {
		k.endNudge()
		k.history.Begin()
		k.nudging = true
	}
	k.try(c)
	return true
}

// endNudge makes the keys held so far one entry.
func (k *Desk) endNudge() {
	if k.nudging {
		k.nudging = false
		k.history.Settle()
		k.rest()
		k.pictures++
	}
}
