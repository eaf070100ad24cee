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

// following reports whether the list follows the hand: the draft has changed under it and the panel was not looked at since.
func (k *Session) following() bool { return k.report == nil && k.InHand() }

// shown returns the list as it is now: while it follows the hand, what was seen of the panel, or of the cell.
func (k *Session) shown() []say.Fault {
	if !k.following() {
		return k.groups
	}
	if k.layout == nil {
		return nil
	}
	if k.handGroupsOf != k.revision {
		k.handGroups, k.handGroupsOf = say.Gather(k.problemsSeen()), k.revision
	}
	return k.handGroups
}

// groupLive makes the list of faults from what was seen of the panel, or of the cell, until the engine's answer comes.
func (k *Session) groupLive() {
	k.groups = nil
	if k.layout == nil {
		return
	}
	k.groups = say.Gather(k.problemsSeen())
}

// problemsSeen are those that the look at the whole panel showed, or else the look at the cell.
func (k *Session) problemsSeen() []sheet.Problem {
	if k.seen != nil {
		return k.seen.Problems
	}
	return k.liveProblems()
}

// liveProblems writes what the cell shows as problems on the panel, each at the copy that is in hand, or at the one
// nearest to the middle of the view.
func (k *Session) liveProblems() []sheet.Problem {
	var out []sheet.Problem
	need := k.layout.Draft.Sheet
	at := func(motif int, p, q orb.Point) (sheet.Problem, [2][2]float64) {
		m := k.near(motif, p)
		a, b := m.Apply(p), m.Apply(q)
		return sheet.Problem{At: [2]float64{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}, Severity: sheet.Fault}, [2][2]float64{a, b}
	}
	for _, m := range k.live.Overlaps {
		p, _ := at(m.Motif, m.P, m.Q)
		p.Kind, p.Measured = sheet.Overlap, m.Area
		out = append(out, p)
	}
	for _, m := range k.live.Bridges {
		p, ends := at(m.Motif, m.P, m.Q)
		p.Kind, p.Measured, p.Required, p.Ends = sheet.Bridge, m.D, need.Bridge, &ends
		out = append(out, p)
	}
	for _, n := range k.live.Necks {
		p, ends := at(n.Motif, n.P, n.Q)
		p.Kind, p.Measured, p.Required, p.Ends = sheet.Bridge, n.Width, need.Bridge, &ends
		if n.Hangs {
			p.Kind, p.Severity = sheet.Tip, sheet.Warning
		}
		out = append(out, p)
	}
	for _, n := range k.live.Narrow {
		p, ends := at(n.Motif, n.P, n.Q)
		p.Kind, p.Measured, p.Required, p.Ends = sheet.Opening, n.Width, need.Opening, &ends
		if n.Hangs {
			p.Severity = sheet.Warning
		}
		out = append(out, p)
	}
	for _, n := range k.live.Lost {
		p, _ := at(n.Motif, n.P, n.Q)
		out = append(out, sheet.LostProblem(n.Lost, need, p.At))
	}
	for _, n := range k.live.Islands {
		p, _ := at(n.Motif, n.P, n.Q)
		p.Kind, p.Measured = sheet.Island, n.Area
		out = append(out, p)
	}
	return out
}

// near returns the map that carries a field point of a motif's own copy to the copy in hand, when it is of that motif,
// or else to the lattice place nearest to the middle of the view.
func (k *Session) near(motif int, p orb.Point) geometry.Map {
	l := k.layout
	if k.sel.Motif == motif && k.sel.ID != "" {
		return k.sel.Map(l)
	}
	field := l.Draft.FieldMap()
	c := field.Rigid().Apply(k.view.Centre)
	v := l.NearestLattice(orb.Point{c[0] - p[0], c[1] - p[1]})
	return field.Moved(field.Vector(v)[0], field.Vector(v)[1])
}

// Answer takes the engine's report on the whole panel; an answer to an older question is passed over.
func (k *Session) Answer(token int, text string) error {
	if token != k.token {
		return nil
	}
	var r sheet.Report
	if err := json.Unmarshal([]byte(text), &r); err != nil {
		return fmt.Errorf("the check's answer could not be read: %w", err)
	}
	k.report, k.reportErr = &r, ""
	k.groups = append(say.Gather(r.Problems), say.Weakest(r.Weak)...)
	k.fault = -1
	k.Touch()
	return nil
}

// AnswerFailed takes the engine's refusal.
func (k *Session) AnswerFailed(token int, text string) {
	if token == k.token {
		k.reportErr = text
		k.Changed = true
	}
}

// CheckAgain asks anew for the check of the whole panel that failed or was stopped.
func (k *Session) CheckAgain() {
	k.reportErr = ""
	k.Changed = true
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
func (k *Session) place(i int) sheet.Problem {
	best, out := math.Inf(1), k.groups[i].First
	for _, p := range k.groups[i].Places {
		if d := math.Hypot(p.At[0]-k.view.Centre[0], p.At[1]-k.view.Centre[1]); d < best {
			best, out = d, p
		}
	}
	return out
}
