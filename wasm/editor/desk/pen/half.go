package pen

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
)

// sameImageMM is how near the image of a point another must lie to be its image: ten steps of the draft's grid.
const sameImageMM = 1e-3

// image returns a place's image in the mirror of the half.
func (d *drawing) image(p orb.Point) orb.Point { return orb.Point{2*d.axis - p[0], p[1]} }

// imageOf returns the node that is a node's image in the mirror, perhaps itself.
func (d *drawing) imageOf(ring, node int) (int, int, bool) {
	rings := d.shape.Rings()
	at := d.image(rings[ring].Nodes[node].At)
	for i, r := range rings {
		for j, v := range r.Nodes {
			if geometry.PointDistance(v.At, at) < sameImageMM {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// movedBy returns the shape with the chosen stretch moved; while a half is drawn, its image goes with it, and what
// lies on the mirror stays there.
func (m *Mode) movedBy(by orb.Point) pen.Shape {
	d := m.d
	s := d.shape.With(d.ring, d.shape.Rings()[d.ring].Moved(d.sel, by))
	if !d.half {
		return s
	}

	move := func(ring, node int, by orb.Point) {
		s = s.With(ring, s.Rings()[ring].Moved(pen.Stretch{From: node, To: node}, by))
	}

	for node := range d.shape.Rings()[d.ring].Nodes {
		if !m.inStretch(node) {
			continue
		}
		ring, other, ok := d.imageOf(d.ring, node)
		switch {
		case !ok:
		case ring == d.ring && other == node:
			move(ring, node, orb.Point{-by[0], 0})
		case ring != d.ring || !m.inStretch(other):
			move(ring, other, orb.Point{-by[0], by[1]})
		}
	}
	return s
}

// bentTo returns the shape with the pressed piece bent through a place, and its image with it while a half is drawn.
func (m *Mode) bentTo(at orb.Point) pen.Shape {
	d := m.d
	rings := d.shape.Rings()
	next := (d.sel.From + 1) % len(rings[d.ring].Nodes)
	s := d.shape.With(d.ring, rings[d.ring].Bent(d.sel.From, d.spot, at))
	if !d.half {
		return s
	}

	i, from, ok1 := d.imageOf(d.ring, d.sel.From)
	j, to, ok2 := d.imageOf(d.ring, next)
	if n := len(rings[i].Nodes); ok1 && ok2 && i == j && (to+1)%n == from && (i != d.ring || to != d.sel.From) {
		s = s.With(i, s.Rings()[i].Bent(to, 1-d.spot, d.image(at)))
	}
	return s
}
