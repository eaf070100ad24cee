package copies

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/symmetry"
)

// Handles are the places on the canvas, in CSS px, by which the held copy is turned and scaled, and the cell is shaped.
type Handles struct {
	_ [0]func() // no comparison: its code would be linked

	Shown       bool
	Centre      orb.Point // of the held copy
	Radius      float64   // of the ring round it
	Turn, Scale orb.Point
	Cell        bool
	Origin      orb.Point // of the cell
	A, B        orb.Point // the ends of its sides
	Far         orb.Point
}

const (
	ringAir = 14.0 // px between a copy and the ring that carries its handles
	minRing = 34.0 // px, so that the two handles of a small copy stay apart
)

// Handles returns where the handles stand now.
func (m *Mode) Handles() Handles {
	var h Handles
	l := m.desk.Layout()
	if l == nil {
		return h
	}

	toCanvas := m.view.Map()
	field := toCanvas.After(l.Draft.FieldMap())
	h.Cell = len(l.Orbits) > 0 && (m.CellShown || m.CellKept)
	a, up := l.A, l.B
	if lay, ok := m.block(); ok {
		a, up = orb.Point{lay.Width, 0}, orb.Point{0, lay.Height}
	}
	h.Origin, h.A, h.B = field.Apply(orb.Point{}), field.Apply(a), field.Apply(up)
	h.Far = field.Apply(orb.Point{a[0] + up[0], a[1] + up[1]})
	sel := m.desk.Selection()
	i := l.Draft.Motif(sel.ID)
	if i < 0 {
		return h
	}

	at := toCanvas.After(sel.Map(l)).After(l.Orbits[i].Place)
	h.Shown = true
	h.Centre = at.Apply(orb.Point{})
	// The ring goes round the silhouette's box as seen from its own origin.
	b := l.Orbits[i].Shape.Bound()
	reach := 0.0
	for _, p := range []orb.Point{b.Min, b.Max, {b.Min[0], b.Max[1]}, {b.Max[0], b.Min[1]}} {
		reach = math.Max(reach, math.Hypot(p[0], p[1]))
	}

	size := math.Hypot(at.A, at.C)
	h.Radius = math.Max(minRing, reach*size*0.86+ringAir)
	up, along := at.Vector(orb.Point{0, 1}), at.Vector(orb.Point{1, 0})
	h.Turn = orb.Point{h.Centre[0] + up[0]/size*h.Radius, h.Centre[1] + up[1]/size*h.Radius}
	h.Scale = orb.Point{h.Centre[0] + along[0]/size*h.Radius, h.Centre[1] + along[1]/size*h.Radius}
	return h
}

// grip is what of the handles lies under a canvas point.
type grip int

const (
	noGrip grip = iota
	turnGrip
	scaleGrip
	sideA
	sideB
	farCorner
	origin
	wholeCopy // no handle: the copy itself
)

// block returns the lay whose block stands for the cell: a column's or a row's own width and height, in a group that
// would leave the angle free. There is none where something of the cell is held.
func (m *Mode) block() (pattern.Lay, bool) {
	name := m.desk.Lay()
	oblique := m.desk.Layout().Group.System == symmetry.Oblique
	if name == "" || m.desk.HoldsOfCell() != "" || !oblique {
		return pattern.Lay{}, false
	}
	lay, ok := pattern.LayOf(m.desk.Draft().Repeat, name)
	return lay, ok && lay.Name == name
}

// gripAt returns the handle under a canvas point; reach is in px. Of the cell's handles and the copies the one has the
// right of way that was touched last: while a copy is in hand, what lies on a copy is that copy's.
func (m *Mode) gripAt(p orb.Point, reach float64) grip {
	h := m.Handles()
	first, second := m.copyGrip(h, p, reach), m.cellGrip(h, p, reach)
	if m.cellLast || first == noGrip && !h.Shown {
		first, second = second, first
	} else if first == noGrip && second != noGrip {
		if _, on := m.hitWithin(p, 0); on {
			return noGrip
		}
	}
	if first != noGrip {
		return first
	}
	return second
}

// copyGrip returns the handle of the copy in hand at a canvas point.
func (m *Mode) copyGrip(h Handles, p orb.Point, reach float64) grip {
	switch {
	case h.Shown && geometry.PointDistance(p, h.Turn) <= reach:
		return turnGrip
	case h.Shown && geometry.PointDistance(p, h.Scale) <= reach:
		return scaleGrip
	}
	return noGrip
}

// cellGrip returns the handle of the cell at a canvas point.
func (m *Mode) cellGrip(h Handles, p orb.Point, reach float64) grip {
	at := func(q orb.Point) bool { return h.Cell && geometry.PointDistance(p, q) <= reach }
	switch {
	case at(h.A):
		return sideA
	case at(h.B):
		return sideB
	case at(h.Far):
		return farCorner
	case at(h.Origin):
		return origin
	}
	return noGrip
}
