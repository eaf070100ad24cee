package desk

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/say"
	"openwork/wasm/editor/desk/view"
)

// following reports whether the list follows the hand: the draft has changed under it and the panel was not looked at
// since.
func (s *Session) following() bool { return s.report == nil && s.InHand() }

// shown returns the list as it is now: while it follows the hand, what was seen of the panel, or of the cell.
func (s *Session) shown() []say.Fault {
	if !s.following() {
		return s.faults()
	}
	if s.layout == nil {
		return nil
	}
	if looks := s.looked().looks; s.handGroupsOf != looks {
		s.handGroups, s.handGroupsOf = say.Gather(s.problemsSeen()), looks
	}
	return s.handGroups
}

// faults returns the list of faults: the engine's, or until it answers what was seen of the panel, or of the cell.
func (s *Session) faults() []say.Fault {
	if s.groupsStale {
		s.setFaults(nil)
		if s.layout != nil {
			s.groups = say.Gather(s.problemsSeen())
		}
	}
	return s.groups
}

func (s *Session) setFaults(groups []say.Fault) { s.groups, s.groupsStale = groups, false }

// problemsSeen are those that the look at the whole panel showed, or else the look at the cell.
func (s *Session) problemsSeen() []sheet.Problem {
	if r := s.Seen(); r != nil {
		return r.Problems
	}
	return s.liveProblems()
}

// liveProblems writes what the cell shows as problems on the panel, each at the copy that is in hand, or at the one
// nearest to the middle of the view.
func (s *Session) liveProblems() []sheet.Problem {
	var out []sheet.Problem
	need := s.layout.Draft.Sheet
	at := func(motif int, p, q orb.Point) (out sheet.Problem, ends [2][2]float64) {
		m := s.near(motif, p)
		a, b := m.Apply(p), m.Apply(q)
		middle := [2]float64{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
		return sheet.Problem{At: middle, Severity: sheet.Fault}, [2][2]float64{a, b}
	}

	for _, m := range s.Live().Overlaps {
		p, _ := at(m.Motif, m.P, m.Q)
		p.Kind, p.Measured = sheet.Overlap, m.Area
		out = append(out, p)
	}

	for _, m := range s.Live().Bridges {
		p, ends := at(m.Motif, m.P, m.Q)
		p.Kind, p.Measured, p.Required, p.Ends = sheet.Bridge, m.D, need.Bridge, &ends
		out = append(out, p)
	}

	for _, n := range s.Live().Necks {
		p, ends := at(n.Motif, n.P, n.Q)
		p.Kind, p.Measured, p.Required, p.Ends = sheet.Bridge, n.Width, need.Bridge, &ends
		if n.Hangs {
			p.Kind, p.Severity = sheet.Tip, sheet.Warning
		}
		out = append(out, p)
	}

	for _, n := range s.Live().Narrow {
		p, ends := at(n.Motif, n.P, n.Q)
		p.Kind, p.Measured, p.Required, p.Ends = sheet.Opening, n.Width, need.Opening, &ends
		if n.Hangs {
			p.Severity = sheet.Warning
		}
		out = append(out, p)
	}

	for _, n := range s.Live().Lost {
		p, _ := at(n.Motif, n.P, n.Q)
		out = append(out, sheet.LostProblem(n.Lost, need, p.At))
	}

	for _, n := range s.Live().Islands {
		p, _ := at(n.Motif, n.P, n.Q)
		p.Kind, p.Measured = sheet.Island, n.Area
		out = append(out, p)
	}
	return out
}

// near returns the map that carries a field point of a motif's own copy to the copy in hand, when it is of that motif,
// or else to the lattice place nearest to the middle of the view.
func (s *Session) near(motif int, p orb.Point) geometry.Map {
	l := s.layout
	if s.sel.Motif == motif && s.sel.ID != "" {
		return s.sel.Map(l)
	}
	field := l.Draft.FieldMap()
	c := field.Rigid().Apply(s.view.Centre)
	v := l.NearestLattice(orb.Point{c[0] - p[0], c[1] - p[1]})
	return field.Moved(field.Vector(v)[0], field.Vector(v)[1])
}

// Answer takes the engine's report on the whole panel; an answer to an older question is passed over.
func (s *Session) Answer(token int, text string) error {
	if token != s.token {
		return nil
	}

	var r sheet.Report
	if err := json.Unmarshal([]byte(text), &r); err != nil {
		return fmt.Errorf("the check's answer could not be read: %w", err)
	}

	s.report, s.reportErr = &r, ""
	s.setFaults(append(say.Gather(r.Problems), say.Weakest(r.Weak)...))
	s.answered = wholeAnswer{of: s.Draft(), report: s.report, groups: s.groups}
	s.fault = -1
	s.Touch()
	return nil
}

// AnswerFailed takes the engine's refusal.
func (s *Session) AnswerFailed(token int, text string) {
	if token == s.token {
		s.reportErr = text
		s.Changed = true
	}
}

// CheckAgain asks anew for the check of the whole panel that failed or was stopped.
func (s *Session) CheckAgain() {
	s.reportErr = ""
	s.Changed = true
}

// stepFault goes to the next fault, or the one before.
func (k *Desk) stepFault(by int) error {
	if len(k.Session.groups) == 0 {
		return errors.New("there is no fault to go to")
	}
	i := k.Session.fault + by
	if k.Session.fault < 0 && by < 0 {
		i = len(k.Session.groups) - 1
	}
	k.Goto((i + len(k.Session.groups)) % len(k.Session.groups))
	return nil
}

// Goto brings a fault into the middle of the view, close enough to be seen for what it is.
func (k *Desk) Goto(i int) {
	if i < 0 || i >= len(k.Session.groups) {
		return
	}

	k.leavePen()
	k.Session.fault = i
	p := k.Session.place(i)
	k.Session.Touch()
	if signOf(p) == sheet.SignNone { // it is about the whole sheet
		k.fit()
		return
	}

	k.View.LookAt(p.At)
	size := 12.0 // mm across, of what must be seen
	if p.Ends != nil {
		size = math.Max(size, 6*math.Hypot(p.Ends[0][0]-p.Ends[1][0], p.Ends[0][1]-p.Ends[1][1]))
	}
	if want := math.Min(k.View.Width-view.RulerLeft, k.View.Height-view.RulerTop) / (5 * size); k.View.Zoom < want {
		k.View.Zoom = view.Clamp(want, view.MinZoom, view.MaxZoom)
	}
}

// place returns the place of a fault nearest to the middle of the view.
func (s *Session) place(i int) sheet.Problem {
	best, out := math.Inf(1), s.faults()[i].First
	for _, p := range s.faults()[i].Places {
		if d := math.Hypot(p.At[0]-s.view.Centre[0], p.At[1]-s.view.Centre[1]); d < best {
			best, out = d, p
		}
	}
	return out
}
