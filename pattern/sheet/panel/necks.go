package panel

import (
	"fmt"
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/sheet"
)

// narrowPlaces are the necks of one outline, of the sheet round it and of the opening itself.
type narrowPlaces struct{ sheet, opening []geometry.Neck }

// within reports narrow places inside single openings. Openings that are a piece as drawn share what is found in the
// first of their kind.
func (c *panelCheck) within() {
	need := c.l.Draft.Sheet
	c.sortOpenings()
	known := map[pieceKey]narrowPlaces{}
	fits := map[pieceKey]string{}
	least := math.Inf(1)
	for i := range c.openings {
		o := &c.openings[i]
		p, whole := o.whole(c.pieces)
		places, ok := known[p.key]
		if !whole || !ok {
			places = narrowPlaces{o.shape.Necks(need.Bridge, false), o.shape.Necks(need.Opening, true)}
			lost := c.lost(o)
			if whole {
				known[p.key], fits[p.key] = places, lost
			}
			c.closest(i, places.sheet, &least)
			if !whole {
				c.fit(i, lost)
			}
		}
		if whole {
			c.fit(i, fits[p.key])
		}
		for _, n := range places.sheet {
			c.neck(i, n)
		}
		for _, n := range places.opening {
			c.narrow(i, n)
		}
	}
}

// neck reports a narrow place of the sheet within an opening, unless another opening lies across it.
func (c *panelCheck) neck(i int, n geometry.Neck) {
	need := c.l.Draft.Sheet.Bridge
	p, q := c.move(i, n.P), c.move(i, n.Q)
	if c.crossed(i, p, q) {
		return
	}
	at, copyOf := [2]float64{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}, c.pieces[c.openings[i].pieces[0]].copy
	out := sheet.Problem{Kind: sheet.Bridge, Severity: sheet.Fault, At: at, Measured: n.Width, Required: need,
		Between: &[2]int{copyOf, copyOf}, Ends: &[2][2]float64{p, q},
		Text: fmt.Sprintf("A strip of sheet within one opening is %s mm wide; this sheet needs %s.", short(n.Width), short(need))}
	if n.Hangs {
		out.Kind, out.Severity = sheet.Tip, sheet.Warning
		out.Text = fmt.Sprintf("A tongue of sheet %s mm wide is held at one end only; the knife may lift it.", short(n.Width))
	}
	c.add(out)
}

// narrow reports a place where an opening is too narrow for the paste.
func (c *panelCheck) narrow(i int, n geometry.Neck) {
	need := c.l.Draft.Sheet.Opening
	p, q := c.move(i, n.P), c.move(i, n.Q)
	copyOf := c.pieces[c.openings[i].pieces[0]].copy
	out := sheet.Problem{Kind: sheet.Opening, Severity: sheet.Fault, At: [2]float64{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2},
		Measured: n.Width, Required: need, Between: &[2]int{copyOf, copyOf}, Ends: &[2][2]float64{p, q},
		Text: fmt.Sprintf("An opening narrows to %s mm; paste needs %s.", short(n.Width), short(need))}
	if n.Hangs {
		out.Severity = sheet.Warning
		out.Text = fmt.Sprintf("An opening runs out in a tail %s mm wide; paste needs %s.", short(n.Width), short(need))
	}
	c.add(out)
}

// lost says how an opening is too small as a whole: "kerf" when the beam's width takes all of it, "narrow" when no part
// of it is as wide as paste needs, else "".
func (c *panelCheck) lost(o *opening) string {
	need := c.l.Draft.Sheet
	switch {
	case need.Kerf > 0 && !o.shape.HasRoom(need.Kerf/2):
		return "kerf"
	case need.Opening > 0 && !o.shape.HasRoom(need.Opening/2):
		return "narrow"
	}
	return ""
}

// fit reports an opening that lost found too small.
func (c *panelCheck) fit(i int, lost string) {
	if lost == "" {
		return
	}
	need := c.l.Draft.Sheet
	copyOf := c.pieces[c.openings[i].pieces[0]].copy
	out := sheet.Problem{Kind: sheet.Opening, Severity: sheet.Fault, At: inside(c.openings[i].outline), Required: need.Opening,
		Between: &[2]int{copyOf, copyOf},
		Text:    fmt.Sprintf("An opening is nowhere as wide as the %s mm that paste needs.", short(need.Opening))}
	if lost == "kerf" {
		out.Required = need.Kerf
		out.Text = fmt.Sprintf("An opening is narrower than the kerf of %s mm and would vanish.", short(need.Kerf))
	}
	c.add(out)
}

// closest keeps the narrowest bridge within an opening, also one wide enough. Tongues held at one end do not count.
func (c *panelCheck) closest(i int, found []geometry.Neck, least *float64) {
	keep := func(n geometry.Neck) {
		p, q := c.move(i, n.P), c.move(i, n.Q)
		if n.Width < *least && !c.crossed(i, p, q) {
			w := n.Width
			*least = w
			c.report.NarrowestWithin, c.report.WithinEnds = &w, &[2][2]float64{p, q}
		}
	}
	for _, n := range found {
		if !n.Hangs {
			keep(n)
			return // they come narrowest first
		}
	}
	if len(found) > 0 {
		return // a narrower tongue hides what lies further out
	}
	if n, ok := c.openings[i].shape.NarrowestNeck(*least, false); ok {
		keep(n)
	}
}

func (c *panelCheck) move(i int, p orb.Point) orb.Point {
	s := c.openings[i].shift
	return orb.Point{p[0] + s[0], p[1] + s[1]}
}

func (c *panelCheck) sortOpenings() {
	c.order = make([]int, len(c.openings))
	for i := range c.order {
		c.order[i] = i
	}
	sort.Slice(c.order, func(x, y int) bool { return c.boundOf(c.order[x]).Min[0] < c.boundOf(c.order[y]).Min[0] })
}

// crossed reports whether another opening lies on the segment p–q.
func (c *panelCheck) crossed(i int, p, q orb.Point) bool {
	left, right := math.Min(p[0], q[0]), math.Max(p[0], q[0])
	low, high := math.Min(p[1], q[1]), math.Max(p[1], q[1])
	for _, j := range c.order {
		b := c.boundOf(j)
		if b.Min[0] > right {
			return false
		}
		if j == i || b.Max[0] < left || b.Max[1] < low || b.Min[1] > high {
			continue
		}
		s := c.openings[j].shift
		a, d := orb.Point{p[0] - s[0], p[1] - s[1]}, orb.Point{q[0] - s[0], q[1] - s[1]}
		if c.openings[j].shape.Crosses(a, d) || c.openings[j].shape.Contains(orb.Point{(a[0] + d[0]) / 2, (a[1] + d[1]) / 2}) {
			return true
		}
	}
	return false
}
