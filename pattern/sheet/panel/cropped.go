package panel

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// croppedKey is the congruence key of openings that are one piece of a copy cropped at the field's edge: pieces of
// the same image, cut by lines that run through it at the same places, with the same box and area. Along an edge that
// runs with the repeat that is all there is of a copy, again and again. frame leads from the image's frame to the
// panel. Places count as the same to a millionth of a millimetre, a hundred times the overlay's own grid. A piece that
// a tie of the field or a room cuts has no key, and is not cached.
func (c *panelCheck) croppedKey(p *piece) (key string, frame geometry.Map) {
	one := c.copies[p.copy]
	if p.whole || p.cut {
		return "", geometry.Translate(0, 0)
	}
	field, image := c.l.Draft.FieldBound(), one.Image.Bound()
	low, high := less(field.Min, one.Shift), less(field.Max, one.Shift)
	from, to := less(p.bound.Min, one.Shift), less(p.bound.Max, one.Shift)
	for k := range low {
		low[k], high[k] = max(low[k], image.Min[k]), min(high[k], image.Max[k])
	}
	name := fmt.Sprintf("cropped %d %d %.6f %.6f %.6f %.6f %.6f", one.Motif, one.Op, low, high, from, to,
		p.shape.Area())
	return name, geometry.Translate(one.Shift[0], one.Shift[1])
}

// less returns p − q.
func less(p, q orb.Point) orb.Point { return orb.Point{p[0] - q[0], p[1] - q[1]} }
