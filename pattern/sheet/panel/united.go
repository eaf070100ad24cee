package panel

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/progress"
)

// united is a panel's copies, what the edge rule and the ties leave of them, and the connected openings they make.
type united struct {
	l       *pattern.Layout
	copies  []pattern.Copy
	density density

	// pieces are what is left of each copy. When the field is dense copies are not cut one by one: then there is one
	// for each opening, which names one of its copies and has no shape.
	pieces   []piece
	meetings *meetings // nil when dense

	openings []opening
	of       []int // the opening of each piece
}

// unite finds the openings, and the pairs of pieces nearer than reach mm (none when the field is dense).
func (u *united) unite(reach float64, onProgress progress.Func) (met []meeting, err error) {
	if u.copies, err = u.l.Copies(); err != nil {
		return nil, err
	}
	return u.uniteAs(densityOf(u.l, u.copies), reach, onProgress)
}

// uniteAs is unite for copies that are known, and a density that is.
func (u *united) uniteAs(d density, reach float64, onProgress progress.Func) (met []meeting, err error) {
	u.density = d
	if d == dense {
		return nil, u.uniteDense()
	}

	if u.pieces, err = pieces(u.l, u.copies); err != nil {
		return nil, err
	}
	onProgress.At(0.15)
	u.meetings = newMeetings(u.pieces, u.copies)
	u.meetings.progress = onProgress.Within(0.15, 0.7)
	met = u.meetings.within(reach)
	u.meetings.progress = nil // looking further out later is not reported

	if u.density == crowded {
		return met, u.uniteCrowded()
	}
	u.openings, u.of, err = unite(u.pieces, met, onProgress.Within(0.7, 1))
	return met, err
}

// uniteCrowded finds the openings block by block, and which pieces each is made of.
func (u *united) uniteCrowded() (err error) {
	if u.openings, err = blockOpenings(u.l, u.copies); err != nil {
		return err
	}
	order := u.openingsByPlace()
	u.of = make([]int, len(u.pieces))
	within := map[pieceKey]orb.Point{} // a point inside, in the frame of the shape
	for i := range u.pieces {
		p := &u.pieces[i]
		at, ok := within[p.key]
		if !ok || !p.whole {
			at = geometry.InnerPoint(p.shape.Outline()[0])
			if p.whole {
				within[p.key] = at
			}
		}
		k := u.openingAt(&order, orb.Point{at[0] + p.shift[0], at[1] + p.shift[1]})
		if k < 0 {
			k = u.mostCommon(&order, p)
		}
		u.of[i] = k
		u.openings[k].pieces = append(u.openings[k].pieces, i)
	}

	kept, moved := u.openings[:0], make([]int, len(u.openings))
	for k := range u.openings { // all have pieces, but for crumbs of rounding
		if len(u.openings[k].pieces) > 0 {
			moved[k] = len(kept)
			kept = append(kept, u.openings[k])
		}
	}
	u.openings = kept
	for i := range u.of {
		u.of[i] = moved[u.of[i]]
	}
	return nil
}

// uniteDense finds the openings block by block, and one copy of each.
func (u *united) uniteDense() (err error) {
	if u.openings, err = blockOpenings(u.l, u.copies); err != nil {
		return err
	}
	u.pieces = make([]piece, len(u.openings))
	u.of = make([]int, len(u.openings))
	bounds := make([]orb.Bound, len(u.copies))
	for i, c := range u.copies {
		bounds[i] = c.Bound()
	}
	order := byPlace(bounds)
	for k := range u.openings {
		at := geometry.InnerPoint(u.openings[k].outline)
		u.of[k], u.openings[k].pieces = k, []int{k}
		order.meeting(orb.Bound{Min: at, Max: at}, func(i int, _ orb.Bound) bool {
			c := &u.copies[i]
			u.pieces[k].copy = i
			return !c.Image.Contains(orb.Point{at[0] - c.Shift[0], at[1] - c.Shift[1]})
		})
	}
	return nil
}

