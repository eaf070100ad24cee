package copies

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/symmetry"
)

// block is the upright piece that stands for the cell where the repeat is laid in half-drop or brick: a column's or a
// row's own width and height. One of its corners stays where the field's origin puts it, the others shape it.
type block struct {
	lay  pattern.Lay
	at   orb.Point // its lower left corner, in widths and heights from the field's origin: a point of the lattice
	cell blockCell // the same in cells
}

// blockCell is which cell's block is shown: cells along a and b from the field's origin.
type blockCell struct{ m, n int }

// block returns the block that stands for the cell, in a group that would leave the angle free. There is none where
// something of the cell is held.
func (m *Mode) block() (block, bool) {
	name := m.desk.Lay()
	l := m.desk.Layout()
	if l == nil || name == "" || m.desk.HoldsOfCell() != "" || l.Group.System != symmetry.Oblique {
		return block{}, false
	}
	lay, ok := pattern.LayOf(m.desk.Draft().Repeat, name)
	if !ok || lay.Name != name {
		return block{}, false
	}

	cell := m.gesture.block // while it is shaped it stays which it is
	if !m.gesture.grip.ofCell() {
		cell = blockInside(l, lay)
	}
	v := l.Lattice(cell.m, cell.n)
	return block{lay, orb.Point{math.Round(2*v[0]/lay.Width) / 2, math.Round(2*v[1]/lay.Height) / 2}, cell}, true
}

// blockInside chooses the block that is shown: the one at the field's origin where that lies on the panel, else the one
// nearest to the panel's middle, of those that lie on the panel if there are any.
func blockInside(l *pattern.Layout, lay pattern.Lay) blockCell {
	panel, toPanel := l.Draft.PanelBound(), l.Draft.FieldMap()
	inside := func(c blockCell) bool {
		v := l.Lattice(c.m, c.n)
		for _, x := range []float64{0, lay.Width} {
			for _, y := range []float64{0, lay.Height} {
				if !panel.Pad(geometry.Grid).Contains(toPanel.Apply(orb.Point{v[0] + x, v[1] + y})) {
					return false
				}
			}
		}
		return true
	}
	back, ok := toPanel.Inverse()
	if inside(blockCell{}) || !ok {
		return blockCell{}
	}

	middle := back.Apply(panel.Center())
	middle[0] -= lay.Width / 2
	middle[1] -= lay.Height / 2
	near, far := l.NearestCell(middle)
	best, is, least := blockCell{near, far}, false, math.Inf(1)
	for i := -1; i <= 1; i++ {
		for j := -1; j <= 1; j++ {
			c := blockCell{near + i, far + j}
			v := l.Lattice(c.m, c.n)
			d, in := geometry.PointDistance(v, middle), inside(c)
			if in && !is || in == is && d < least {
				best, is, least = c, in, d
			}
		}
	}
	return best
}

// share is how far a side that moves stands from the field's origin, in widths or heights: the far one, or the near one
// where the block lies on the other side of the origin.
func share(at float64) float64 {
	if at < 0 {
		return at
	}
	return at + 1
}

// still is the same of the side across, which stays or goes less far.
func still(at float64) float64 {
	if at < 0 {
		return at + 1
	}
	return at
}

// corner is where the block's origin handle stands, in field mm.
func (b block) corner() orb.Point {
	return orb.Point{still(b.at[0]) * b.lay.Width, still(b.at[1]) * b.lay.Height}
}

// along and up lead from the origin handle along the block's sides, in field mm.
func (b block) along() orb.Point {
	return orb.Point{(share(b.at[0]) - still(b.at[0])) * b.lay.Width, 0}
}

func (b block) up() orb.Point {
	return orb.Point{0, (share(b.at[1]) - still(b.at[1])) * b.lay.Height}
}

// shaped returns what a corner dragged to the field point q makes of the lay.
func (b block) shaped(d grip, q orb.Point) map[string]float64 {
	out := map[string]float64{}
	if d == sideA || d == farCorner {
		out["width"] = sideLength(q[0] / share(b.at[0]))
	}
	if d == sideB || d == farCorner {
		out["height"] = sideLength(q[1] / share(b.at[1]))
	}
	return out
}
