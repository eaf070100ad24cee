package paint

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/clip"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// onlyTouching in mm²: copies with less in common than this touch; see sheet.OverlapFrom.
const onlyTouching = 0.01

// met is how the copies of two colours lie on each other, in mm²: those of the higher number on the lower, and those
// of the lower on the higher. Both are 0 where they only touch.
type met struct{ higherOn, lowerOn float64 }

// laidCopy is what of a copy is laid: shape moved by shift, panel mm.
type laidCopy struct {
	pattern.Copy
	shape *geometry.Shape
	shift orb.Point
	bound orb.Bound
	whole bool // its translates in other cells have the same shape
}

// pairOf is the same for pairs of whole copies that are translates of each other.
type pairOf struct {
	motif, op [2]int
	cell      [2]int
}

// meetings returns the pairs of colours of which copies touch or lie on each other, by their numbers, the lower first.
// A copy lies on those that come before it in Layout.Copies, as they are drawn one after another. The field's ties are
// not taken off.
func meetings(l *pattern.Layout) (map[[2]int]met, error) {
	copies, err := laidCopies(l)
	if err != nil {
		return nil, err
	}
	order := make([]int, len(copies))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Compare(copies[i].bound.Min[0], copies[j].bound.Min[0])
	})

	out := map[[2]int]met{}
	known := map[pairOf]float64{} // area in common, −1 where they are apart
	for x, i := range order {
		for _, j := range order[x+1:] {
			a, b := &copies[min(i, j)], &copies[max(i, j)] // b is drawn over a
			if copies[j].bound.Min[0] > copies[i].bound.Max[0]+pattern.SameSlack {
				break
			}
			if a.Colour == b.Colour || !a.bound.Pad(pattern.SameSlack).Intersects(b.bound) {
				continue
			}
			key := pairOf{[2]int{a.Motif, b.Motif}, [2]int{a.Op, b.Op},
				[2]int{b.Cell[0] - a.Cell[0], b.Cell[1] - a.Cell[1]}}
			area, ok := known[key]
			if !ok || !a.whole || !b.whole {
				area = shared(a, b)
				if a.whole && b.whole {
					known[key] = area
				}
			}
			if area < 0 {
				continue
			}
			pair := [2]int{min(a.Colour, b.Colour), max(a.Colour, b.Colour)}
			m := out[pair]
			if area > onlyTouching && b.Colour > a.Colour {
				m.higherOn += area
			} else if area > onlyTouching {
				m.lowerOn += area
			}
			out[pair] = m
		}
	}
	return out, nil
}

// shared returns the area that two copies have in common, 0 where they touch, −1 where they are apart.
func shared(a, b *laidCopy) float64 {
	v := geometry.Sub(b.shift, a.shift)
	if area := geometry.OverlapArea(a.shape, b.shape, v); area > onlyTouching {
		return area
	}
	if geometry.Distance(a.shape, b.shape, v, pattern.SameSlack).Found {
		return 0
	}
	return -1
}

// laidCopies returns the copies of a layout as they are laid, those that the field's edge and rooms leave nothing of
// among them with an empty shape.
func laidCopies(l *pattern.Layout) ([]laidCopy, error) {
	copies, err := l.Copies()
	if err != nil {
		return nil, err
	}
	out := make([]laidCopy, len(copies))
	for i, c := range copies {
		o := laidCopy{Copy: c, shape: c.Image, shift: c.Shift, whole: true, bound: c.Bound()}
		crop := c.Place == geometry.Across && l.Draft.Field.Edge == draft.Crop
		if crop || c.Cut {
			mp := c.Shape().Outline()
			if crop {
				mp = clip.ToRect(mp, l.Draft.FieldBound())
			}
			for _, r := range l.Rooms {
				if len(mp) == 0 || !r.Bound.Intersects(mp.Bound()) {
					continue
				}
				if mp, err = overlay.Difference(mp, r.Shape.Outline()); err != nil {
					return nil, err
				}
			}
			o.shape, o.shift, o.whole = geometry.NewShape(mp), orb.Point{}, false
			o.bound = o.shape.Bound()
		}
		out[i] = o
	}
	return out, nil
}
