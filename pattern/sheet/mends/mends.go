// Package mends finds what would put a sheet right, and measures each by checking the whole panel with it before it is
// offered.
package mends

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/offset"
	"openwork/pattern"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/sheet/ties"
)

// roundTolerance in mm: how far a rounded outline may be off the round it stands for. A tenth of a usual kerf.
const roundTolerance = 0.02

// Offer returns the mends for a panel's report, those that leave the fewest faults first, among these those that change
// the draft least. A command that does not make the sheet better is not offered. It checks the panel once for every command
// it tries, of which there are no more than a handful and two for each silhouette, and tells how far it has come.
func Offer(l *pattern.Layout, report sheet.Report, told progress.Func) ([]sheet.Mend, error) {
	now := tally(report)
	out := []sheet.Mend{}
	if total(now, sheet.Fault) == 0 && total(now, sheet.Warning) == 0 {
		return out, nil
	}
	told.At(0.1)
	all := candidates(l, report)
	for k, c := range all {
		told.Within(0.4, 1).Of(k, len(all))
		m, ok := measure(l.Draft, c, now)
		if ok {
			out = append(out, m)
		}
	}
	slices.SortStableFunc(out, func(a, b sheet.Mend) int { return a.After - b.After })
	return out, nil
}

// count is how many problems of a kind and severity there are.
type count map[sheet.Kind]map[sheet.Severity]int

func tally(r sheet.Report) count {
	out := count{}
	for _, t := range r.Totals {
		if out[t.Kind] == nil {
			out[t.Kind] = map[sheet.Severity]int{}
		}
		out[t.Kind][t.Severity] = t.Count
	}
	return out
}

func total(c count, s sheet.Severity) int {
	n := 0
	for _, of := range c {
		n += of[s]
	}
	return n
}

// candidates are the commands worth trying for what the report says, the gentlest first.
func candidates(l *pattern.Layout, report sheet.Report) []pattern.Command {
	var out []pattern.Command
	has := map[sheet.Kind]bool{}
	for _, p := range report.Problems {
		has[p.Kind] = true
		if p.Mend != nil && p.Mend.Name != "cell" && !slices.ContainsFunc(out, func(c pattern.Command) bool { return c.Name == p.Mend.Name && c.ID == p.Mend.ID }) {
			out = append(out, *p.Mend)
		}
	}
	if has[sheet.Overlap] || has[sheet.Bridge] {
		for _, find := range []func(*pattern.Layout) (pattern.Command, bool){sheet.MoveApart, sheet.Shrink, sheet.OpenCell} {
			if c, ok := find(l); ok {
				out = append(out, c)
			}
		}
	}
	if has[sheet.Island] {
		if proposed, err := ties.Propose(l); err == nil && len(proposed) > len(l.Draft.Ties) {
			out = append(out, pattern.Command{Name: "ties", Ties: proposed})
		}
	}
	if has[sheet.Tip] || has[sheet.Opening] || has[sheet.Bridge] {
		out = append(out, rounded(l, report)...)
	}
	if l.Draft.Field.Edge != pattern.Whole && !slices.ContainsFunc(out, func(c pattern.Command) bool { return c.Name == "edge" }) {
		out = append(out, pattern.Command{Name: "edge", Text: string(pattern.Whole)})
	}
	return out
}

// measure carries a command out and checks the panel; false when it cannot be or makes nothing better.
func measure(d pattern.Draft, c pattern.Command, now count) (sheet.Mend, bool) {
	next, err := pattern.Apply(d, c)
	if err != nil {
		return sheet.Mend{}, false
	}
	l, err := pattern.NewLayout(next, nil)
	if err != nil {
		return sheet.Mend{}, false
	}
	r, err := panel.Measure(l)
	if err != nil || r.Counts.Copies == 0 {
		return sheet.Mend{}, false
	}
	then := tally(r)
	m := sheet.Mend{Command: c, Before: total(now, sheet.Fault), After: total(then, sheet.Fault), Sound: r.Sound, Narrowest: r.NarrowestBetween}
	for _, kind := range sheet.Kinds() {
		if then[kind][sheet.Fault] < now[kind][sheet.Fault] || (then[kind][sheet.Fault] == now[kind][sheet.Fault] && then[kind][sheet.Warning] < now[kind][sheet.Warning]) {
			m.Kinds = append(m.Kinds, kind)
		}
	}
	better := m.After < m.Before || (m.After == m.Before && total(then, sheet.Warning) < total(now, sheet.Warning))
	return m, better && len(m.Kinds) > 0
}

// rounded returns commands that round off what is too narrow within silhouettes: tails of the opening that paste does not
// enter, and tongues or strips of sheet that the knife would bend.
func rounded(l *pattern.Layout, report sheet.Report) []pattern.Command {
	type want struct{ open, close float64 } // mm in the silhouette's frame
	wants := map[string]want{}
	copies, err := l.Copies()
	if err != nil {
		return nil
	}
	need := l.Draft.Sheet
	for _, p := range report.Problems {
		if p.Between == nil || p.Between[0] != p.Between[1] || p.Between[0] >= len(copies) {
			continue
		}
		m := l.Draft.Motifs[copies[p.Between[0]].Motif]
		w := wants[m.Silhouette]
		switch p.Kind {
		case sheet.Opening:
			w.open = math.Max(w.open, need.Opening/m.Scale/2)
		case sheet.Tip, sheet.Bridge:
			w.close = math.Max(w.close, need.Bridge/m.Scale/2)
		}
		wants[m.Silhouette] = w
	}
	var out []pattern.Command
	for _, s := range l.Draft.Silhouettes {
		w, ok := wants[s.ID]
		if !ok {
			continue
		}
		for _, steps := range [][]float64{{-w.open, w.open}, {w.close, -w.close}} {
			if steps[0] == 0 {
				continue
			}
			if mp, err := through(s.Outline, steps); err == nil {
				out = append(out, pattern.Command{Name: "redraw", ID: s.ID, Outline: mp})
			}
		}
	}
	return out
}

// through grows and shrinks an outline by the given steps, a hair further on the way out than back, so that what comes out
// is wide enough after rounding.
func through(mp orb.MultiPolygon, steps []float64) (orb.MultiPolygon, error) {
	hair := math.Copysign(roundTolerance, steps[0])
	out, err := offset.Offset(mp, steps[0]+hair, roundTolerance)
	if err != nil {
		return nil, err
	}
	if out, err = offset.Offset(out, steps[1]-hair, roundTolerance); err != nil {
		return nil, err
	}
	out = geometry.SnapOutline(out)
	if len(out) == 0 {
		return nil, fmt.Errorf("nothing would be left")
	}
	return out, geometry.CheckOutline(out)
}
