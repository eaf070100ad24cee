// Package brush colours copies by hand: a press on a copy gives it the swatch that is taken up.
package brush

import (
	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/wasm/editor/desk/view"
)

// Copy names a copy: its motif, its operation of the group, and its cell.
type Copy struct {
	Motif string
	Op    int
	Cell  [2]int
}

// desk is what the mode needs of the editor.
type desk struct {
	draft func() draft.Draft
	under func(orb.Point) (Copy, bool) // the copy under a canvas point
	do    func(pattern.Command) error
	say   func(tone, text string)
}

// Mode is the brush.
type Mode struct {
	desk   desk
	on     bool
	swatch string // taken up; "" takes colours by hand away
	down   bool
}

// New returns a brush that is not in hand.
func New(now func() draft.Draft, under func(orb.Point) (Copy, bool), do func(pattern.Command) error,
	say func(tone, text string)) *Mode {
	return &Mode{desk: desk{now, under, do, say}}
}

// Take takes the brush up with a swatch, or lays it down. An empty swatch takes colours given by hand away.
func (m *Mode) Take(on bool, swatch string) { m.on, m.swatch, m.down = on, swatch, false }

// On reports whether the brush is in hand and has paint: a swatch that is gone leaves it dry.
func (m *Mode) On() bool {
	if _, ok := m.desk.draft().Swatch(m.swatch); !ok && m.swatch != "" {
		return false
	}
	return m.on
}

// Swatch returns the swatch that is taken up.
func (m *Mode) Swatch() string { return m.swatch }

// Colour gives a copy the swatch that is taken up.
func (m *Mode) Colour(c Copy) error {
	return m.desk.do(pattern.Command{Name: "copy", ID: c.Motif, Text: m.swatch,
		Values: map[string]float64{"op": float64(c.Op), "m": float64(c.Cell[0]), "n": float64(c.Cell[1])}})
}

// Down takes hold of nothing, so that a drag pans the panel; a press that does not drag colours, in Up.
func (m *Mode) Down(e view.Event) bool {
	m.down = e.Mods&view.PanKey == 0
	return false
}

// Move does nothing: a copy is coloured where it was pressed.
func (m *Mode) Move(view.Event) {}

// Up colours the copy that was pressed.
func (m *Mode) Up(e view.Event) {
	was := m.down
	m.down = false
	if c, ok := m.desk.under(e.From); was && ok && !e.Dragged() {
		if err := m.Colour(c); err != nil {
			m.desk.say("error", pattern.Sentence(err.Error()))
		}
	}
}

// Holding reports that nothing is ever in hand.
func (m *Mode) Holding() bool { return false }

// LetGo forgets the press.
func (m *Mode) LetGo(float64) { m.down = false }

// Drop forgets the press.
func (m *Mode) Drop(float64) { m.down = false }

// Hover does nothing.
func (m *Mode) Hover(view.Event) {}

// Key takes no key.
func (m *Mode) Key(string, int, bool) bool { return false }

// Cursor is the cursor's name.
func (m *Mode) Cursor(e view.Event) string {
	if _, ok := m.desk.under(e.At); ok {
		return "crosshair"
	}
	return "default"
}

// Labels are none.
func (m *Mode) Labels() []view.Label { return nil }
