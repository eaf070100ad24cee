package copies

import (
	"github.com/paulmach/orb"

	"openwork/pattern/draft"
)

// GrabPX is how near a pointer must come to a copy it does not stand on, in CSS px: half of a finger's width is more
// than the eye forgives, so half of that.
const GrabPX = 10.0

// maxHits is how many copies are looked at for the one under the pointer: seen from far away hundreds lie within its
// reach.
const maxHits = 5000

// Hit returns the copy under a canvas point, or the nearest one within reach; ok is false when there is none. A copy
// that the edge rule leaves out cannot be taken.
func (m *Mode) Hit(p orb.Point) (Held, bool) { return m.hitWithin(p, GrabPX) }

// hitWithin is Hit with a reach in px.
func (m *Mode) hitWithin(p orb.Point, px float64) (Held, bool) {
	l, selected := m.desk.Layout(), m.desk.Selection().ID
	if l == nil {
		return Held{}, false
	}

	p = m.view.Panel(p[0], p[1])
	reach := px / m.view.Zoom
	if l.Draft.Field.Edge == draft.Crop && !l.Draft.FieldBound().Pad(reach).Contains(p) {
		return Held{}, false
	}

	q := l.Draft.FieldMap().Rigid().Apply(p)
	window := orb.Bound{Min: q, Max: q}.Pad(reach)
	best, found, nearest := Held{}, false, reach
	looked := 0
	// The last drawn lies on top, so later finds win; the selected motif wins over all.
	for i, o := range l.Orbits {
		for _, image := range o.Images {
			l.Cells(window, image.Bound(), func(a, b int) bool {
				if looked++; looked > maxHits {
					return false
				}
				v := l.Lattice(a, b)
				at := orb.Point{q[0] - v[0], q[1] - v[1]}
				d := 0.0
				if !image.Contains(at) {
					near, found := image.Distance(at, reach)
					if !found {
						return true
					}
					d = near
				}
				h := Held{i, image.Op, [2]int{a, b}}
				over := d > nearest || (d == nearest && found && l.Draft.Motifs[best.Motif].ID == selected)
				if over || !Kept(l, image, v) {
					return true
				}
				best, found, nearest = h, true, d
				return true
			})
		}
	}
	return best, found
}
