package desk

import (
	"openwork/pattern"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/whole"
)

// inspection is what a look at the layout as it is now shows. It is carried out when it is first asked for, which is
// when the canvas is painted: a press is answered before that, and of several steps between two frames only the last is
// looked at.
type inspection struct {
	layout *pattern.Layout // still to be looked at, nil where that was done
	inHand bool            // a hand moves something and will not wait

	panel whole.Panel   // what one look at the panel leaves to the next
	live  sheet.Live    // the cell and its neighbours
	seen  *whole.Report // the whole panel, nil where it is too large to be looked at in every frame
}

// begin takes another layout, nil where there is none.
func (s *inspection) begin(l *pattern.Layout, inHand bool) {
	s.layout, s.inHand = l, inHand
	s.live, s.seen = sheet.Live{}, nil
}

// run looks at the layout, where that was not done.
func (s *inspection) run() *inspection {
	if s.layout == nil {
		return s
	}
	s.live = sheet.Check(s.layout, &s.panel.Within)
	if r, ok := s.panel.Look(s.layout, s.inHand); ok {
		s.seen = &r
	}
	s.layout = nil
	return s
}

// Live returns what the cell and its neighbours show.
func (s *Session) Live() sheet.Live { return s.inspection.run().live }

// Seen returns what a look at the whole panel as it is now showed, nil where it is too large for that.
func (s *Session) Seen() *whole.Report { return s.inspection.run().seen }
