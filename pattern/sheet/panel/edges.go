package panel

import (
	"fmt"
	"math"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// edges reports openings that leave the sheet or come too near its edge. Measured is the distance to the edge, negative
// by how far an opening leaves the sheet. A rectangle's edge is nearest where the opening's box is.
func (c *panelCheck) edges() {
	box, need := c.l.Draft.SheetBound(), c.l.Draft.Sheet.Bridge
	for i := range c.openings {
		b := c.boundOf(i)
		gaps := [4]float64{b.Min[0] - box.Min[0], box.Max[0] - b.Max[0], b.Min[1] - box.Min[1], box.Max[1] - b.Max[1]}
		worst := 0
		for k := range gaps {
			if gaps[k] < gaps[worst] {
				worst = k
			}
		}
		d := gaps[worst]
		if d >= need {
			continue
		}
		at := c.extreme(i, worst)
		end := at
		switch worst {
		case 0:
			end[0] = box.Min[0]
		case 1:
			end[0] = box.Max[0]
		case 2:
			end[1] = box.Min[1]
		default:
			end[1] = box.Max[1]
		}
		copyOf := c.copyOf(i)
		p := sheet.Problem{Kind: sheet.Edge, Severity: sheet.Fault, At: at, Measured: d, Required: need,
			Between: &[2]int{copyOf, copyOf}, Ends: &[2][2]float64{at, end},
			Text: fmt.Sprintf("An opening comes within %s mm of the sheet's edge; this sheet needs %s.", below(d, need),
				short(need))}
		if d < 0 {
			p.Text = fmt.Sprintf("An opening leaves the sheet by %s mm.", short(-d))
		}
		if c.l.Draft.Field.Edge == draft.Touching {
			p.Mend = &pattern.Command{Name: "edge", Text: string(draft.Whole)}
		}
		c.add(p)
	}
}

// extreme returns the point of an opening farthest to the left, right, bottom or top.
func (c *panelCheck) extreme(i, side int) orb.Point {
	best, at := math.Inf(1), orb.Point{}
	for _, p := range c.openings[i].outline[0] {
		v := [4]float64{p[0], -p[0], p[1], -p[1]}[side]
		if v < best {
			best, at = v, p
		}
	}
	return at
}

// short writes a length or an area for a sentence: two decimals at most.
func short(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }

// below writes a figure that is less than a limit, so that it never reads as the limit.
func below(v, limit float64) string {
	if s := short(v); s != short(limit) {
		return s
	}
	return "just under " + short(limit)
}
