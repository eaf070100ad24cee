package ties

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/wasm/editor/desk/view"
)

// Down takes up the tie under the pointer, or sets a new one; it reports whether there is one in hand.
func (m *Mode) Down(e view.Event) bool {
	m.holding = false
	if e.Mods&view.PanKey != 0 || m.desk.Layout() == nil {
		return false
	}

	at := m.view.Panel(e.At[0], e.At[1])
	m.last = e.At
	if i := m.tieAt(at, e.Reach()/2/m.view.Zoom); i >= 0 {
		m.Chosen, m.holding, m.set = i, true, false
		m.desk.Begin()
		return true
	}

	t, err := m.Through(at, m.desk.Draft().Sheet.Bridge+tieSlack)
	if err != nil {
		m.Chosen = -1
		return false
	}

	m.desk.Begin()
	if err := m.desk.Step(tieCommand("tie", t, -1)); err != nil {
		m.desk.Abandon(false)
		m.desk.Say("error", pattern.Sentence(err.Error()))
		return false
	}

	m.Chosen = len(m.desk.Draft().Ties) - 1
	m.holding, m.set = true, true
	m.desk.LayOutAgain(false)
	return true
}

// Holding reports whether a tie is in hand.
func (m *Mode) Holding() bool { return m.holding }

// Move slides the tie in hand along the opening to where the pointer is; where no tie of its kind goes across it stays.
func (m *Mode) Move(e view.Event) {
	if e.Dragged() || m.set {
		m.slide(m.view.Panel(e.At[0], e.At[1]))
		m.last = e.At
	}
}

// Up lets go of the tie in hand.
func (m *Mode) Up(e view.Event) { m.LetGo(e.Travel) }

// LetGo ends what is in hand where it stands.
func (m *Mode) LetGo(travel float64) {
	if m.holding {
		m.holding = false
		m.desk.LetGo(m.set || travel >= view.Slop)
	}
}

// Drop puts the tie in hand back.
func (m *Mode) Drop(travel float64) {
	if m.holding {
		m.holding = false
		m.desk.Abandon(m.set || travel >= view.Slop)
	}
}

// Hover reads the sign under the pointer.
func (m *Mode) Hover(e view.Event) { m.hover(e) }

// Cursor is the cursor's name.
func (m *Mode) Cursor(view.Event) string {
	if m.holding {
		return "grabbing"
	}
	return "crosshair"
}

// Key takes a key that slides the tie that is taken up, or lets go of it.
func (m *Mode) Key(name string, mods int, repeat bool) bool {
	if name == "Escape" && m.Chosen >= 0 {
		m.Chosen = -1
		m.desk.Touch()
		return true
	}
	direction, ok := view.Arrow(name)
	step := view.Step(mods) * view.NudgeMM
	return ok && m.nudge(direction[0]*step, direction[1]*step, repeat)
}

// Labels is the width of the tie in hand.
func (m *Mode) Labels() []view.Label {
	if !m.holding || m.Chosen < 0 || m.Chosen >= len(m.desk.Draft().Ties) {
		return nil
	}
	width := m.desk.Unit().Measure(m.State().Width)
	return []view.Label{{X: m.last[0] + 16, Y: m.last[1] - 14, Text: width, Kind: "handle", Align: "left"}}
}

// Complete adds to the command retie which tie it means, when it does not say: the one that is taken up, its width on
// the sheet.
func (m *Mode) Complete(c *pattern.Command) error {
	if _, has := c.Values["index"]; has {
		return nil
	}

	list := m.desk.Draft().Ties
	if m.Chosen < 0 || m.Chosen >= len(list) {
		return ErrNone
	}
	if c.Values == nil {
		c.Values = map[string]float64{}
	}

	c.Values["index"] = float64(m.Chosen)
	if w, ok := c.Values["width"]; ok {
		c.Values["width"] = w / m.Scale(list[m.Chosen])
	}
	return nil
}

// Untie is the command that takes the tie that is taken up away.
func (m *Mode) Untie() (pattern.Command, error) {
	if m.Chosen < 0 || m.Chosen >= len(m.desk.Draft().Ties) {
		return pattern.Command{}, ErrNone
	}
	return pattern.Command{Name: "untie", Values: map[string]float64{"index": float64(m.Chosen)}}, nil
}

// Keep lets go of a tie that is no longer there.
func (m *Mode) Keep() {
	if m.Chosen >= len(m.desk.Draft().Ties) {
		m.Chosen = -1
	}
}

// slide sets the tie that is taken up across the opening at a panel point.
func (m *Mode) slide(at orb.Point) bool {
	d := m.desk.Draft()
	if m.desk.Layout() == nil || m.Chosen < 0 || m.Chosen >= len(d.Ties) {
		return false
	}
	old := d.Ties[m.Chosen]
	t, err := m.Through(at, old.Width*m.Scale(old))
	if err != nil || t.Silhouette != old.Silhouette {
		return false
	}
	m.desk.Try(tieCommand("retie", t, m.Chosen))
	return true
}

// nudge slides the tie that is taken up by keys, as seen on the panel from its image nearest to the middle of the view.
func (m *Mode) nudge(dx, dy float64, repeat bool) bool {
	d := m.desk.Draft()
	if m.desk.Layout() == nil || m.Chosen < 0 || m.Chosen >= len(d.Ties) {
		return false
	}

	images := m.desk.Layout().TieImages(d.Ties[m.Chosen], d.PanelBound())
	if len(images) == 0 {
		return false
	}

	middle := func(t draft.Tie) orb.Point {
		return orb.Point{(t.From[0]+t.To[0])/2 + dx, (t.From[1]+t.To[1])/2 + dy}
	}

	best := slices.MinFunc(images, func(a, b draft.Tie) int {
		centre := m.view.Centre
		return cmp.Compare(geometry.PointDistance(middle(a), centre), geometry.PointDistance(middle(b), centre))
	})
	m.desk.Hold(repeat)
	m.slide(middle(best))
	return true
}
