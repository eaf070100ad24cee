package copies

import (
	"openwork/pattern"
	"openwork/wasm/editor/desk/view"
)

// Steps of the keys; see view.Step.
const (
	turnDeg   = 1.0
	scaleStep = 0.01
)

// Key takes a key that moves, turns or scales the motif in hand, pans, or lets go of the selection.
func (m *Mode) Key(name string, mods int, repeat bool) bool {
	step := view.Step(mods)
	if direction, ok := view.Arrow(name); ok {
		return m.nudge(direction[0]*step, direction[1]*step, repeat)
	}

	switch name {
	case "[", "{":
		return m.adjust("turn", step*turnDeg, repeat)
	case "]", "}":
		return m.adjust("turn", -step*turnDeg, repeat)
	case ",", "<":
		return m.adjust("scale", -step*scaleStep, repeat)
	case ".", ">":
		return m.adjust("scale", step*scaleStep, repeat)
	case "Escape":
		m.desk.Choose("")
		return true
	}
	return false
}

// nudge moves the held copy by whole steps as seen on the panel, or the view when nothing is selected.
func (m *Mode) nudge(dx, dy float64, repeat bool) bool {
	i := m.desk.Draft().Motif(m.desk.Selection().ID)
	if i < 0 || m.desk.Layout() == nil {
		m.view.Pan(-dx*view.PanPX, dy*view.PanPX)
		m.desk.Touch()
		return true
	}
	motif := m.desk.Draft().Motifs[i]
	v := m.desk.Selection().Map(m.desk.Layout()).Rigid().Vector([2]float64{dx * view.NudgeMM, dy * view.NudgeMM})
	return m.step(pattern.Command{Name: "place", ID: motif.ID,
		Values: map[string]float64{"x": motif.At[0] + v[0], "y": motif.At[1] + v[1]}}, repeat)
}

// adjust turns or scales the selected motif by a step; turning is as seen on the held copy.
func (m *Mode) adjust(what string, by float64, repeat bool) bool {
	i := m.desk.Draft().Motif(m.desk.Selection().ID)
	if i < 0 || m.desk.Layout() == nil {
		return false
	}

	motif := m.desk.Draft().Motifs[i]
	values := map[string]float64{}
	if what == "turn" {
		if m.desk.Selection().Map(m.desk.Layout()).Det() < 0 {
			by = -by
		}
		values["turn"] = motif.Turn + by
	} else {
		values["scale"] = motif.Scale * (1 + by)
	}
	return m.step(pattern.Command{Name: "place", ID: motif.ID, Values: values}, repeat)
}

// step applies a command of a key; holding the key down is one entry of the history.
func (m *Mode) step(c pattern.Command, repeat bool) bool {
	m.desk.Hold(repeat)
	m.desk.Try(c)
	return true
}
