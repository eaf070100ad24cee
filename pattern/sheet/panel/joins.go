package panel

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/sheet"
)

// fit reports an opening that is too small as a whole.
func (c *panelCheck) fit(i int, lost sheet.Lost) {
	if lost == "" {
		return
	}
	out := sheet.LostProblem(lost, c.l.Draft.Sheet, geometry.InnerPoint(c.openings[i].outline))
	copyOf := c.copyOf(i)
	out.Between = &[2]int{copyOf, copyOf}
	c.add(out)
}

// widerJoin finds the narrowest place that is wide enough and under limit mm, at which the sheet round an opening joins
// two parts. Necks narrower than asked that join what remains are among the narrow places. Others lead into a part of
// the sheet that is too narrow itself: they belong to a tongue, and are reported with it.
func (c *panelCheck) widerJoin(i int, limit float64) []geometry.Neck {
	need := c.l.Draft.Sheet.Bridge * (1 - asWide)
	if n, ok := c.openings[i].shape.NarrowestJoin(need, limit, false); ok {
		return []geometry.Neck{n}
	}
	return nil
}

// closest keeps the narrowest bridge within an opening, also one wide enough, unless another opening lies across it.
// Tongues held at one end do not count.
func (c *panelCheck) closest(i int, frame geometry.Map, n narrowPlaces, narrowest *float64) {
	keep := func(a, b orb.Point, width float64) {
		p, q := frame.Apply(a), frame.Apply(b)
		if width < *narrowest && !c.crossed(i, p, q) {
			*narrowest = width
			c.report.NarrowestWithin, c.report.WithinEnds = &width, &[2][2]float64{p, q}
		}
	}
	for _, p := range n.sheet {
		if p.Joins() {
			keep(p.P, p.Q, p.Width)
		}
	}
	for _, p := range n.wider {
		keep(p.P, p.Q, p.Width)
	}
}

func (c *panelCheck) move(i int, p orb.Point) orb.Point {
	s := c.openings[i].shift
	return orb.Point{p[0] + s[0], p[1] + s[1]}
}

// crossed reports whether another opening lies on the segment p–q.
func (c *panelCheck) crossed(i int, p, q orb.Point) bool {
	left, right := math.Min(p[0], q[0]), math.Max(p[0], q[0])
	low, high := math.Min(p[1], q[1]), math.Max(p[1], q[1])
	window := orb.Bound{Min: orb.Point{left, low}, Max: orb.Point{right, high}}
	return !c.order.meeting(window, func(j int, _ orb.Bound) bool {
		if j == i {
			return true
		}
		s := c.openings[j].shift
		a, d := orb.Point{p[0] - s[0], p[1] - s[1]}, orb.Point{q[0] - s[0], q[1] - s[1]}
		shape := c.openings[j].shape
		return !shape.Crosses(a, d) && !shape.Contains(orb.Point{(a[0] + d[0]) / 2, (a[1] + d[1]) / 2})
	})
}