// blockOpenings returns the openings of a field in which many copies run into each other, without their pieces.
func blockOpenings(l *pattern.Layout, copies []pattern.Copy) ([]opening, error) {
	t := newLattice(l, copies)
	var all orb.MultiPolygon
	var err error
	crop := l.Draft.Field.Edge == draft.Crop
	if crop && !l.LeavesOut() {
		all, err = t.cover()
	} else {
		all, err = t.union()
	}
	if err == nil && crop {
		all, err = cutTo(all, l.Draft.FieldBound())
	}
	if err == nil {
		all, err = outsideRooms(l, all)
	}
	if err == nil {
		all, err = lessFieldTies(l, all)
	}
	if err != nil {
		return nil, fmt.Errorf("%d copies that run into each other could not be united: %w", len(copies), err)
	}

	out := make([]opening, len(all))
	for k, p := range all {
		one := orb.MultiPolygon{p}
		out[k] = opening{outline: p, shape: geometry.NewShape(one), area: geometry.Area(one), holes: holesOf(p)}
	}
	return out, closeInTouching(all, out)
}

// closeInTouching gives openings that touch each other at points the parts of the plane that they close in together.
func closeInTouching(all orb.MultiPolygon, openings []opening) error {
	u := united{openings: openings}
	order := u.openingsByPlace()
	groups := newGroups(len(openings))
	for i := range openings {
		order.meeting(u.boundOf(i).Pad(touchSlack), func(j int, _ orb.Bound) bool {
			if i < j && geometry.Distance(openings[i].shape, openings[j].shape, orb.Point{}, touchSlack).Found {
				groups.join(i, j)
			}
			return true
		})
	}

	for _, members := range groups.all() {
		if len(members) < 2 {
			continue
		}
		var outlines orb.MultiPolygon
		some := make([]opening, len(members))
		for k, i := range members {
			outlines, some[k] = append(outlines, all[i]), openings[i]
		}
		if err := closeIn(outlines, some); err != nil {
			return err
		}
		for k, i := range members {
			openings[i].holes = some[k].holes
		}
	}
	return nil
}

// lessFieldTies takes the field's ties off outlines.
func lessFieldTies(l *pattern.Layout, mp orb.MultiPolygon) (orb.MultiPolygon, error) {
	if len(mp) == 0 || !hasFieldTies(l) {
		return mp, nil
	}
	rects, err := l.TiesIn(mp.Bound())
	if err != nil {
		return nil, err
	}
	return overlay.Difference(mp, rects)
}

// openingsByPlace orders the openings by where they lie.
func (u *united) openingsByPlace() leftToRight {
	bounds := make([]orb.Bound, len(u.openings))
	for i := range bounds {
		bounds[i] = u.boundOf(i)
	}
	return byPlace(bounds)
}

// openingAt returns the opening that a point lies in, −1 when there is none.
func (u *united) openingAt(order *leftToRight, p orb.Point) (found int) {
	found = -1
	order.meeting(orb.Bound{Min: p, Max: p}, func(k int, _ orb.Bound) bool {
		o := &u.openings[k]
		if o.shape.Contains(orb.Point{p[0] - o.shift[0], p[1] - o.shift[1]}) {
			found = k
		}
		return found < 0
	})
	return found
}

// mostCommon returns the opening that has the largest area in common with a piece.
func (u *united) mostCommon(order *leftToRight, p *piece) (best int) {
	shared := -1.0
	order.meeting(p.bound, func(k int, _ orb.Bound) bool {
		if a := geometry.OverlapArea(u.openings[k].shape, p.shape, p.shift); a > shared {
			best, shared = k, a
		}
		return true
	})
	return best
}

// boundOf returns an opening's box on the panel.
func (u *united) boundOf(i int) orb.Bound {
	o := &u.openings[i]
	b := o.shape.Bound()
	return orb.Bound{Min: orb.Point{b.Min[0] + o.shift[0], b.Min[1] + o.shift[1]},
		Max: orb.Point{b.Max[0] + o.shift[0], b.Max[1] + o.shift[1]}}
}

// copyOf returns a copy that an opening is made of.
func (u *united) copyOf(i int) int { return u.pieces[u.openings[i].pieces[0]].copy }
