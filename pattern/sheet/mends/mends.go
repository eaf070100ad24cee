// Package mends finds what would put a sheet right, and measures each by checking the whole panel with it before it is
// offered: the report is of the very draft that the command makes.
//
// An offer lessens what is wrong (sheet.Lessens). The one that leaves the fewest faults comes first; among equals the
// one that changes the least of the sheet: the area that is open before and not after, or after and not before.
//
// The work is bounded, in corners of outlines laid on a panel (maxCorners) and not in seconds, so that the same draft
// has the same offers anywhere. What parts copies that run into each other is looked for by the live check of one cell,
// and only what clears them all is measured on the panel.
package mends

import (
	"cmp"
	"math"
	"slices"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/sheet/ties"
)

const (
	// maxCorners bounds the checks of the panel: those of the copies laid in all of them together. The demonstration
	// has 24,000 corners on its panel.
	maxCorners = 150e3
	// minChecks of the panel are made however many corners it has, of commands that may leave no fault at all.
	minChecks = 3
	// maxTieChecks bounds the checks and surveys of the panel that ties may take.
	maxTieChecks = 12
	// maxMoves ways to move a motif out of the way are measured, until one leaves no fault.
	maxMoves = 2
)

// Offer returns the mends for a panel's report, which panel.Check has given for this layout: those that leave the
// fewest faults first, among these those that change the sheet least. A command that does not make the sheet better by
// sheet.Lessens is not offered; nor is one on whose draft the check fails. It reports how far it has come.
func Offer(l *pattern.Layout, report sheet.Report, onProgress progress.Func) ([]sheet.Mend, error) {
	if len(report.Totals) == 0 {
		return []sheet.Mend{}, nil
	}
	s := &search{l: l, report: report, left: maxCorners, progress: onProgress, changes: newChanges(l)}
	s.faults, _ = report.Count(sheet.Fault)

	inTheWay := !sheet.Apart(l)
	if inTheWay {
		s.part()
	}
	s.progress.At(0.5)
	// What leaves copies in each other's way leaves faults, and is no offer beside one that leaves none.
	if !inTheWay || !s.mended() {
		s.others(!inTheWay)
	}
	s.progress.At(1)

	slices.SortStableFunc(s.out, better)
	return s.out, nil
}

// better orders mends: fewest faults, then the least changed.
func better(a, b sheet.Mend) int {
	return cmp.Or(cmp.Compare(a.After, b.After), cmp.Compare(a.Changed, b.Changed))
}

// search is one run of Offer.
type search struct {
	l        *pattern.Layout
	report   sheet.Report
	progress progress.Func
	faults   int     // there are now
	left     float64 // corners that may still be laid
	checks   int     // of the panel, made so far
	changes  *changes
	out      []sheet.Mend
}

// mended reports whether some offer leaves no fault.
func (s *search) mended() bool {
	return slices.ContainsFunc(s.out, func(m sheet.Mend) bool { return m.After == 0 })
}

// part tries what parts copies that run into each other or come too near.
func (s *search) part() {
	var moved []sheet.Mend
	moves := sheet.MovesApart(s.l)
	for _, c := range moves[:min(len(moves), maxMoves)] {
		if m, ok := s.measure(c, true); ok {
			moved = append(moved, m)
			if m.After == 0 {
				break
			}
		}
	}
	if len(moved) > 0 {
		s.out = append(s.out, slices.MinFunc(moved, better))
	}
	for _, find := range []func(*pattern.Layout) (pattern.Command, bool){sheet.Shrink, sheet.OpenCell} {
		if c, ok := find(s.l); ok {
			s.try(c, true)
		}
	}
}

// others tries what mends faults of other kinds. must is false when none of it can leave a sheet without fault.
func (s *search) others(must bool) {
	all := s.candidates()
	for k, c := range all {
		s.progress.Within(0.5, 0.9).Of(k, len(all))
		s.try(c, must)
	}
	if s.wants(sheet.Tying) {
		s.tied()
	}
	if s.wants(sheet.Filling) {
		s.filled()
	}
}

// wants reports whether there are problems that a move may mend: faults, as long as there are any.
func (s *search) wants(m sheet.Move) bool {
	return slices.ContainsFunc(s.report.Totals, func(t sheet.Total) bool {
		return t.Severity == s.severity() && t.Count > 0 && t.Kind.MendedBy(m)
	})
}

// severity is what is to be lessened: faults, and warnings where there is no fault.
func (s *search) severity() sheet.Severity {
	if s.faults > 0 {
		return sheet.Fault
	}
	return sheet.Warning
}

