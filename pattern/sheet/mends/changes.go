package mends

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// samples is at how many points of the sheet it is asked whether they are open. They keep mends apart whose changes
// differ by more than a thousandth of the sheet or so.
const samples = 2048

// changes compares what is open on a sheet with what a mend makes of it.
type changes struct {
	box  orb.Bound
	at   []orb.Point
	open []bool
}

// newChanges looks at the sheet of a layout. The points follow the additive recurrence of the plastic number, which
// fills a square evenly and in no rhythm a repeat could share: M. Roberts, The unreasonable effectiveness of
// quasirandom sequences, 2018.
func newChanges(l *pattern.Layout) *changes {
	c := &changes{box: l.Draft.SheetBound()}
	const plastic = 1.32471795724474602596 // the real root of x³ = x + 1
	for n := range samples {
		_, u := math.Modf(0.5 + float64(n+1)/plastic)
		_, v := math.Modf(0.5 + float64(n+1)/(plastic*plastic))
		c.at = append(c.at, orb.Point{
			c.box.Min[0] + u*(c.box.Max[0]-c.box.Min[0]), c.box.Min[1] + v*(c.box.Max[1]-c.box.Min[1])})
	}
	c.open = openings(l, c.at)
	return c
}

// to returns how much of the sheet is open in one of the two and not in the other, mm².
func (c *changes) to(l *pattern.Layout) float64 {
	n := 0
	for k, open := range openings(l, c.at) {
		if open != c.open[k] {
			n++
		}
	}
	return float64(n) / samples * (c.box.Max[0] - c.box.Min[0]) * (c.box.Max[1] - c.box.Min[1])
}

// openings says which panel points lie in openings, after the edge rule and less the ties.
func openings(l *pattern.Layout, at []orb.Point) []bool {
	field, rule := l.Draft.FieldBound(), l.Draft.Field.Edge
	toField := l.Draft.FieldMap().Rigid()
	out := make([]bool, len(at))
	for k, p := range at {
		out[k] = (rule == draft.Touching || field.Contains(p)) && inCopy(l, toField.Apply(p)) && !underTie(l, p)
	}
	return out
}

// inCopy reports whether a field point lies in a copy that the edge rule keeps, and in no room. A crop at the margin is
// the caller's.
func inCopy(l *pattern.Layout, p orb.Point) bool {
	if len(l.Rooms) > 0 && l.InRoom(l.Draft.FieldMap().Apply(p)) {
		return false
	}
	for _, o := range l.Orbits {
		for _, i := range o.Images {
			found := !l.Cells(orb.Bound{Min: p, Max: p}, i.Bound(), func(m, n int) bool {
				v := l.Lattice(m, n)
				return !i.Contains(orb.Point{p[0] - v[0], p[1] - v[1]}) || !kept(l, i, v)
			})
			if found {
				return true
			}
		}
	}
	return false
}

// kept reports whether the edge rule and the rooms keep an image moved by v, of which a point lies in the field if it
// crops, and in no room.
func kept(l *pattern.Layout, i pattern.Image, v orb.Point) bool {
	if len(l.Rooms) > 0 {
		return l.Keeps(i, v)
	}
	switch l.Draft.Field.Edge {
	case draft.Whole:
		return l.PlaceOf(i, v) == geometry.Within
	case draft.Touching:
		return l.PlaceOf(i, v) != geometry.Outside
	}
	return true
}

// underTie reports whether a panel point lies under a tie of the field; those of silhouettes are off their outlines
// already.
func underTie(l *pattern.Layout, p orb.Point) bool {
	for _, t := range l.Draft.Ties {
		if t.Silhouette != "" {
			continue
		}
		for _, i := range l.TieImages(t, orb.Bound{Min: p, Max: p}) {
			if geometry.Contains(orb.MultiPolygon{i.Rect()}, p) {
				return true
			}
		}
	}
	return false
}
