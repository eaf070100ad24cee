package panel

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/residue"
	"openwork/pattern/sheet"
)

// maxFollowed is how many edges an opening of a crowded field may have to be looked into as a whole. Such a field is
// wrong all over; of a larger one the middle is looked into, and what is found there is at least what there is.
const maxFollowed = 40000

// withinPart reports narrow places in the middle of an opening: in a window of it that holds about maxFollowed edges.
// What lies at the window's edge is left out, for the rest of the opening is not there. The narrowest bridge within the
// opening is not looked for.
func (c *panelCheck) withinPart(i int) error {
	o := &c.openings[i]
	part, err := cutTo(orb.MultiPolygon{o.outline}, c.middleOf(i))
	if err != nil {
		return c.unfollowed(i, "the middle of an opening", err)
	}

	var n narrowPlaces
	need, here := c.l.Draft.Sheet, geometry.Translate(o.shift[0], o.shift[1])
	if n.sheet, err = n.find(residue.Around, part, need.Bridge); err != nil {
		return c.unfollowed(i, "the sheet round an opening", err)
	}
	if n.opening, err = n.find(residue.Of, part, need.Opening); err != nil {
		return c.unfollowed(i, "an opening", err)
	}

	inside := c.middleOf(i).Pad(-2 * math.Max(need.Bridge, need.Opening))
	for _, p := range n.sheet {
		if boxWithin(p.Outline.Bound(), inside) {
			c.neck(i, here, p)
		}
	}
	for _, p := range n.opening {
		if boxWithin(p.Outline.Bound(), inside) {
			c.narrow(i, here, p)
		}
	}
	for _, at := range n.unclear {
		c.unclear(i, here, at)
	}
	c.listing.Count(sheet.Bridge, sheet.Fault, 0, false)
	c.listing.Count(sheet.Opening, sheet.Fault, 0, false)
	c.listing.Count(sheet.Opening, sheet.Warning, 0, false)
	c.listing.Count(sheet.Tip, sheet.Warning, 0, false)
	return nil
}

// middleOf returns the window in the middle of an opening that holds about maxFollowed of its edges, in the opening's
// frame.
func (c *panelCheck) middleOf(i int) orb.Bound {
	b := c.openings[i].shape.Bound()
	part := math.Sqrt(maxFollowed / float64(c.openings[i].shape.Edges()))
	w, h := (b.Max[0]-b.Min[0])*part/2, (b.Max[1]-b.Min[1])*part/2
	m := b.Center()
	return orb.Bound{Min: orb.Point{m[0] - w, m[1] - h}, Max: orb.Point{m[0] + w, m[1] + h}}
}
