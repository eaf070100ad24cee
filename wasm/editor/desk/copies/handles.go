package copies

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
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
	h.Cell = len(l.Orbits) > 0
	h.Origin, h.A, h.B = field.Apply(orb.Point{}), field.Apply(l.A), field.Apply(l.B)
	h.Far = field.Apply(l.Lattice(1, 1))
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

// gripAt returns the handle under a canvas point; reach is in px.
func (m *Mode) gripAt(p orb.Point, reach float64) grip {
	h := m.Handles()
	at := func(q orb.Point) bool { return geometry.PointDistance(p, q) <= reach }
	switch {
	case h.Shown && at(h.Turn):
		return turnGrip
	case h.Shown && at(h.Scale):
		return scaleGrip
	case h.Cell && at(h.A):
		return sideA
	case h.Cell && at(h.B):
		return sideB
	case h.Cell && at(h.Far):
		return farCorner
	case h.Cell && at(h.Origin):
		return origin
	}
	return noGrip
}
