package whole

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// edges reports openings that leave the sheet or come too near its edge, each once.
func (c *look) edges() {
	box := c.l.Draft.SheetBound()
	bounds := map[int]orb.Bound{} // of openings of several pieces
	of := map[int]int{}           // a copy of each
	for i := range c.kept {
		shift := c.copies[i].Shift
		for p, part := range c.kept[i].parts {
			b := part.Shape.Bound()
			b.Min, b.Max = geometry.Add(b.Min, shift), geometry.Add(b.Max, shift)
			k := c.kept[i].first + p
			if c.alone(k) {
				c.edge(box, b, i, p)
				continue
			}
			r := c.root(k)
			if all, ok := bounds[r]; ok {
				b = b.Union(all)
			} else {
				of[r] = i
			}
			bounds[r] = b
		}
	}

	for r, b := range bounds {
		c.edge(box, b, of[r], -1)
	}
}

// edge reports one opening with a box; part is −1 for one of several pieces.
func (c *look) edge(box, b orb.Bound, i, part int) {
	gaps := [4]float64{b.Min[0] - box.Min[0], box.Max[0] - b.Max[0], b.Min[1] - box.Min[1], box.Max[1] - b.Max[1]}
	side := 0
	for k := range gaps {
		if gaps[k] < gaps[side] {
			side = k
		}
	}
	d := gaps[side]
	if d >= c.need.Bridge {
		return
	}
	if !c.listing.Wants(sheet.Edge, sheet.Fault, d) {
		c.listing.Count(sheet.Edge, sheet.Fault, 1, true)
		return
	}
	at := b.Center()
	axis := side / 2
	at[axis] = [4]float64{b.Min[0], b.Max[0], b.Min[1], b.Max[1]}[side]
	if part >= 0 {
		at = c.extreme(i, part, side)
	}
	end := at
	end[axis] = [4]float64{box.Min[0], box.Max[0], box.Min[1], box.Max[1]}[side]
	p := sheet.Problem{Kind: sheet.Edge, Severity: sheet.Fault, At: at, Measured: d, Required: c.need.Bridge,
		Between: between(i, i), Ends: &[2][2]float64{at, end}}
	if c.l.Draft.Field.Edge == draft.Touching {
		p.Mend = &pattern.Command{Name: "edge", Text: string(draft.Whole)}
	}
	c.listing.Add(p)
}

// extreme returns the point of a piece farthest to the left, right, bottom or top.
func (c *look) extreme(i, part, side int) orb.Point {
	best, at := math.Inf(1), orb.Point{}
	for _, p := range c.kept[i].parts[part].Shape.Outline()[0][0] {
		if v := [4]float64{p[0], -p[0], p[1], -p[1]}[side]; v < best {
			best, at = v, p
		}
	}
	return geometry.Add(at, c.copies[i].Shift)
}
