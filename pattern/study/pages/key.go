package pages

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/paper/pdf"
)

// Heights of the numbers of a key, in panel mm: a third of an opening's shorter side, within these.
const (
	keyShare       = 0.33
	minKey, maxKey = 1.8, 9.0
)

// Key writes the number of its colour, from 1, into each opening that meets a window, in panel mm; nothing where the
// paint has no colours.
func (w *Drawing) Key(c *pdf.Content, window orb.Bound) {
	c.Save()
	if w.l.Draft.Field.Edge == draft.Crop {
		c.Rect(w.l.Draft.FieldBound())
		c.Clip()
	}
	for i, each := range w.copies {
		if each.Colour < 0 || !window.Intersects(w.boxes[i]) {
			continue
		}
		b := w.boxes[i]
		high := math.Max(minKey, math.Min(maxKey, keyShare*math.Min(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])))
		number := strconv.Itoa(each.Colour + 1)
		wide := pdf.TextWidth(pdf.SansBold, high, number)
		at := geometry.Add(each.Image.Centroid(), each.Shift)
		halo := orb.Bound{Min: orb.Point{at[0] - wide/2 - 0.2*high, at[1] - 0.5*high},
			Max: orb.Point{at[0] + wide/2 + 0.2*high, at[1] + 0.5*high}}
		c.Ink(White)
		c.Rect(halo)
		c.Fill()
		c.Ink(Ink)
		c.Text(pdf.SansBold, high, at[0]-wide/2, at[1]-0.35*high, number)
	}
	c.Restore()
}

// KeyWords says which number is which swatch, and how one stencil serves for all.
func KeyWords(d draft.Draft) string {
	p := d.PaintOf()
	if len(p.Colours) == 0 {
		return "There is no key: the draft names no colours."
	}
	var named []string
	for i, id := range p.Colours {
		s, _ := d.Swatch(id)
		named = append(named, fmt.Sprintf("%d\u00a0%s", i+1, s.Name))
	}
	return "Openings are numbered by their colour: " + strings.Join(named, ", ") +
		". One stencil serves for all: tape the " +
		"other numbers over, fill one, and let it dry before the next."
}
