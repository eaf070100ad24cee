//go:build js

package main

import (
	"github.com/paulmach/orb"

	"openwork/geometry/clip"
)

// ties lays the field's ties over the openings in the bare panel's colour, as far as the sheet goes, and outlines every
// tie while ties are worked on.
func (c *canvas) ties(sheet orb.Bound) {
	marks := c.desk.Ties()
	m := c.desk.View.Map()
	corner := m.Apply(sheet.Min)
	seen := orb.Bound{Min: corner, Max: corner}.Extend(m.Apply(sheet.Max))
	for _, t := range marks {
		if !t.Field {
			continue
		}
		ring := append(append(orb.Ring{}, t.Corners...), t.Corners[0])
		for _, part := range clip.ToRect(orb.MultiPolygon{{ring}}, seen) {
			c.polygon(part[0], c.ground.bare)
		}
	}
	if !c.desk.Tying() {
		return
	}

	for _, t := range marks {
		width, col := 1.2, c.colours.accent
		if t.Chosen {
			width = 2.4
		}
		for i, p := range t.Corners {
			q := t.Corners[(i+1)%len(t.Corners)]
			c.line(p, q, width+2, faded(c.colours.halo, 0.8))
		}
		for i, p := range t.Corners {
			c.line(p, t.Corners[(i+1)%len(t.Corners)], width, col)
		}
	}
}
