package desk

import (
	"time"

	"openwork/pattern"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/whole"
)

// affordable is what a look may take to be had in every frame of a drag: a quarter of a frame at 60 Hz.
const affordable = 4 * time.Millisecond

// inspection is what a look at the layout as it is now shows. It is carried out when it is first asked for, which is
// when the canvas is painted: a press is answered before that, and of several steps between two frames only the last is
// looked at.
type inspection struct {
	layout *pattern.Layout // still to be looked at, nil where that was done
	inHand bool            // a hand moves something and will not wait

	panel whole.Panel   // what one look at the panel leaves to the next
	live  sheet.Live    // the cell and its neighbours
	seen  *whole.Report // the whole panel, nil where it is too large to be looked at in every frame

	looks  int           // how many were carried out
	cost   time.Duration // of the last one
	stands bool          // live and seen are of an earlier step of the same hand
	owed   bool          // the canvas was painted with them
}

// begin takes another layout, nil where there is none. What the look at an earlier step of the same hand showed stays
// until the new one is looked at.
func (s *inspection) begin(l *pattern.Layout, inHand bool) {
	looked := s.layout == nil && s.looks > 0 || s.stands
	s.stands = looked && l != nil && inHand && s.inHand
	s.layout, s.inHand = l, inHand
	if !s.stands {
		s.live, s.seen = sheet.Live{}, nil
	}
}

// putOff reports whether a look would hold up the hand, which can do with what an earlier step showed.
func (s *inspection) putOff() bool { return s.stands && s.cost > affordable }

// run looks at the layout.
func (s *inspection) run() {
	began := time.Now()
	s.live, s.seen = sheet.Check(s.layout, &s.panel.Within), nil
	if r, ok := s.panel.Look(s.layout, s.inHand); ok {
		s.seen = &r
	}
	s.layout, s.stands = nil, false
	s.looks++
	s.cost = time.Since(began)
}

// looked returns what the layout as it is now shows. While the canvas is painted it may be what an earlier step of the
// hand showed, where a look in every frame would hold that hand up: the words on the page, which follow the hand some
// ten times a second, have it looked at, and the canvas is painted once more.
func (s *Session) looked() *inspection {
	i := &s.inspection
	switch {
	case i.layout == nil:
	case s.painting && s.InHand() && i.putOff():
		i.owed = true
	default:
		i.run()
		if i.owed {
			i.owed = false
			s.Redrawn()
		}
	}
	return i
}

// Paint has the canvas painted.
func (s *Session) Paint(paint func()) {
	s.painting = true
	defer func() { s.painting = false }()
	paint()
}

// Live returns what the cell and its neighbours show.
func (s *Session) Live() sheet.Live { return s.looked().live }

// Seen returns what a look at the whole panel as it is now showed, nil where it is too large for that.
func (s *Session) Seen() *whole.Report { return s.looked().seen }
