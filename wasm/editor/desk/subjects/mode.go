// Package subjects is the pointer's mode in which what stands in front of the pattern is taken hold of: subjects.
package subjects

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/wasm/editor/desk/view"
)

// Desk is what subjects stand on: the open draft, and the entry of its history that is being made.
type Desk interface {
	Draft() draft.Draft
	SubjectShape(s draft.Subject) *geometry.Shape
	Hold(repeat bool)
	Begin()
	Try(c pattern.Command)
	LetGo(dragged bool)
	Abandon(dragged bool)
	Touch()
}

// Mode is the pointer's mode for subjects. It is on while one is chosen.
type Mode struct {
	desk   Desk
	view   *view.View
	chosen string
	from   *draft.Subject // the one in hand, as it was when it was taken
	blank  bool           // the press began on nothing
}

// New returns the mode with nothing chosen.
func New(d Desk, v *view.View) *Mode { return &Mode{desk: d, view: v} }

// Choose takes a subject up; an id that no subject has lets go.
func (m *Mode) Choose(id string) { m.chosen, m.from = id, nil }

// Chosen returns the subject that is taken up.
func (m *Mode) Chosen() (draft.Subject, bool) {
	d := m.desk.Draft()
	if i := d.Subject(m.chosen); i >= 0 {
		return d.Subjects[i], true
	}
	return draft.Subject{}, false
}

// On reports whether a subject is taken up.
func (m *Mode) On() bool {
	_, ok := m.Chosen()
	return ok
}

// under returns the foremost subject under the pointer, or within its reach.
func (m *Mode) under(e view.Event) (draft.Subject, bool) {
	p, reach := m.view.Panel(e.At[0], e.At[1]), e.Reach()/m.view.Zoom
	all := m.desk.Draft().Subjects
	for near := range 2 {
		for i := len(all) - 1; i >= 0; i-- {
			s := m.desk.SubjectShape(all[i])
			if s.Contains(p) || near == 1 && s.Nearer(p, reach) {
				return all[i], true
			}
		}
	}
	return draft.Subject{}, false
}

// Down takes hold of the subject under the pointer; it reports whether there is one.
func (m *Mode) Down(e view.Event) bool {
	m.from, m.blank = nil, false
	if e.Mods&view.PanKey != 0 {
		return false
	}
	s, ok := m.under(e)
	if m.blank = !ok; !ok {
		return false
	}
	m.chosen, m.from = s.ID, &s
	m.desk.Begin()
	return true
}

// Holding reports whether a subject is in hand.
func (m *Mode) Holding() bool { return m.from != nil }

// Move drags what is in hand; with Shift along one axis.
func (m *Mode) Move(e view.Event) {
	if m.from == nil || !e.Dragged() {
		return
	}
	a, b := m.view.Panel(e.From[0], e.From[1]), m.view.Panel(e.At[0], e.At[1])
	by := orb.Point{b[0] - a[0], b[1] - a[1]}
	if e.Mods&view.Shift != 0 {
		if by[0]*by[0] > by[1]*by[1] {
			by[1] = 0
		} else {
			by[0] = 0
		}
	}
	m.desk.Try(pattern.Command{Name: "subjectPlace", ID: m.from.ID,
		Values: map[string]float64{"x": m.from.At[0] + by[0], "y": m.from.At[1] + by[1]}})
}

// Up lets go of what is in hand; a click on nothing lets go of the choice.
func (m *Mode) Up(e view.Event) {
	if m.blank && !e.Dragged() {
		m.chosen = ""
	}
	m.LetGo(e.Travel)
}

// LetGo ends what is in hand where it stands.
func (m *Mode) LetGo(travel float64) {
	held := m.Holding()
	m.from = nil
	if held {
		m.desk.LetGo(travel >= view.Slop)
	}
}

// Drop puts back what is in hand.
func (m *Mode) Drop(travel float64) {
	held := m.Holding()
	m.from = nil
	if held {
		m.desk.Abandon(travel >= view.Slop)
	}
}

// Hover does nothing.
func (m *Mode) Hover(view.Event) {}

// Cursor is the cursor's name.
func (m *Mode) Cursor(e view.Event) string {
	if m.Holding() {
		return "grabbing"
	}
	if _, ok := m.under(e); ok {
		return "grab"
	}
	return "default"
}

// Labels are none.
func (m *Mode) Labels() []view.Label { return nil }

// Steps of the keys; see view.Step.
const (
	turnDeg   = 1.0
	scaleStep = 0.01
)

// Key takes a key that moves, turns, scales or mirrors the subject, or lets go of it.
func (m *Mode) Key(name string, mods int, repeat bool) bool {
	s, ok := m.Chosen()
	if !ok {
		return false
	}
	step := view.Step(mods)
	c := pattern.Command{Name: "subjectPlace", ID: s.ID}
	if to, ok := view.Arrow(name); ok {
		c.Values = map[string]float64{"x": s.At[0] + to[0]*step*view.NudgeMM, "y": s.At[1] + to[1]*step*view.NudgeMM}
	}
	switch name {
	case "[", "{":
		c.Values = map[string]float64{"turn": s.Turn + step*turnDeg}
	case "]", "}":
		c.Values = map[string]float64{"turn": s.Turn - step*turnDeg}
	case ",", "<":
		c.Values = map[string]float64{"scale": s.Scale * (1 - step*scaleStep)}
	case ".", ">":
		c.Values = map[string]float64{"scale": s.Scale * (1 + step*scaleStep)}
	case "m":
		c = pattern.Command{Name: "subjectMirror", ID: s.ID, Flag: !s.Mirrored}
	case "Escape":
		m.chosen = ""
		m.desk.Touch()
		return true
	default:
		if c.Values == nil {
			return false
		}
	}
	m.desk.Hold(repeat)
	m.desk.Try(c)
	return true
}