// candidates are the commands worth a check of the panel, besides those that part copies and those that tie, the
// gentlest first.
func (s *search) candidates() []pattern.Command {
	var out []pattern.Command
	d := s.l.Draft
	for _, p := range s.report.Problems {
		if p.Mend == nil || p.Mend.Name != "remove" || !p.Kind.MendedBy(sheet.TakeOut) {
			continue
		}
		if !slices.ContainsFunc(out, func(c pattern.Command) bool { return c.ID == p.Mend.ID }) {
			out = append(out, *p.Mend)
		}
	}

	if c, ok := s.margin(); ok {
		out = append(out, c)
	}
	switch {
	case s.wants(sheet.CropCopies) && d.Field.Edge != draft.Crop:
		out = append(out, pattern.Command{Name: "edge", Text: string(draft.Crop)})
	case d.Field.Edge != draft.Whole:
		out = append(out, pattern.Command{Name: "edge", Text: string(draft.Whole)})
	}
	if s.wants(sheet.Rounding) {
		out = append(out, s.rounded()...)
	}
	return out
}

// margin returns the command that widens the margin until no opening is too near the sheet's edge, where copies end at
// it.
func (s *search) margin() (c pattern.Command, ok bool) {
	d := s.l.Draft
	wider := 0.0
	for _, p := range s.report.Problems {
		if p.Kind.MendedBy(sheet.Margin) && p.Severity == sheet.Fault {
			wider = max(wider, p.Required-p.Measured)
		}
	}
	if wider == 0 || d.Field.Edge == draft.Touching {
		return c, false
	}
	to := math.Ceil((d.Field.Margin+wider)*10) / 10
	return pattern.Command{Name: "field", Values: map[string]float64{"margin": to}}, true
}

// tied tries ties for the islands. Ties are checked on the panel where they are proposed.
func (s *search) tied() {
	n := float64(max(1, s.corners(s.l)))
	checks := min(maxTieChecks, int(s.left/n))
	if checks < 2 { // a survey and a check
		return
	}
	p, err := ties.For(s.l, s.report, checks)
	s.left -= n * float64(p.Checks)
	if err != nil || p.Added == 0 {
		return
	}
	c := pattern.Command{Name: "ties", Ties: p.Ties}
	next, err := pattern.Apply(s.l.Draft, c)
	if err != nil || !slices.Equal(next.Ties, p.Ties) {
		return
	}
	if l, err := pattern.NewLayout(next, s.l.Shapes); err == nil {
		if m, ok := s.mend(c, l, p.After); ok {
			s.out = append(s.out, m)
		}
	}
}

// try offers a command if the panel is the better for it.
func (s *search) try(c pattern.Command, must bool) {
	if m, ok := s.measure(c, must); ok {
		s.out = append(s.out, m)
	}
}

// measure carries a command out and checks the panel; false when it cannot be, makes nothing better, or would be more
// work than is left. The first minChecks are made all the same of what must be looked at.
func (s *search) measure(c pattern.Command, must bool) (sheet.Mend, bool) {
	next, err := pattern.Apply(s.l.Draft, c)
	if err != nil {
		return sheet.Mend{}, false
	}
	l, err := pattern.NewLayout(next, s.l.Shapes)
	if err != nil || !s.affords(l, must) {
		return sheet.Mend{}, false
	}
	r, err := s.check(l)
	if err != nil {
		return sheet.Mend{}, false
	}
	return s.mend(c, l, r)
}

// check is the panel's check of what a command makes.
func (s *search) check(l *pattern.Layout) (sheet.Report, error) { return panel.Measure(l) }

// mend is what a command does whose draft is laid out and checked; false when it makes nothing better.
func (s *search) mend(c pattern.Command, l *pattern.Layout, r sheet.Report) (sheet.Mend, bool) {
	if !sheet.Lessens(s.report, r) {
		return sheet.Mend{}, false
	}
	m := sheet.NewMend(c, s.report, r)
	m.Changed = s.changes.to(l)
	return m, true
}

// affords takes a check of the panel off what may still be done; false when it is too much.
func (s *search) affords(l *pattern.Layout, must bool) bool {
	n := float64(s.corners(l))
	if n == 0 || (n > s.left && (!must || s.checks >= minChecks)) {
		return false
	}
	s.left -= n
	s.checks++
	return true
}

// corners counts the corners of all copies; 0 when there are none, or too many to lay.
func (s *search) corners(l *pattern.Layout) int {
	copies, err := l.Copies()
	if err != nil {
		return 0
	}
	of := make([]int, len(l.Draft.Motifs))
	for i, m := range l.Draft.Motifs {
		silhouette, _ := l.Draft.Silhouette(m.Silhouette)
		of[i] = geometry.Points(silhouette.Outline)
	}
	n := 0
	for _, c := range copies {
		n += of[c.Motif]
	}
	return n
}
