package copies

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

const (
	// snapPX is how near a dragged copy's centre must come to a mirror or a rotation point to be drawn to it, in CSS
	// px.
	snapPX = 8.0
	// snapDegrees is how near a turned silhouette's own axis must come to the mirror it stands on.
	snapDegrees = 4.0
)

// snapped returns where a motif dragged to at, in field mm, comes to stand: with its centre of area on a mirror or a
// rotation point that is near on the canvas.
func (m *Mode) snapped(i int, at orb.Point) orb.Point {
	// Two elements may be close together on the canvas; then neither draws from further than a quarter of the way.
	reach := math.Min(snapPX/m.view.Zoom, math.Min(m.desk.Layout().Cell.A, m.desk.Layout().Cell.B)/16)
	return m.Onto(i, at, reach)
}

// Onto returns at moved so that the motif's centre of area stands on the special place within reach, at itself when
// there is none.
func (m *Mode) Onto(i int, at orb.Point, reach float64) orb.Point {
	o := m.desk.Layout().Orbits[i]
	c := o.Place.Vector(o.Bare.Centroid())
	centre := orb.Point{at[0] + c[0], at[1] + c[1]}
	there, ok := m.desk.Layout().Special(centre, reach)
	if !ok {
		return at
	}
	return orb.Point{there[0] - c[0], there[1] - c[1]}
}

// SnappedTurn returns a turn in degrees near the given one at which an axis of the silhouette lies along a mirror
// that the motif stands on, or the one given.
func (m *Mode) SnappedTurn(motif draft.Motif, turn float64) float64 {
	i := m.desk.Draft().Motif(motif.ID)
	l := m.desk.Layout()
	if i < 0 || l == nil {
		return turn
	}

	site := l.Site(i)
	if site.Mirrors == 0 {
		return turn
	}

	motif.Turn = turn
	place := motif.Map()
	best, nearest := turn, snapDegrees
	for _, axis := range l.Shapes.Axes(l.Orbits[i].Bare) {
		v := place.Vector(orb.Point{math.Cos(axis), math.Sin(axis)})
		angle := math.Atan2(v[1], v[0])
		for _, g := range site.Fixing {
			if g.Det() > 0 {
				continue
			}
			off := math.Remainder(mirrorAngle(g)-angle, math.Pi) * 180 / math.Pi
			if math.Abs(off) < nearest {
				best, nearest = turn+off, math.Abs(off)
			}
		}
	}
	return geometry.Snap(best)
}

// mirrorAngle returns the direction of a reflection's line, radians.
func mirrorAngle(g geometry.Map) float64 { return math.Atan2(g.C, g.A) / 2 }
