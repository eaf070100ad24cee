package pattern

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/pattern/symmetry"
)

// checkCrowd refuses a field whose silhouettes are so much larger than the cell that thousands of copies would lie over
// each other everywhere. The estimate takes every copy for a square as wide as its silhouette, ties among it, is long.
func (d Draft) checkCrowd() error {
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		return err
	}
	reach := map[string]float64{}
	for _, s := range d.Silhouettes {
		b := s.Outline.Bound()
		ties, _ := d.tiesOf(s.ID)
		for _, t := range ties {
			if r := t.Rect(); r != nil {
				b = b.Union(orb.Polygon(r).Bound())
			}
		}
		reach[s.ID] = math.Hypot(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])
	}
	crowd := 0.0
	for _, m := range d.Motifs {
		side := m.Scale * reach[m.Silhouette]
		crowd += side * side
	}
	crowd *= float64(len(g.Ops)) / d.Repeat.Cell().Area()
	if crowd > maxCrowd {
		return &PlaceError{"repeat", fmt.Sprintf(
			"at every place about %.0f copies would lie over each other, and the limit is %d; make the cell larger or the motifs smaller",
			crowd, maxCrowd)}
	}
	return nil
}

// checkTieCopies refuses ties of the field that are so long beside the cell, or so many, that the panel would hold far more of
// them than MaxTieCopies. The estimate takes every tie for a square as wide as it is long.
func (d Draft) checkTieCopies() error {
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		return err
	}
	each := float64(len(g.Ops)) / d.Repeat.Cell().Area()
	sum := 0.0
	for i, t := range d.Ties {
		if t.Silhouette != "" {
			continue
		}
		side := t.Length() + t.Width
		n := each * (d.Panel.Width + side) * (d.Panel.Height + side)
		switch sum += n; {
		case n > 2*MaxTieCopies:
			return &PlaceError{tiePlace(i), fmt.Sprintf(
				"a tie %.4g mm long and %.4g mm wide would lie on the panel about %.0f times over, and the limit is %d ties; make it shorter or the cell larger",
				t.Length(), t.Width, n, MaxTieCopies)}
		case sum > 2*MaxTieCopies:
			return &PlaceError{tiePlace(i), fmt.Sprintf(
				"with this tie the panel would need about %.0f ties, and the limit is %d; make the cell larger or take ties away", sum, MaxTieCopies)}
		}
	}
	return nil
}
