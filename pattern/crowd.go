package pattern

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
)

// checkCrowd refuses a field whose silhouettes are so much larger than the cell that thousands of copies would lie over
// each other everywhere. The estimate takes every copy for a square as wide as its silhouette, ties among it, is long.
// Such a draft is valid, and can be read, written and mended; it is only not laid out.
func (l *Layout) checkCrowd() error {
	d := l.Draft
	reach := map[string]float64{}
	for _, s := range d.Silhouettes {
		b := l.Shapes.of(s).Bound()
		ties, _ := d.TiesOf(s.ID)
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
	crowd *= float64(len(l.Group.Ops)) / l.Cell.Area()
	if crowd > maxCrowd {
		return &draft.PlaceError{Place: "repeat", Text: fmt.Sprintf(
			"at every place about %.0f copies would lie over each other, and the limit is %d; make the cell larger "+
				"or the motifs smaller",
			crowd, maxCrowd)}
	}
	return nil
}

// checkTies refuses ties of the field so long beside the cell that thousands of them would cross at every place. The
// estimate takes every tie for a square as wide as it is long. How many ties a panel may hold is TiesIn's to say.
func (l *Layout) checkTies() error {
	each := float64(len(l.Group.Ops)) / l.Cell.Area()
	crowd := 0.0
	for i, t := range l.Draft.Ties {
		if t.Silhouette != "" {
			continue
		}
		side := t.Length() + t.Width
		if crowd += each * side * side; crowd > maxTieCrowd {
			return &draft.PlaceError{Place: draft.TiePlace(i), Text: fmt.Sprintf(
				"the tie is %.0f mm long, and with its images about %.0f ties would cross at every place, where the "+
					"limit is %d; make it shorter or the cell larger",
				t.Length(), crowd, maxTieCrowd)}
		}
	}
	return nil
}
