// Package copies is the pointer's mode in which copies and the cell are taken hold of, and what is selected of the
// field.
package copies

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/view"
)

// Desk is what copies lie on: the open draft, the entry of its history that is being made, and what is held while it
// is.
type Desk interface {
	Draft() draft.Draft
	Layout() *pattern.Layout
	Selection() Selection
	Choose(id string)
	Hold(repeat bool)
	HoldCopy(h Held)
	Lay() string         // the lay that describes the cell, "" for none
	HoldsOfCell() string // what of the cell stays while one side changes
	Begin()
	Try(c pattern.Command)
	LetGo(dragged bool)
	Abandon(dragged bool)
	Touch()
}

// Mode is the pointer's mode for copies and the cell.
type Mode struct {
	desk    Desk
	view    *view.View
	hover   func(e view.Event) // reads the sign under the pointer
	gesture gesture

	CellShown bool // the cell has handles: the repeat is the step in hand
	CellKept  bool // and keeps them in any step
	cellLast  bool // of the cell and the copies the cell was touched last
}

// New returns the mode with nothing in hand.
func New(d Desk, v *view.View, hover func(e view.Event)) *Mode {
	return &Mode{desk: d, view: v, hover: hover, CellShown: true}
}

// gesture is what is in hand, with what was true when it began.
type gesture struct {
	grip  grip
	blank bool // it began on nothing: a click there lets go of the selection
	motif draft.Motif
	held  Held
	angle float64   // from the copy's centre, radians
	reach float64   // from the copy's centre, px
	block blockCell // that was shown when the cell was taken
}

// Down takes hold of the handle or the copy under the pointer; it reports whether there is one.
func (m *Mode) Down(e view.Event) bool {
	m.gesture = gesture{}
	g := &m.gesture
	if e.Mods&view.PanKey != 0 {
		return false
	}
	shown, _ := m.block()
	if g.grip = m.gripAt(e.At, e.Reach()); g.grip != noGrip {
		g.block = shown.cell
		m.gripped(e.At)
	} else if held, ok := m.Hit(e.At); ok {
		motif := m.desk.Draft().Motifs[held.Motif]
		m.desk.Choose(motif.ID)
		m.desk.HoldCopy(held)
		g.grip, g.held, g.motif = wholeCopy, held, motif
	} else {
		g.blank = true
		return false
	}
	m.cellLast = g.grip.ofCell()
	m.desk.Begin()
	return true
}

// gripped notes how the copy's handle was taken.
func (m *Mode) gripped(p orb.Point) {
	g, h, sel := &m.gesture, m.Handles(), m.desk.Selection()
	g.held = sel.Held
	if i := m.desk.Draft().Motif(sel.ID); i >= 0 {
		g.motif = m.desk.Draft().Motifs[i]
	}
	g.angle = math.Atan2(p[1]-h.Centre[1], p[0]-h.Centre[0])
	g.reach = geometry.PointDistance(p, h.Centre)
}

// Right returns what gives the right of way back to whom it belongs now, the cell or the copies.
func (m *Mode) Right() func() {
	was := m.cellLast
	return func() { m.cellLast = was }
}

// CellTouched gives the cell's handles the right of way over copies: they were asked for.
func (m *Mode) CellTouched() { m.cellLast = true }

// Holding reports whether a copy or a handle is in hand.
func (m *Mode) Holding() bool { return m.gesture.grip != noGrip }

// Move drags what is in hand.
func (m *Mode) Move(e view.Event) {
	if !e.Dragged() {
		return
	}

	switch m.gesture.grip {
	case wholeCopy:
		m.dragCopy(e)
	case turnGrip:
		m.dragTurn(e)
	case scaleGrip:
		m.dragScale(e)
	case sideA, sideB, farCorner:
		m.dragSide(e.At)
	case origin:
		m.dragOrigin(e.At)
	}
}

// Up lets go of what is in hand; a click on nothing lets go of the selection.
func (m *Mode) Up(e view.Event) {
	if m.gesture.blank && !e.Dragged() {
		m.desk.Choose("")
	}
	m.LetGo(e.Travel)
}

// LetGo ends what is in hand where it stands.
func (m *Mode) LetGo(travel float64) {
	held := m.Holding()
	m.gesture = gesture{}
	if held {
		m.desk.LetGo(travel >= view.Slop)
	}
}

// Drop puts back what is in hand.
func (m *Mode) Drop(travel float64) {
	held := m.Holding()
	m.gesture = gesture{}
	if held {
		m.desk.Abandon(travel >= view.Slop)
	}
}

// Hover reads the sign under the pointer.
func (m *Mode) Hover(e view.Event) { m.hover(e) }

// Cursor is the cursor's name.
func (m *Mode) Cursor(e view.Event) string {
	switch m.gesture.grip {
	case noGrip:
	case wholeCopy:
		return "grabbing"
	default:
		return "crosshair"
	}
	if m.gripAt(e.At, e.Reach()) != noGrip {
		return "pointer"
	}
	if _, ok := m.Hit(e.At); ok {
		return "grab"
	}
	return "default"
}

// Labels are the figure that the hand is changing, beside the handle.
func (m *Mode) Labels() []view.Label {
	i := m.desk.Draft().Motif(m.desk.Selection().ID)
	if i < 0 {
		return nil
	}

	motif, h := m.desk.Draft().Motifs[i], m.Handles()
	l := view.Label{X: h.Centre[0], Y: h.Centre[1] - h.Radius - 12, Kind: "handle", Align: "center"}
	switch m.gesture.grip {
	case turnGrip:
		l.Text = sheet.Trim(motif.Turn, 1) + "°"
	case scaleGrip:
		l.Text = "× " + sheet.Trim(motif.Scale, 3)
	default:
		return nil
	}
	return []view.Label{l}
}
