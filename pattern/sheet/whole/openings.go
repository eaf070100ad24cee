package whole

import (
	"openwork/geometry"
	"openwork/pattern/sheet"
)

// unite counts the connected openings.
func (c *look) unite() {
	c.report.Counts.Openings = c.pieces
	for _, m := range c.met {
		if !m.joins() {
			continue
		}
		if !c.joined {
			c.joined = true
			c.openings = geometry.NewSets(c.pieces)
		}
		if c.openings.Join(int32(c.kept[m.i].first+m.p), int32(c.kept[m.j].first+m.q)) {
			c.report.Counts.Openings--
		}
		if m.area <= noArea {
			c.report.Partial = true // whether they are one is for the overlay to say
		}
	}

	if !c.joined {
		return
	}
	c.size = make([]int, c.pieces)
	for k := range c.openings {
		c.size[c.root(k)]++
	}
	c.unsureWithin()
}

// unsureWithin marks what is found within single openings as counts of at least so many.
func (c *look) unsureWithin() {
	c.unsure(sheet.Bridge, sheet.Fault)
	c.unsure(sheet.Tip, sheet.Warning)
	c.unsure(sheet.Opening, sheet.Fault)
	c.unsure(sheet.Opening, sheet.Warning)
	c.unsure(sheet.Release, sheet.Warning)
	c.unsure(sheet.Island, sheet.Fault)
}

// root returns the piece that stands for the opening a piece belongs to.
func (c *look) root(k int) int {
	if !c.joined {
		return k
	}
	return int(c.openings.Root(int32(k)))
}

// alone reports whether a piece is an opening by itself.
func (c *look) alone(k int) bool { return !c.joined || c.size[c.root(k)] == 1 }

// different reports whether two pieces belong to different openings.
func (c *look) different(i, p, j, q int) bool {
	a, b := c.kept[i].first+p, c.kept[j].first+q
	return !c.joined || c.root(a) != c.root(b)
}
