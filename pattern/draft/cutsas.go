package draft

import "slices"

// CutsAs reports whether two drafts give the same sheet, problem for problem: they may differ in colours, swatches,
// title, names and unit. Outlines count as the same where they are one in memory, so that equal drafts read from two
// files do not, nor does one with an empty outline.
func (d Draft) CutsAs(e Draft) bool {
	a, b := d.Sheet, e.Sheet
	sameBed := (a.Bed == nil) == (b.Bed == nil) && (a.Bed == nil || *a.Bed == *b.Bed)
	a.Bed, b.Bed = nil, nil
	return a == b && sameBed && d.Panel == e.Panel && d.Field == e.Field && d.Repeat == e.Repeat &&
		slices.Equal(d.Motifs, e.Motifs) && slices.Equal(d.Ties, e.Ties) &&
		slices.EqualFunc(d.Silhouettes, e.Silhouettes, func(s, t Silhouette) bool {
			return s.ID == t.ID && sameOutline(s.Outline, t.Outline)
		}) &&
		slices.EqualFunc(d.Subjects, e.Subjects, func(s, t Subject) bool {
			return s.ID == t.ID && sameOutline(s.Outline, t.Outline) && s.At == t.At && s.Turn == t.Turn &&
				s.Scale == t.Scale && s.Mirrored == t.Mirrored && s.Room == t.Room && s.Edge == t.Edge
		})
}
