package draft

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"openwork/geometry"
	"openwork/pattern/symmetry"
)

// What members must fulfil together. Each rule returns the key that is at fault and what is wrong there.

func (c *checker) marginLeavesAField(owner any) (key, text string) {
	margin, panel := owner.(*Field).Margin, c.d.Panel
	half := math.Min(panel.Width, panel.Height) / 2
	if margin < half {
		return "", ""
	}
	return "margin", fmt.Sprintf("%g mm leave no field on a panel of %g × %g mm; a margin under %g mm does",
		margin, panel.Width, panel.Height, half)
}

func (c *checker) cellFitsGroup(owner any) (key, text string) {
	r := owner.(*Repeat)
	g, err := symmetry.Find(r.Group)
	if err == nil {
		err = g.CheckCell(r.Cell())
	}
	if err == nil {
		return "", ""
	}
	key, text, ok := strings.Cut(err.Error(), ": ")
	if !ok {
		return "", err.Error()
	}
	return key, text
}

func (c *checker) tieHasLength(owner any) (key, text string) {
	if owner.(*Tie).Length() >= MinTie {
		return "", ""
	}
	return "to", fmt.Sprintf("the tie's ends lie on one place; they must be at least %s mm apart", plain(MinTie))
}

// cellNotTooFull refuses motifs whose copies in one cell have more points than a layout can hold.
func (c *checker) cellNotTooFull(any) (key, text string) {
	points := 0
	for _, m := range c.d.Motifs {
		s, _ := c.d.Silhouette(m.Silhouette)
		points += geometry.Points(s.Outline)
	}
	g, err := symmetry.Find(c.d.Repeat.Group)
	if err != nil || points*len(g.Ops) <= MaxCellPoints {
		return "", ""
	}
	return "motifs", fmt.Sprintf("their copies in one cell of %s have %d points together, and the limit is %d; "+
		"trace the silhouettes with a wider tolerance, or take motifs out", g.Symbol, points*len(g.Ops),
		int(MaxCellPoints))
}

// cutTies takes every silhouette's ties off it for trial. Silhouettes whose outline and ties are as before are not cut
// again.
func (c *checker) cutTies() {
	for _, s := range c.d.Silhouettes {
		ties, first := c.d.TiesOf(s.ID)
		if len(ties) == 0 {
			continue
		}
		if old, ok := c.was.Silhouette(s.ID); ok && sameOutline(old.Outline, s.Outline) {
			if before, _ := c.was.TiesOf(s.ID); slices.Equal(before, ties) {
				continue
			}
		}
		if _, err := LessTies(s.Outline, ties); err != nil {
			c.fail(TiePlace(first), err.Error())
		}
	}
}

// TiePlace is where tie i of the list stands in a draft's file.
func TiePlace(i int) string { return "ties[" + strconv.Itoa(i) + "]" }
