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
	h.Cell = len(l.Orbits) > 0 && (m.CellShown || m.CellKept)
	a, up, from := l.A, l.B, orb.Point{}
	if b, ok := m.block(); ok {
		a, up, from = b.along(), b.up(), b.corner()
	}
	h.Origin, h.A, h.B = field.Apply(from), field.Apply(geometry.Add(from, a)), field.Apply(geometry.Add(from, up))
	h.Far = field.Apply(geometry.Add(from, geometry.Add(a, up)))
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

// ofCell reports whether it is a handle of the cell.
func (g grip) ofCell() bool { return g == sideA || g == sideB || g == farCorner || g == origin }

// gripAt returns the handle under a canvas point; reach is in px. The handles of the copy in hand and those of the cell
// have the right of way by which of them was touched last. A copy under the pointer, or nearer to it than the cell's
// handle, goes before that handle unless the cell was touched last; then, too, a handle on a copy has half its reach.
func (m *Mode) gripAt(p orb.Point, reach float64) grip {
	h := m.Handles()
	first := m.copyGrip(h, p, reach)
	if first != noGrip && !m.cellLast {
		return first
	}
	second, far := m.cellGrip(h, p, reach)
	if second == noGrip {
		return first
	}

	_, on := m.hitWithin(p, 0)
	if m.cellLast {
		if on && far > reach/2 {
			return first
		}
		return second
	}
	if _, near := m.hitWithin(p, math.Min(far, GrabPX)); on || near {
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

// cellGrip returns the handle of the cell at a canvas point, the nearest one, and how far it is, px.
func (m *Mode) cellGrip(h Handles, p orb.Point, reach float64) (g grip, far float64) {
	if !h.Cell {
		return noGrip, reach
	}
	far = reach
	for _, each := range []struct {
		grip grip
		at   orb.Point
	}{{sideA, h.A}, {sideB, h.B}, {farCorner, h.Far}, {origin, h.Origin}} {
		if d := geometry.PointDistance(p, each.at); d <= far && (g == noGrip || d < far) {
			g, far = each.grip, d
		}
	}
	return g, far
}
