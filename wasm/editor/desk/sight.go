package desk

import (
	"openwork/pattern"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/whole"
)

// sight is what is to be seen of the layout as it is now. It is looked for when it is first asked for, which is when the
// canvas is painted: a press is answered before that, and of several steps between two frames only the last is looked at.
type sight struct {
	layout *pattern.Layout // still to be looked at, nil where that was done
	inHand bool            // a hand moves something and will not wait

	panel whole.Panel   // what one look at the panel leaves to the next
	live  sheet.Live    // the cell and its neighbours
	seen  *whole.Report // the whole panel, nil where it is too large to be looked at in every frame
}

// begin takes another layout, nil where there is none.
func (s *sight) begin(l *pattern.Layout, inHand bool) {
	s.layout, s.inHand = l, inHand
	s.live, s.seen = sheet.Live{}, nil
}

// look looks at the layout, where that was not done.
func (s *sight) look() *sight {
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
func (s *Session) Live() sheet.Live { return s.sight.look().live }

// Seen returns what a look at the whole panel as it is now showed, nil where it is too large for that.
func (s *Session) Seen() *whole.Report { return s.sight.look().seen }
