package panel

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/pattern/progress"
)

// opening is one connected piece of what is cut away.
type opening struct {
	outline orb.Polygon
	shape   *geometry.Shape
	shift   orb.Point
	pieces  []int
	holes   []hole
	area    float64
}

// hole is a part of the plane enclosed by one opening, without anything of another opening that touches it taken off.
type hole struct {
	ring  orb.Polygon
	area  float64
	bound orb.Bound
}

// unite joins pieces that touch or run into each other, and returns the connected openings, with for each piece the
// opening it belongs to. enclosed are the parts of the plane closed in by openings that touch only at points, which no
// single opening has as a hole.
func unite(pieces []piece, met []meeting, onProgress progress.Func) (openings []opening, of []int, err error) {
	groups := newGroups(len(pieces))
	for _, m := range met {
		if m.joins() {
			groups.join(m.i, m.j)
		}
	}
	clusters := groups.all()
	of = make([]int, len(pieces))
	for k, members := range clusters {
		onProgress.Of(k, len(clusters))
		if len(members) == 1 {
			p := pieces[members[0]]
			of[members[0]] = len(openings)
			o := opening{shape: p.shape, shift: p.shift, pieces: members, area: p.shape.Area()}
			o.outline = p.outline()[0]
			o.holes = holesOf(o.outline)
			openings = append(openings, o)
			continue
		}
		made, err := uniteCluster(pieces, members)
		if err != nil {
			return nil, nil, err
		}
		for k := range made {
			for _, i := range made[k].pieces {
				of[i] = len(openings) + k
			}
		}
		openings = append(openings, made...)
	}
	return openings, of, nil
}

// uniteCluster unites the members and sorts them to the resulting openings.
func uniteCluster(pieces []piece, members []int) ([]opening, error) {
	shapes := make([]orb.MultiPolygon, len(members))
	for k, i := range members {
		shapes[k] = pieces[i].outline()
	}
	union, err := overlay.Union(shapes...)
	if err != nil {
		return nil, fmt.Errorf("%d copies that run into each other could not be united: %w", len(members), err)
	}
	out := make([]opening, len(union))
	for k, p := range union {
		one := orb.MultiPolygon{p}
		out[k] = opening{outline: p, shape: geometry.NewShape(one), area: geometry.Area(one), holes: holesOf(p)}
	}

	for _, i := range members {
		best, shared := 0, -1.0
		if len(out) > 1 {
			for k := range out {
				if a := geometry.OverlapArea(out[k].shape, pieces[i].shape, pieces[i].shift); a > shared {
					best, shared = k, a
				}
			}
		}
		out[best].pieces = append(out[best].pieces, i)
	}

	if len(out) > 1 {
		// Openings that touch at points may close in sheet that none of them encloses alone.
		if err := closeIn(union, out); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// closeIn replaces the holes of openings that touch each other by the parts of the plane that they close in together;
// all are given to the first.
func closeIn(union orb.MultiPolygon, openings []opening) error {
	frame := geometry.RectOutline(union.Bound().Pad(1))
	rest, err := overlay.Difference(frame, union)
	if err != nil {
		return fmt.Errorf("the sheet between openings that touch could not be found: %w", err)
	}
	for k := range openings {
		openings[k].holes = nil
	}
	edge := frame.Bound()
	for _, p := range rest {
		if p.Bound().Min[0] > edge.Min[0]+0.5 {
			openings[0].holes = append(openings[0].holes, newHole(p))
		}
	}
	return nil
}

func holesOf(p orb.Polygon) []hole {
	var out []hole
	for _, r := range p[min(1, len(p)):] {
		q := make(orb.Ring, len(r))
		for i, v := range r {
			q[len(r)-1-i] = v
		}
		out = append(out, newHole(orb.Polygon{q}))
	}
	return out
}

func newHole(p orb.Polygon) hole {
	return hole{ring: p, area: math.Abs(geometry.Area(orb.MultiPolygon{p})), bound: p.Bound()}
}
