package panel

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
)

// apart are the polygons and holes of an outline that an overlay need not look at.
type apart struct {
	polygons orb.MultiPolygon
	holes    []orb.Ring
}

// setApart parts an outline into what an overlay must look at and what it need not: polygons and holes whose boxes are
// far. A polygon that stands in a hole that is far is far itself.
func setApart(mp orb.MultiPolygon, far func(orb.Bound) bool) (near orb.MultiPolygon, rest apart) {
	for _, p := range mp {
		if far(p[0].Bound()) {
			rest.polygons = append(rest.polygons, p)
			continue
		}
		q := orb.Polygon{p[0]}
		for _, h := range p[1:] {
			if far(h.Bound()) {
				rest.holes = append(rest.holes, h)
			} else {
				q = append(q, h)
			}
		}
		near = append(near, q)
	}
	return near, rest
}

// back puts polygons and holes back that were set apart; each hole goes to the polygon that it lies in.
func (a *apart) back(mp orb.MultiPolygon) orb.MultiPolygon {
	out := make(orb.MultiPolygon, len(mp))
	bounds := make([]orb.Bound, len(mp))
	for k, p := range mp {
		out[k] = append(orb.Polygon(nil), p...)
		bounds[k] = p[0].Bound()
	}
	order := byPlace(bounds)
	shapes := make([]*geometry.Shape, len(mp))
	for _, h := range a.holes {
		b := h.Bound()
		order.meeting(b, func(k int, bound orb.Bound) bool {
			if !boxWithin(b, bound) {
				return true
			}
			if len(mp) > 1 {
				if shapes[k] == nil {
					shapes[k] = geometry.NewShape(orb.MultiPolygon{mp[k]})
				}
				if !shapes[k].Contains(h[0]) {
					return true
				}
			}
			out[k] = append(out[k], h)
			return false
		})
	}
	return append(out, a.polygons...)
}

// unionOfTwo returns the union of two outlines; only what lies near the other one is looked at.
func unionOfTwo(one, two orb.MultiPolygon) (orb.MultiPolygon, error) {
	if len(one) == 0 || len(two) == 0 {
		return append(one, two...), nil
	}
	farFrom := func(b orb.Bound) func(orb.Bound) bool {
		b = b.Pad(touchSlack)
		return func(c orb.Bound) bool { return !c.Intersects(b) }
	}
	nearOne, restOne := setApart(one, farFrom(two.Bound()))
	nearTwo, restTwo := setApart(two, farFrom(one.Bound()))

	mp, err := overlay.Union(nearOne, nearTwo)
	if err != nil {
		return nil, err
	}
	return restTwo.back(restOne.back(mp)), nil
}

// cutTo returns the part of an outline that lies in a rectangle; only what lies across the rectangle's edge is looked
// at.
func cutTo(mp orb.MultiPolygon, window orb.Bound) (orb.MultiPolygon, error) {
	inner := window.Pad(-touchSlack)
	across, rest := setApart(mp, func(b orb.Bound) bool {
		return boxWithin(b, inner) ||
			!b.Intersects(window.Pad(touchSlack))
	})
	cut, err := overlay.Intersection(across, geometry.RectOutline(window))
	if err != nil {
		return nil, err
	}

	var kept apart
	for _, p := range rest.polygons {
		if boxWithin(p[0].Bound(), inner) {
			kept.polygons = append(kept.polygons, p)
		}
	}
	for _, h := range rest.holes {
		if boxWithin(h.Bound(), inner) {
			kept.holes = append(kept.holes, h)
		}
	}
	return kept.back(cut), nil
}
