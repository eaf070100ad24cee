package desk

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// grabPX is how near a pointer must come to a copy it does not stand on, in CSS px: half of a finger's width is more
// than the eye forgives, so half of that.
const grabPX = 10.0

// maxHits is how many copies are looked at for the one under the pointer: seen from far away hundreds lie within its reach.
const maxHits = 5000

// hit returns the copy under a canvas point, or the nearest one within reach; ok is false when there is none. A copy that
// the edge rule leaves out cannot be taken.
func (k *Desk) hit(x, y float64) (Held, bool) {
	l := k.layout
	if l == nil {
		return Held{}, false
	}
	p := k.View.Panel(x, y)
	reach := grabPX / k.View.Zoom
	if l.Draft.Field.Edge == pattern.Crop && !l.Draft.FieldBound().Pad(reach).Contains(p) {
		return Held{}, false
	}
	q := l.Draft.FieldMap().Rigid().Apply(p)
	window := orb.Bound{Min: q, Max: q}.Pad(reach)
	best, found := Held{}, false
	least := reach
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
				if d > least || (d == least && found && l.Draft.Motifs[best.Motif].ID == k.selected) || !k.kept(image, v) {
					return true
				}
				best, found, least = h, true, d
				return true
			})
		}
	}
	return best, found
}

// kept reports whether the edge rule keeps the copy.
func (k *Desk) kept(image pattern.Image, v orb.Point) bool {
	place := k.layout.PlaceOf(image, v)
	d := k.layout.Draft
	return place == geometry.Within || (place == geometry.Across && d.Field.Edge != pattern.Whole)
}

// copyMap returns the map from the field as the motif itself stands in it to the held copy, in panel mm.
func (k *Desk) copyMap(h Held) geometry.Map {
	l := k.layout
	return l.Draft.FieldMap().After(l.Op(h.Op, h.Cell[0], h.Cell[1]))
}

// holdNear puts the handles on the copy of the selected motif nearest to a panel point.
func (k *Desk) holdNear(p orb.Point) {
	l := k.layout
	i := k.held.Motif
	if l == nil || i < 0 || i >= len(l.Orbits) {
		return
	}
	o := l.Orbits[i]
	if o.SameAs >= 0 {
		k.held = Held{Motif: i}
		return
	}
	q := l.Draft.FieldMap().Rigid().Apply(p)
	best := math.Inf(1)
	for _, image := range o.Images {
		c := image.Centroid()
		m, b := l.NearestCell(orb.Point{q[0] - c[0], q[1] - c[1]})
		v := l.Lattice(m, b)
		if d := math.Hypot(q[0]-c[0]-v[0], q[1]-c[1]-v[1]); d < best {
			best = d
			k.held = Held{i, image.Op, [2]int{m, b}}
		}
	}
}

// Handles are the places on the canvas, in CSS px, by which the held copy is turned and scaled, and the cell is shaped.
type Handles struct {
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
	ringAir    = 14.0 // px between a copy and the ring that carries its handles
	ringLeast  = 34.0 // px, so that the two handles of a small copy stay apart
	handlePX   = 14.0 // how near a mouse must come to a handle
	fingerPX   = 24.0 // how near a finger must come: targets are 44 px or more across
	handleSize = 7.0
)

// Handles returns where the handles stand now.
func (k *Desk) Handles() Handles {
	var h Handles
	l := k.layout
	if l == nil {
		return h
	}
	toCanvas := k.View.Map()
	field := toCanvas.After(l.Draft.FieldMap())
	h.Cell = len(l.Orbits) > 0
	h.Origin, h.A, h.B = field.Apply(orb.Point{}), field.Apply(l.A), field.Apply(l.B)
	h.Far = field.Apply(l.Lattice(1, 1))
	i := l.Draft.Motif(k.selected)
	if i < 0 {
		return h
	}
	m := toCanvas.After(k.copyMap(k.held)).After(l.Orbits[i].Place)
	h.Shown = true
	h.Centre = m.Apply(orb.Point{})
	// The ring goes round the silhouette's box as seen from its own origin.
	b := l.Orbits[i].Shape.Bound()
	reach := 0.0
	for _, p := range []orb.Point{b.Min, b.Max, {b.Min[0], b.Max[1]}, {b.Max[0], b.Min[1]}} {
		reach = math.Max(reach, math.Hypot(p[0], p[1]))
	}
	size := math.Hypot(m.A, m.C)
	h.Radius = math.Max(ringLeast, reach*size*0.86+ringAir)
	up, along := m.Vector(orb.Point{0, 1}), m.Vector(orb.Point{1, 0})
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
)

// gripAt returns the handle under a canvas point; reach is in px.
func (k *Desk) gripAt(x, y, reach float64) grip {
	h := k.Handles()
	at := func(p orb.Point) bool { return math.Hypot(p[0]-x, p[1]-y) <= reach }
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
