package panel

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/clip"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// roomPad in mm: so far beyond an outline's box a room is cut off before it is taken away, so that no side of the box
// lies on the outline.
const roomPad = 1

// outsideRooms returns what the rooms of subjects leave of an outline on the panel.
func outsideRooms(l *pattern.Layout, mp orb.MultiPolygon) (orb.MultiPolygon, error) {
	for _, r := range l.Rooms {
		if len(mp) == 0 {
			return nil, nil
		}
		if r.Edge == draft.Whole || !r.Bound.Intersects(mp.Bound()) {
			continue // copies that meet it are gone as a whole
		}
		across, rest := setApart(mp, func(b orb.Bound) bool { return !b.Intersects(r.Bound.Pad(touchSlack)) })
		if len(across) == 0 {
			continue
		}
		left, ok := clip.Without(geometry.NewShape(across), r.Shape, orb.Point{})
		if !ok {
			near := clip.ToRect(r.Shape.Outline(), across.Bound().Pad(roomPad))
			var err error
			if left, err = overlay.Difference(across, near); err != nil {
				return nil, err
			}
		}
		mp = rest.back(left)
	}
	return mp, nil
}
