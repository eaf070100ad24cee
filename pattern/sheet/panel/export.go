package panel

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// Opening is one connected piece of what is cut away: Shape moved by Shift, panel mm. Openings that are translates of
// each other as drawn share their Shape.
type Opening struct {
	Shape *geometry.Shape
	Shift orb.Point
}

// Bound returns the opening's box on the panel.
func (o Opening) Bound() orb.Bound {
	b := o.Shape.Bound()
	return orb.Bound{Min: orb.Point{b.Min[0] + o.Shift[0], b.Min[1] + o.Shift[1]},
		Max: orb.Point{b.Max[0] + o.Shift[0], b.Max[1] + o.Shift[1]}}
}

// Openings returns the connected openings of a layout: the copies after the edge rule, those that touch or run into
// each other united. It fails as Check does.
func Openings(l *pattern.Layout) ([]Opening, error) {
	u := united{l: l}
	if _, err := u.unite(touchSlack, nil); err != nil {
		return nil, err
	}
	out := make([]Opening, len(u.openings))
	for i, o := range u.openings {
		out[i] = Opening{o.shape, o.shift}
	}
	return out, nil
}
