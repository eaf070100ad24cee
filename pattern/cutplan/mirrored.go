package cutplan

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
)

// mirroredSays is marked on a sheet that is cut from its back, in letters of at least minMirrored mm.
const (
	mirroredSays = "MIRRORED  CUT FROM THE BACK  THIS SIDE IS THE BACK"
	minMirrored  = 2.0
)

// markMirrored marks in the margin that this is the sheet's back.
func (b *build) markMirrored() {
	if !b.o.Mirrored {
		return
	}
	layer := b.o.Label.Layer
	if layer == "" {
		layer = Mark
	}
	b.note("The file is mirrored, to cut the sheet from its back; the words on it are read from there.")
	if !b.write([]string{mirroredSays}, max(b.o.Label.Height, minMirrored), layer, ClassNote) &&
		!b.write([]string{"BACK"}, max(b.o.Label.Height, minMirrored), layer, ClassNote) {
		b.note("There is no room in the margin to mark that the sheet is mirrored; the file and the job sheet say it.")
	}
}

// readable returns strokes that run from 0 to a width, in mm, so that they can be read once the plan is mirrored.
func (b *build) readable(paths []curve.Path, wide float64) []curve.Path {
	if !b.o.Mirrored {
		return paths
	}
	out := make([]curve.Path, len(paths))
	for i, p := range paths {
		out[i] = p.Under(geometry.MirrorX.Moved(wide, 0))
	}
	return out
}

// mirror turns the plan about the upright through the middle of its page, where it is to be cut from the back. What is
// cut begins where it did, and contours that share a path still do.
func (b *build) mirror() {
	if !b.o.Mirrored {
		return
	}
	page := b.plan.Page
	for _, ring := range b.plan.Outline {
		for i, v := range ring {
			ring[i] = orb.Point{page.Max[0] - page.Min[0] - v[0], v[1]}
		}
		ring.Reverse()
	}
	known := map[*curve.Path]*curve.Path{}
	for i := range b.plan.Contours {
		c := &b.plan.Contours[i]
		p, ok := known[c.Path]
		if !ok {
			q := turnedOver(*c.Path)
			p = &q
			known[c.Path] = p
		}
		if c.Path.Closed() { // it runs the other way
			n := len(c.Path.Pieces)
			c.Start = (n - c.Start) % n
		}
		// Contours are moved, never turned.
		v := c.Map.Apply(orb.Point{})
		c.Path, c.Map = p, geometry.Translate(page.Min[0]+page.Max[0]-v[0], v[1])
	}
}

// turnedOver returns the path mirrored about the axis x = 0: a closed one keeps the side that its inside lies on, an
// open one runs as it did.
func turnedOver(p curve.Path) curve.Path {
	if p.Closed() {
		return p.Under(geometry.MirrorX)
	}
	m := geometry.MirrorX
	out := curve.Path{Start: m.Apply(p.Start), Pieces: make([]curve.Piece, len(p.Pieces))}
	for i, q := range p.Pieces {
		q.C1, q.C2, q.To, q.Bulge = m.Apply(q.C1), m.Apply(q.C2), m.Apply(q.To), -q.Bulge
		if q.Bulge == 0 {
			q.Bulge = math.Abs(q.Bulge)
		}
		out.Pieces[i] = q
	}
	return out
}
