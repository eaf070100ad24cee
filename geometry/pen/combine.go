package pen

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
)

var (
	errNothing     = errors.New("the line encloses nothing; draw round the shape")
	errNothingLeft = errors.New("nothing of the silhouette would be left")
	errBeside      = errors.New("the line does not touch the silhouette, so there is nothing to cut away")
)

// Joined returns the shape with closed lines joined to it. A line that crosses itself stands for all that it goes
// round. Rings that the lines do not touch keep their nodes.
func (s Shape) Joined(lines ...Ring) (Shape, error) {
	return s.combined(lines, func(a, b orb.MultiPolygon) (orb.MultiPolygon, error) { return overlay.Union(a, b) })
}

// CutAway returns the shape with what closed lines go round taken out of it.
func (s Shape) CutAway(lines ...Ring) (Shape, error) {
	out, err := s.combined(lines, overlay.Difference)
	if err != nil {
		return nil, err
	}
	if was := geometry.Area(s.Outline()); was-geometry.Area(out.Outline()) < MinArea {
		return nil, errBeside
	}
	return out, nil
}

func (s Shape) combined(lines []Ring, op func(a, b orb.MultiPolygon) (orb.MultiPolygon, error)) (Shape, error) {
	var drawn orb.MultiPolygon
	for _, r := range lines {
		mp, err := Enclosed(r)
		if err != nil {
			return nil, err
		}
		drawn = append(drawn, mp...)
	}
	if len(lines) > 1 { // they may overlap
		var err error
		if drawn, err = overlay.Union(drawn); err != nil {
			return nil, err
		}
	}
	mp := drawn
	if len(s) > 0 {
		var err error
		if mp, err = op(s.Outline(), drawn); err != nil {
			return nil, err
		}
	}
	mp = cleared(mp)
	if len(mp) == 0 {
		return nil, errNothingLeft
	}
	if err := Check(mp); err != nil {
		return nil, err
	}
	return Read(mp, append(s.Rings(), lines...)...)
}

// Enclosed returns the outline of what a closed line goes round.
func Enclosed(r Ring) (orb.MultiPolygon, error) {
	ring := r.Polygon()
	if len(ring) < 4 {
		return nil, errNothing
	}
	if geometry.RingArea(ring) < 0 {
		ring = reversed(ring)
	}
	mp := orb.MultiPolygon{{ring}}
	if geometry.CheckOutline(mp) != nil {
		left, err := overlay.Positive([]orb.Ring{ring})
		if err != nil {
			return nil, err
		}
		right, err := overlay.Positive([]orb.Ring{reversed(ring)})
		if err != nil {
			return nil, err
		}
		if mp, err = overlay.Union(left, right); err != nil {
			return nil, err
		}
		mp = cleared(mp)
	}

	if len(mp) == 0 || geometry.Area(mp) < MinArea {
		return nil, errNothing
	}
	return mp, nil
}

// Check returns what is wrong with an outline as a sentence, with its place in mm; nil when it can be a silhouette's.
func Check(mp orb.MultiPolygon) error {
	var fault *geometry.OutlineError
	err := geometry.CheckOutline(geometry.Orient(mp))
	if errors.As(err, &fault) {
		return fmt.Errorf("this cannot be cut: %s", fault.Text())
	}
	return err
}

// cleared brings an outline onto the draft's grid and leaves crumbs out.
func cleared(mp orb.MultiPolygon) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, polygon := range mp {
		var rings orb.Polygon
		for j, r := range polygon {
			r = snapped(r)
			if len(r) < 4 || math.Abs(geometry.RingArea(r)) < MinArea {
				if j == 0 {
					break
				}
				continue
			}
			rings = append(rings, r)
		}
		if len(rings) > 0 {
			out = append(out, rings)
		}
	}
	return out
}
