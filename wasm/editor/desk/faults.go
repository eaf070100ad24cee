package desk

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/sheet"
)

// faultGroup is one fault of the repeat and the places where it shows on the panel.
type faultGroup struct {
	first  sheet.Problem
	places []sheet.Problem
	strip  *sheet.Strip // of a weak strip
}

// measuredSlack in mm or mm²: problems alike in kind whose figures differ by less are one fault of the repeat. Images
// of one fault differ by rounding only.
const measuredSlack = 1e-3

// group gathers problems that are one fault: same kind, same severity, same figure. Faults come before warnings, then
// by kind, the worst first.
func group(problems []sheet.Problem) []faultGroup {
	var out []faultGroup
	for _, p := range problems {
		found := false
		for i := range out {
			f := &out[i].first
			if f.Kind == p.Kind && f.Severity == p.Severity && math.Abs(f.Measured-p.Measured) < measuredSlack {
				out[i].places = append(out[i].places, p)
				found = true
				break
			}
		}
		if !found {
			out = append(out, faultGroup{first: p, places: []sheet.Problem{p}})
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, b := out[i].first, out[j].first
		if a.Severity != b.Severity {
			return a.Severity == sheet.Fault
		}
		if a.Kind != b.Kind {
			return a.Kind.Rank() < b.Kind.Rank()
		}
		if a.Kind.LargerIsWorse() {
			return a.Measured > b.Measured
		}
		return a.Measured < b.Measured
	})
	return out
}

// groupLive makes the list of faults from what the cell shows, until the whole panel's answer comes.
func (k *Desk) groupLive() {
	k.groups = nil
	if k.layout == nil {
		return
	}
	k.groups = group(k.liveProblems())
}

// liveProblems writes what the cell shows as problems on the panel, each at the copy that is in hand, or at the one
// nearest to the middle of the view.
func (k *Desk) liveProblems() []sheet.Problem {
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
	for _, n := range k.live.Islands {
		p, _ := at(n.Motif, n.P, n.Q)
		p.Kind, p.Measured = sheet.Island, n.Area
		out = append(out, p)
	}
	return out
}

// near returns the map that carries a field point of a motif's own copy to the copy in hand, when it is of that motif,
// or else to the lattice place nearest to the middle of the view.
func (k *Desk) near(motif int, p orb.Point) geometry.Map {
	l := k.layout
	if k.held.Motif == motif && k.selected != "" {
		return k.copyMap(k.held)
	}
	field := l.Draft.FieldMap()
	c := field.Rigid().Apply(k.View.Centre)
	v := l.NearestLattice(orb.Point{c[0] - p[0], c[1] - p[1]})
	return field.Moved(field.Vector(v)[0], field.Vector(v)[1])
}

// Answer takes the engine's report on the whole panel; an answer to an older question is passed over.
func (k *Desk) Answer(token int, text string) error {
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
	k.Changed, k.Redraw = true, true
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
func (k *Desk) stripText(s sheet.Strip) string {
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

// AnswerFailed takes the engine's refusal.
func (k *Desk) AnswerFailed(token int, text string) {
	if token == k.token {
		k.reportErr = text
		k.Changed = true
	}
}

// CheckAgain asks anew for the check of the whole panel that failed or was stopped.
func (k *Desk) CheckAgain() {
	k.reportErr = ""
	k.Changed = true
}

// faultCount is how many faults there are, each once; warnings do not count.
func (k *Desk) faultCount() int {
	n := 0
	for _, g := range k.groups {
		if g.first.Severity == sheet.Fault {
			n++
		}
	}
	return n
}

// stepFault goes to the next fault, or the one before.
func (k *Desk) stepFault(by int) error {
	if len(k.groups) == 0 {
		return errors.New("there is no fault to go to")
	}
	i := k.fault + by
	if k.fault < 0 && by < 0 {
		i = len(k.groups) - 1
	}
	k.Goto((i + len(k.groups)) % len(k.groups))
	return nil
}

// Goto brings a fault into the middle of the view, close enough to be seen for what it is.
func (k *Desk) Goto(i int) {
	if i < 0 || i >= len(k.groups) {
		return
	}
	k.leavePen()
	k.fault = i
	p := k.place(i)
	k.View.lookAt(p.At)
	k.whole = false
	size := 12.0 // mm across, of what must be seen
	if p.Ends != nil {
		size = math.Max(size, 6*math.Hypot(p.Ends[0][0]-p.Ends[1][0], p.Ends[0][1]-p.Ends[1][1]))
	}
	if want := math.Min(k.View.Width-RulerLeft, k.View.Height-RulerTop) / (5 * size); k.View.Zoom < want {
		k.View.Zoom = clamp(want, minZoom, maxZoom)
	}
	k.Changed, k.Redraw = true, true
}

// place returns the place of a fault nearest to the middle of the view.
func (k *Desk) place(i int) sheet.Problem {
	best, out := math.Inf(1), k.groups[i].first
	for _, p := range k.groups[i].places {
		if d := math.Hypot(p.At[0]-k.View.Centre[0], p.At[1]-k.View.Centre[1]); d < best {
			best, out = d, p
		}
	}
	return out
}
