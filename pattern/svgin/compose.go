package svgin

import (
	"fmt"
	"math"

	"openwork/geometry"
	"openwork/geometry/fill"
	"openwork/pattern/outline"

	"github.com/paulmach/orb"
)

// compose paints all shapes one after another, ink joining and paper taking away, and returns what ink is left, in mm,
// with the tolerance that it is to be drawn with. pageArea is that of the whole page in mm².
func (d *drawing) compose(pageArea float64, o outline.Options) (mp orb.MultiPolygon, tolerance float64, err error) {
	tolerance = outline.Tightest * o.ToleranceMM
	if size := boxSize(d.shapes); size > 0 {
		tolerance = math.Min(tolerance, size*sizeShare*o.ToleranceMM/outline.DefaultTolerance)
	}
	tolerance = math.Max(tolerance, minCurve/curveShare)
	budget := maxPoints
	c := composer{tolerance: tolerance * curveShare, budget: &budget}
	for k, s := range d.shapes {
		parts, err := c.regions(s)
		if err != nil {
			return nil, 0, err
		}
		for _, p := range parts {
			if k == 0 && len(d.shapes) > 1 && geometry.Area(p.mp) > pageShare*pageArea {
				if s.fill == ink {
					d.note("background")
				}
				continue
			}
			if err := c.add(p); err != nil {
				return nil, 0, notMadeOut(err)
			}
		}
	}

	if mp, err = c.flush(); err != nil {
		return nil, 0, notMadeOut(err)
	}
	if len(mp) == 0 && d.count["white shape"] > 0 { // white on nothing: it must be meant
		delete(d.count, "white shape")
		d.left = []string{"all white"}
		for k := range d.shapes {
			for _, p := range []*paint{&d.shapes[k].fill, &d.shapes[k].stroke} {
				if *p == paper {
					*p = ink
				}
			}
		}
		d.count["all white"] = 1
		return d.compose(pageArea, o)
	}
	return mp, tolerance, nil
}

// boxSize returns the larger side of the box around all control points.
func boxSize(shapes []shape) float64 {
	lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, s := range shapes {
		for _, g := range s.c {
			n := 1
			if g.kind == 'C' {
				n = 3
			} else if g.kind == 'Z' {
				n = 0
			}
			for _, p := range g.p[:n] {
				q := s.m.apply(p)
				for k := range 2 {
					lo[k], hi[k] = math.Min(lo[k], q[k]), math.Max(hi[k], q[k])
				}
			}
		}
	}
	v := math.Max(hi[0]-lo[0], hi[1]-lo[1])
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v
}

// composer holds what has been painted so far.
type composer struct {
	tolerance float64
	budget    *int
	dashes    int                // drawn so far
	pieces    int                // points of strokes' pieces so far
	ink       []orb.MultiPolygon // not yet united
	boxes     []orb.Bound        // around each of them
}

// region is a part painted with one paint.
type region struct {
	mp    orb.MultiPolygon
	paper bool
}

// regions returns what a shape's fill and stroke cover, cut by its clips.
func (c *composer) regions(s shape) ([]region, error) {
	var out []region
	add := func(mp orb.MultiPolygon, p paint) error {
		for _, cut := range s.clips {
			region, err := c.clipped(cut)
			if err != nil {
				return err
			}
			if len(mp) == 0 || inside(mp, region) {
				continue
			}
			if mp, err = fill.Intersection(mp, region); err != nil {
				return err
			}
		}
		if len(mp) > 0 {
			out = append(out, region{mp, p == paper})
		}
		return nil
	}

	fill := func() error {
		if s.fill == noPaint {
			return nil
		}
		parts, err := s.c.flatten(s.m, c.tolerance, maxReachMM, false, c.budget)
		if err != nil {
			return err
		}
		mp, err := fill.Region(rings(parts), s.rule)
		if err == nil {
			err = add(mp, s.fill)
		}
		if err != nil {
			return notMadeOut(err)
		}
		return nil
	}

	stroke := func() error {
		if s.stroke == noPaint {
			return nil
		}
		mp, err := c.stroked(s)
		if err != nil {
			return err
		}
		if err := add(mp, s.stroke); err != nil {
			return notMadeOut(err)
		}
		return nil
	}

	first, second := fill, stroke
	if s.strokeFirst {
		first, second = stroke, fill
	}
	if err := first(); err != nil {
		return nil, err
	}
	err := second()
	return out, err
}

// clipped returns a clip's region.
func (c *composer) clipped(cut *clip) (orb.MultiPolygon, error) {
	if cut.known {
		return cut.mp, nil
	}
	cut.known = true
	var all []orb.MultiPolygon
	for _, s := range cut.shapes {
		parts, err := c.regions(s)
		if err != nil {
			return nil, err
		}
		for _, p := range parts {
			all = append(all, p.mp)
		}
	}
	mp, err := fill.Union(all)
	cut.mp = mp
	return mp, err
}

// inside says whether an outline lies in a region that is one rectangle parallel to the axes.
func inside(mp, region orb.MultiPolygon) bool {
	if len(region) != 1 || len(region[0]) != 1 {
		return false
	}
	r := region[0][0]
	b := r.Bound()
	whole := (b.Max[0] - b.Min[0]) * (b.Max[1] - b.Min[1])
	if len(r) != 5 || math.Abs(geometry.RingArea(r)) < whole*(1-1e-12) {
		return false
	}
	m := mp.Bound()
	return m.Min[0] >= b.Min[0] && m.Min[1] >= b.Min[1] && m.Max[0] <= b.Max[0] && m.Max[1] <= b.Max[1]
}

// add paints a region over what is there.
func (c *composer) add(p region) error {
	b := p.mp.Bound()
	if !p.paper {
		c.ink, c.boxes = append(c.ink, p.mp), append(c.boxes, b)
		return nil
	}
	for k, ink := range c.ink { // each by itself, so that one shape costs no more for there being many
		if len(ink) == 0 || !c.boxes[k].Intersects(b) {
			continue
		}
		var err error
		if c.ink[k], err = fill.Difference(ink, p.mp); err != nil {
			return err
		}
	}
	return nil
}

// flush unites the ink.
func (c *composer) flush() (orb.MultiPolygon, error) {
	if len(c.ink) == 1 {
		return c.ink[0], nil
	}
	return fill.Union(c.ink)
}

// notMadeOut is the end of the sentence for shapes that could not be united.
func notMadeOut(err error) error {
	return fmt.Errorf("has shapes that could not be made out: %w", err)
}
