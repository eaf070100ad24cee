package ties

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/geometry/residue"
	"openwork/pattern/draft"
)

// local is the opening round an island, cut to a window of the panel.
type local struct {
	opening orb.MultiPolygon
	window  orb.Bound
}

// localOf returns an island's opening near it.
func (sc *scene) localOf(island int) local {
	if l, ok := sc.locals[island]; ok {
		return l
	}
	i := sc.s.Islands[island]
	l := local{window: i.Bound.Pad(nearby*sc.wide + sc.l.Draft.Sheet.Bridge)}
	o := sc.s.Openings[i.Opening]
	l.opening = geometry.Transform(o.Shape.Outline(), geometry.Translate(o.Shift[0], o.Shift[1]))
	if b := o.Bound(); !l.window.Contains(b.Min) || !l.window.Contains(b.Max) {
		cut, err := overlay.Intersection(l.opening, geometry.RectOutline(l.window))
		if err != nil {
			cut = nil
		}
		l.opening = cut
	}
	sc.locals[island] = l
	return l
}

// narrow counts what would be at fault in and round an island's opening, near it, with ties on the panel taken off:
// parts too narrow for paste, strips of sheet that join wider sheet and parts that come too near to each other. It is
// an estimate for comparing places with each other: what it cannot find out counts as nothing.
func (sc *scene) narrow(island int, ties []draft.Tie) int {
	l, need := sc.localOf(island), sc.l.Draft.Sheet
	if len(l.opening) == 0 || geometry.Points(l.opening) > maxPoints {
		return 0
	}
	var rects orb.MultiPolygon
	for _, t := range ties {
		if r := t.Rect(); r.Bound().Intersects(l.window) {
			rects = append(rects, r)
		}
	}
	rest, err := overlay.Difference(l.opening, rects)
	if err != nil {
		return 0
	}
	n := 0
	var shapes []*geometry.Shape
	for _, p := range rest {
		one := orb.MultiPolygon{p}
		s := geometry.NewShape(one)
		shapes = append(shapes, s)
		if !s.HasRoom(max(need.Opening, need.Kerf) / 2) {
			n++
		} else if need.Opening > 0 {
			n += joins(residue.Of(one, need.Opening, coarse))
		}
		if need.Bridge > 0 {
			n += joins(residue.Around(one, need.Bridge, coarse))
		}
	}

	for i, s := range shapes {
		for _, o := range shapes[i+1:] {
			if geometry.Distance(s, o, orb.Point{}, need.Bridge).Found {
				n++
			}
		}
	}
	return n
}

// joins counts the pieces of residue that part wider places.
func joins(found []residue.Piece, err error) int {
	n := 0
	if err == nil {
		for _, p := range found {
			if p.Joins() {
				n++
			}
		}
	}
	return n
}
