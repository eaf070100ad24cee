package pen

import (
	"errors"
	"fmt"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
	"openwork/wasm/editor/desk/view"
)

// choosePoint chooses by numbers, counted from one: an outline or hole, a point of it, or the other end of a stretch.
func (m *Mode) choosePoint(name string, i int) error {
	d := m.d
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
		d.way, d.chosen, d.ring, d.sel = Move, true, i-1, pen.Stretch{}
		m.showPoint()
		return nil
	}

	n := len(rings[ring].Nodes)
	if i < 1 || i > n {
		return fmt.Errorf("this outline has %d points; choose one from 1 to %d", n, n)
	}

	d.way = Move
	if name == "to" && d.chosen {
		d.sel.To = i - 1
		return nil
	}

	d.chosen, d.ring, d.sel = true, ring, pen.Stretch{From: i - 1, To: i - 1}
	m.showPoint()
	return nil
}

// setPoint puts the first point of the chosen stretch at x or y mm; the others go with it.
func (m *Mode) setPoint(name string, v float64) error {
	if n := len(m.d.line); n > 0 && m.d.way == Points {
		m.d.line[n-1].At[axisOf(name)] = geometry.Snap(v)
		return nil
	}
	r, err := m.ringInHand()
	if err != nil {
		return err
	}
	var by orb.Point
	by[axisOf(name)] = geometry.Snap(v) - r.Nodes[m.d.sel.From].At[axisOf(name)]
	return m.putShape(m.movedBy(by))
}

func axisOf(name string) int {
	if name == "y" {
		return 1
	}
	return 0
}

// Key takes a key that moves something or ends it; Escape is not taken when there is nothing left to end but the
// drawing.
func (m *Mode) Key(name string, mods int, repeat bool) bool {
	if name == "Escape" {
		return m.escape()
	}

	direction, ok := view.Arrow(name)
	if !ok {
		return false
	}

	d, step := m.d, view.Step(mods)
	by := orb.Point{direction[0] * step * view.NudgeMM, direction[1] * step * view.NudgeMM}
	switch n := len(d.line); {
	case n > 0:
		at := &d.line[n-1].At
		*at = orb.Point{geometry.Snap(at[0] + by[0]), geometry.Snap(at[1] + by[1])}
		m.desk.Touch()
	case !d.chosen:
		m.view.Pan(-direction[0]*step*view.PanPX, direction[1]*step*view.PanPX)
		m.desk.Touch()
	default:
		m.nudgePoints(by, repeat)
	}
	return true
}

// escape ends one thing: the line, or the choice; false when there is neither.
func (m *Mode) escape() bool {
	d := m.d
	m.desk.Touch()
	switch {
	case len(d.line) > 0:
		if err := m.closeLine(); err != nil {
			d.line, d.taken = nil, d.line // Redo brings the points back one by one
			slices.Reverse(d.taken)
			m.desk.Say("note", "The points enclose nothing yet and were let go; Redo brings them back.")
		}
	case d.chosen:
		d.chosen = false
	default:
		return false
	}
	return true
}

// nudgePoints moves the chosen stretch by keys: one entry as long as the key is held.
func (m *Mode) nudgePoints(by orb.Point, repeat bool) {
	m.desk.Hold(repeat)
	shape := m.movedBy(by)
	outline := shape.Outline()
	err := pen.Check(outline)
	if err == nil {
		err = m.tryShape(shape, outline)
	}
	m.sayError(err)
	if err == nil {
		m.desk.LayOutAgain(true)
	}
}
