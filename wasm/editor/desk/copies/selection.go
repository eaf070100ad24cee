package copies

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// Held names one copy of a motif: an operation of the group, and cells.
type Held struct {
	Motif, Op int
	Cell      [2]int
}

// Map returns the map from the field as the motif itself stands in it to the held copy, in panel mm.
func (h Held) Map(l *pattern.Layout) geometry.Map {
	return l.Draft.FieldMap().After(l.Op(h.Op, h.Cell[0], h.Cell[1]))
}

// Selection is the motif that is chosen and the copy of it that the handles stand on. The zero value with Motif −1 is
// none.
type Selection struct {
	ID string // of the motif, "" for none
	Held
}

// None returns the selection of nothing.
func None() Selection { return Selection{Held: Held{Motif: -1}} }

// Choose selects a motif, by the copy nearest to a panel point. l is nil where the draft is not laid out.
func (s *Selection) Choose(id string, d draft.Draft, l *pattern.Layout, near orb.Point) {
	if id != s.ID {
		s.ID, s.Held = id, Held{Motif: d.Motif(id)}
		s.HoldNear(l, near)
	}
}

// Keep lets go of a motif that is no longer in the draft.
func (s *Selection) Keep(d draft.Draft) {
	s.Motif = d.Motif(s.ID)
	if s.Motif < 0 {
		s.ID = ""
	}
}

// HoldNear puts the handles on the copy nearest to a panel point.
func (s *Selection) HoldNear(l *pattern.Layout, p orb.Point) {
	i := s.Motif
	if l == nil || i < 0 || i >= len(l.Orbits) {
		return
	}

	o := l.Orbits[i]
	if o.SameAs >= 0 {
		s.Held = Held{Motif: i}
		return
	}

	q := l.Draft.FieldMap().Rigid().Apply(p)
	best := math.Inf(1)
	for _, image := range o.Images {
		c := image.Centroid()
		a, b := l.NearestCell(orb.Point{q[0] - c[0], q[1] - c[1]})
		v := l.Lattice(a, b)
		if d := math.Hypot(q[0]-c[0]-v[0], q[1]-c[1]-v[1]); d < best {
			best = d
			s.Held = Held{i, image.Op, [2]int{a, b}}
		}
	}
}

// HoldKept puts the handles on the copy nearest to a panel point when the one they stood on is no longer on the panel.
func (s *Selection) HoldKept(l *pattern.Layout, p orb.Point) {
	if l == nil {
		return
	}

	i := l.Draft.Motif(s.ID)
	if i < 0 {
		return
	}

	for _, image := range l.Orbits[i].Images {
		if image.Op == s.Op && Kept(l, image, l.Lattice(s.Cell[0], s.Cell[1])) {
			return
		}
	}
	s.Held = Held{Motif: i}
	s.HoldNear(l, p)
}

// Kept reports whether the edge rule and the subjects' rooms keep the copy of an image moved by v.
func Kept(l *pattern.Layout, image pattern.Image, v orb.Point) bool { return l.Keeps(image, v) }
