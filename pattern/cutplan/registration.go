package cutplan

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
)

// holes sets registration holes or marks at the places asked for, or at three corners of the margin, so that a sheet
// that is turned round or over does not fit; where a corner is not free, along the sides.
func (b *build) holes() error {
	o := b.o.Holes
	if o.Diameter == 0 {
		return nil
	}
	cut := o.Layer == Cut
	r := o.Diameter / 2
	reach, room := r+crossBeyond, clearance
	if cut {
		r -= b.Kerf / 2
		reach, room = o.Diameter/2, math.Max(clearance, b.Bridge)
		if r <= 0 {
			return fmt.Errorf("registration holes of %g mm are no wider than the kerf; make them larger", o.Diameter)
		}
	}
	square := func(p orb.Point) orb.Bound { return orb.Bound{Min: p, Max: p}.Pad(reach) }
	var at []orb.Point
	if o.At != nil {
		for _, p := range o.At {
			if !(math.Abs(p[0]) <= geometry.MaxCoordinate && math.Abs(p[1]) <= geometry.MaxCoordinate) ||
				!b.free(square(p), room) {
				b.note("The registration hole at (%.1f, %.1f) mm would touch an opening, the sheet's edge or another "+
					"mark; it is left out.", p[0], p[1])
				continue
			}
			at = append(at, p)
			b.taken = append(b.taken, square(p))
		}
	} else {
		for _, p := range b.corners() {
			if (len(at) < 3 || !apartFromLine(at)) && b.free(square(p), room) &&
				!b.AcrossEdge(square(p).Pad(clearance)) {
				at = append(at, p)
				b.taken = append(b.taken, square(p))
			}
		}
	}

	if !apartFromLine(at) {
		b.note("There is room for %d registration holes of %g mm in the margin; three that are not in line are needed.",
			len(at), o.Diameter)
	}
	b.made.Holes, b.registration = len(at), at
	for _, p := range at {
		c := curve.Circle(p, r, b.round())
		if b.kind == curve.Line {
			c = curve.Polygon(c.Flatten(b.o.Tolerance / 10))
		}
		if cut {
			b.units = append(b.units, unit{first: len(b.cuts), last: len(b.cuts) + 1, outers: 1, box: c.Bound(),
				within: -1})
			b.cuts = append(b.cuts, Contour{Layer: Cut, Class: ClassRegistration, Path: &c, Map: geometry.Identity,
				unit: len(b.units) - 1})
			continue
		}
		b.marks = append(b.marks, Contour{Layer: Mark, Class: ClassRegistration, Path: &c, Map: geometry.Identity})
		for _, v := range []orb.Point{{reach, 0}, {0, reach}} {
			l := curve.Path{Start: orb.Point{p[0] - v[0], p[1] - v[1]},
				Pieces: []curve.Piece{{Kind: curve.Line, To: orb.Point{p[0] + v[0], p[1] + v[1]}}}}
			b.marks = append(b.marks, Contour{Layer: Mark, Class: ClassRegistration, Path: &l, Map: geometry.Identity})
		}
	}
	return nil
}

// corners returns the places for registration, best first: middles of the margin's corners, then along its sides. Where
// the sheet reaches beyond the panel these are on the panel, and after them come those beside it.
func (b *build) corners() []orb.Point {
	s := b.strips()
	var out []orb.Point
	around := func(r orb.Bound) {
		x0, y0, x1, y1 := r.Min[0], r.Min[1], r.Max[0], r.Max[1]
		out = append(out, orb.Point{x0, y1}, orb.Point{x1, y0}, r.Min, r.Max)
		for _, t := range []float64{0.5, 0.25, 0.75, 0.125, 0.875} {
			x, y := x0+t*(x1-x0), y0+t*(y1-y0)
			out = append(out, orb.Point{x, y0}, orb.Point{x0, y}, orb.Point{x, y1}, orb.Point{x1, y})
		}
	}
	middles := orb.Bound{Min: orb.Point{s[2].box.Center()[0], s[0].box.Center()[1]},
		Max: orb.Point{s[3].box.Center()[0], s[1].box.Center()[1]}}
	if b.Panel == (orb.Bound{}) || within(b.box, b.Panel) {
		around(middles)
		return out
	}

	// The margin's sides are parted by the panel's edge: what is inside it first, then what is outside.
	on, beside := middles, middles
	for axis := range 2 {
		if p := b.Panel.Min[axis]; p > b.box.Min[axis] {
			on.Min[axis], beside.Min[axis] = (p+math.Max(p, b.Field.Min[axis]))/2, (p+b.box.Min[axis])/2
		}
		if p := b.Panel.Max[axis]; p < b.box.Max[axis] {
			on.Max[axis], beside.Max[axis] = (p+math.Min(p, b.Field.Max[axis]))/2, (p+b.box.Max[axis])/2
		}
	}
	around(on)
	around(beside)
	return out
}

// apartFromLine reports whether there are three places among these that are not in line: one at least a tenth as far
// from the line through the first two as these are apart.
func apartFromLine(at []orb.Point) bool {
	for i := range at {
		for j := range i {
			for k := range j {
				u := orb.Point{at[j][0] - at[i][0], at[j][1] - at[i][1]}
				v := orb.Point{at[k][0] - at[i][0], at[k][1] - at[i][1]}
				if math.Abs(u[0]*v[1]-u[1]*v[0]) >= 0.1*(u[0]*u[0]+u[1]*u[1]) {
					return true
				}
			}
		}
	}
	return false
}
