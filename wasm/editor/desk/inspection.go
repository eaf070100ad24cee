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
	owed   bool          // they were shown
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

// looked returns what the layout as it is now shows. In Show it may be what an earlier step of the hand showed.
func (s *Session) looked() *inspection {
	i := &s.inspection
	switch {
	case i.layout == nil:
	case s.showing && s.InHand() && i.putOff():
		i.owed = true
	default:
		i.run()
		if i.owed {
			i.owed = false
			s.Touch()
		}
	}
	return i
}

// Show has the canvas or the page painted. Where a look would hold up the hand that moves something, they show what an
// earlier step of it showed until LookAgain, and are then painted once more.
func (s *Session) Show(paint func()) {
	s.showing = true
	defer func() { s.showing = false }()
	paint()
}

// LookAgain looks at the layout as it is now: in a drag the page asks for it some ten times a second, between frames.
func (s *Session) LookAgain() {
	if s.layout != nil {
		s.looked()
	}
}

// Live returns what the cell and its neighbours show.
func (s *Session) Live() sheet.Live { return s.looked().live }

// Seen returns what a look at the whole panel as it is now showed, nil where it is too large for that.
func (s *Session) Seen() *whole.Report { return s.looked().seen }
