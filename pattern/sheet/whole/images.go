package whole

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/clip"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// image is one of the different images in a cell, with its copies on the panel.
type image struct {
	pattern.Image
	orbit     *pattern.Orbit
	bound     orb.Bound // field mm
	parts     []sheet.Part
	from, to  int    // its copies
	whole     int    // how many of them are whole
	low, size [2]int // the cells in which it has copies
	at        []int32
	meets     []neighbour // whose boxes meet its own
}

// neighbour is an image some cells on.
type neighbour struct {
	image int
	cell  [2]int
	shift orb.Point // from the one image to the other, panel mm
}

// find returns the image's copy in a cell, −1 where there is none.
func (m *image) find(x, y int) int {
	x, y = x-m.low[0], y-m.low[1]
	if x < 0 || y < 0 || x >= m.size[0] || y >= m.size[1] {
		return -1
	}
	return int(m.at[y*m.size[0]+x])
}

// gather sorts the copies to their images and cuts those that the field's edge crops.
func (c *look) gather() {
	c.kept = make([]kept, len(c.copies))
	next := 0
	for k := range c.l.Orbits {
		o := &c.l.Orbits[k]
		for _, i := range o.Images {
			m := image{Image: i, orbit: o, bound: i.Bound(), from: next}
			for next < len(c.copies) && c.copies[next].Motif == o.Motif && c.copies[next].Op == i.Op {
				next++
			}
			if m.to = next; m.from == m.to {
				continue
			}
			m.parts = c.w.Within.PartsOf(c.copies[m.from].Image)
			c.index(&m)
			for n := m.from; n < m.to; n++ {
				c.keep(&m, n)
			}
			c.images = append(c.images, m)
		}
	}
	c.report.Counts.Copies = len(c.copies)
}

// index lays out the cells of an image's copies.
func (c *look) index(m *image) {
	low, high := c.copies[m.from].Cell, c.copies[m.from].Cell
	for _, k := range c.copies[m.from:m.to] {
		for x := range 2 {
			low[x], high[x] = min(low[x], k.Cell[x]), max(high[x], k.Cell[x])
		}
	}
	m.low, m.size = low, [2]int{high[0] - low[0] + 1, high[1] - low[1] + 1}
	m.at = make([]int32, m.size[0]*m.size[1])
	for k := range m.at {
		m.at[k] = -1
	}
	for n := m.from; n < m.to; n++ {
		cell := c.copies[n].Cell
		m.at[(cell[1]-low[1])*m.size[0]+cell[0]-low[0]] = int32(n)
	}
}

// keep finds the pieces of one copy.
func (c *look) keep(m *image, n int) {
	k := kept{first: c.pieces, parts: m.parts}
	one := &c.copies[n]
	if edge := one.Place == geometry.Across && c.l.Draft.Field.Edge == draft.Crop; edge || one.Cut {
		k.cut = c.cut(one.Image, one.Shift, edge, one.Cut)
		k.parts = k.cut.parts
	} else {
		m.whole++
	}
	c.pieces += len(k.parts)
	c.kept[n] = k
}

// cutKey is a shape and what cuts it: the rectangle, as seen from the shape, and where the shape stands among the
// rooms. Sides that do not cut it are infinitely far away, so that copies moved along a side share what is cut.
type cutKey struct {
	shape *geometry.Shape
	rect  orb.Bound
	rooms bool
	shift orb.Point // where rooms cut it
}

// cut is what the field's edge and the rooms leave of a shape, in the shape's frame, and what lies within.
type cut struct {
	parts []sheet.Part
	found []*found // of each part, nil until it was looked for
}

// keyGrid in mm: places that differ by less share what is measured.
const keyGrid = 1e-9

func onGrid(v float64) float64 { return math.Round(v/keyGrid) * keyGrid }

// cut crops a shape moved by shift to the field and to the rooms of subjects.
func (c *look) cut(s *geometry.Shape, shift orb.Point, edge, rooms bool) *cut {
	field, b := c.l.Draft.FieldBound(), s.Bound()
	rect := orb.Bound{Min: orb.Point{math.Inf(-1), math.Inf(-1)}, Max: orb.Point{math.Inf(1), math.Inf(1)}}
	for x := range 2 {
		if v := field.Min[x] - shift[x]; edge && v > b.Min[x] {
			rect.Min[x] = onGrid(v)
		}
		if v := field.Max[x] - shift[x]; edge && v < b.Max[x] {
			rect.Max[x] = onGrid(v)
		}
	}
	key := cutKey{shape: s, rect: rect, rooms: rooms}
	if rooms {
		key.shift = orb.Point{onGrid(shift[0]), onGrid(shift[1])}
	}
	if k, ok := c.w.cuts.get(key); ok {
		return k
	}

	pieces := s.Outline()
	if edge {
		pieces = clip.ToRect(pieces, rect)
	}
	if rooms {
		pieces = c.outsideRooms(s, pieces, edge, shift)
	}
	k := &cut{}
	for _, p := range pieces {
		k.parts = append(k.parts, sheet.Part{Shape: geometry.NewShape(orb.MultiPolygon{p}), First: p[0][0],
			Outer: geometry.RingArea(p[0])})
	}
	k.found = make([]*found, len(k.parts))
	c.w.cuts.put(key, k)
	return k
}

// outsideRooms returns what the rooms leave of an outline, which is that of the shape unless it was cut before.
func (c *look) outsideRooms(s *geometry.Shape, pieces orb.MultiPolygon, was bool, shift orb.Point) orb.MultiPolygon {
	for _, r := range c.l.Rooms {
		b := orb.Bound{Min: geometry.Sub(r.Bound.Min, shift), Max: geometry.Sub(r.Bound.Max, shift)}
		if r.Edge == draft.Whole || len(pieces) == 0 || !b.Intersects(pieces.Bound()) {
			continue
		}
		if was {
			s = geometry.NewShape(pieces)
		}
		left, ok := clip.Without(s, r.Shape, orb.Point{-shift[0], -shift[1]})
		if !ok {
			c.unsureWithin() // where the room's line runs is for the overlay to say
			continue
		}
		pieces, was = left, true
	}
	return pieces
}
