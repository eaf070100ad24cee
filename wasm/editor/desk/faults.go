package desk

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/sentences"
	"openwork/wasm/editor/desk/view"
)

// faultGroup is one fault of the repeat and the places where it shows on the panel.
type faultGroup struct {
	first  sheet.Problem
	places []sheet.Problem
	more   bool         // stands for all that are left of a kind
	strip  *sheet.Strip // of a weak strip
}

// note is the severity of what asks for no change of the pattern: weak strips, and a sheet larger than the bed.
const note = "note"

// severity is "fault", "warning" or "note".
func (g faultGroup) severity() string {
	if g.strip != nil || g.first.IsNote() {
		return note
	}
	return string(g.first.Severity)
}

// group gathers problems that are one fault, as sentences.Gather does.
func group(problems []sheet.Problem) []faultGroup {
	gathered := sentences.Gather(problems)
	out := make([]faultGroup, len(gathered))
	for i, f := range gathered {
		out[i] = faultGroup{first: f.First, places: f.Places, more: f.More}
	}
	return out
}

// told returns the faults and warnings of a list, without the weak strips.
func told(groups []faultGroup) []sentences.Fault {
	out := make([]sentences.Fault, 0, len(groups))
	for _, g := range groups {
		if g.strip == nil {
			out = append(out, sentences.Fault{First: g.first, Places: g.places, More: g.more})
		}
	}
	return out
}

// following reports whether the list follows the hand: the draft has changed under it and the panel was not looked at since.
func (k *Session) following() bool { return k.report == nil && k.InHand() }

// shown returns the list as it is now: while it follows the hand, what was seen of the panel, or of the cell.
func (k *Session) shown() []faultGroup {
	if !k.following() {
		return k.groups
	}
	if k.layout == nil {
		return nil
	}
	if k.handGroupsOf != k.revision {
		k.handGroups, k.handGroupsOf = group(k.problemsSeen()), k.revision
	}
	return k.handGroups
}

// groupLive makes the list of faults from what was seen of the panel, or of the cell, until the engine's answer comes.
func (k *Session) groupLive() {
	k.groups = nil
	if k.layout == nil {
		return
	}
	k.groups = group(k.problemsSeen())
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
	k.groups = append(group(r.Problems), weakest(r.Weak)...)
	k.fault = -1
	k.Touch()
	return nil
}

// weakKind is a strip that bends: the desk's own kind, told after the faults and warnings.
const weakKind sheet.Kind = "weak"

// fewStrips is how many strips are told as weak.
const fewStrips = 3

// weakest makes warnings of the strips that bend most.
func weakest(strips []sheet.Strip) []faultGroup {
	var out []faultGroup
	for _, s := range strips[:min(len(strips), fewStrips)] {
		p := sheet.Problem{Kind: weakKind, Severity: sheet.Warning, At: s.At, Measured: s.Width, Ends: &s.Ends}
		out = append(out, faultGroup{first: p, places: []sheet.Problem{p}, strip: &s})
	}
	return out
}

// stripText says how a strip bends.
func (k *Session) stripText(s sheet.Strip) string {
	held := "held at both ends"
	if s.Free {
		held = "held at one end only"
	}
	text := fmt.Sprintf("Long strip of sheet, %s by %s, %s times as long as wide, %s", k.length(s.Length), k.measure(s.Width), trim(s.Length/s.Width, 0), held)
	if s.InPlane != nil && s.Lifted != nil {
		text += fmt.Sprintf("; a newton (a push of 100 g) moves it about %s sideways and %s out of the sheet", k.measure(*s.InPlane), k.measure(*s.Lifted))
	}
	return text + ". One of the weakest places; compare, do not trust the figure."
}

// groupText is one fault's line in the list.
func (k *Session) groupText(g faultGroup) string {
	if g.strip != nil {
		return k.stripText(*g.strip)
	}
	return k.words().Fault(sentences.Fault{First: g.first, Places: g.places, More: g.more})
}

// placesText says at how many places a fault shows, where that is more than one. last is set for the last row of a kind and
// severity: of what is not listed, which is none the worse, some may be the same, and a row that stands for the rest has it all.
func (k *Session) placesText(g faultGroup, last bool) string {
	n, orMore := len(g.places), false
	if last && k.report != nil {
		total := k.report.Of(g.first.Kind, g.first.Severity)
		unlisted := max(0, total.Count-sheet.MaxListed)
		orMore = total.AtLeast
		if g.more {
			n += unlisted
		} else {
			orMore = orMore || unlisted > 0
		}
	}
	switch {
	case orMore:
		return "at " + count(n, "place", "places") + " or more"
	case n < 2:
		return ""
	}
	return "at " + count(n, "place", "places")
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
	best, out := math.Inf(1), k.groups[i].first
	for _, p := range k.groups[i].places {
		if d := math.Hypot(p.At[0]-k.view.Centre[0], p.At[1]-k.view.Centre[1]); d < best {
			best, out = d, p
		}
	}
	return out
}
