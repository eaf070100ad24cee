// Package residue finds where a region is narrower than a given width: what is left of it when its opening by a disc of
// that width is taken off, piece by piece, in millimetres with y upward.
//
// A region is an orb.MultiPolygon: outer rings counter-clockwise, holes clockwise, every ring closed. Let r be half the
// width. What remains of the region is all that discs of radius r inside it can cover; the rest is the residue. A piece
// of residue touches what remains along stretches, each an arc of one disc that can go no further because it touches
// the boundary on either side. A piece with one stretch hangs from it, one with two or more joins them: without it a
// disc could not pass from one to the other.
//
// How it works: the centre of a disc that rolls along the boundary follows the boundary's edges at distance r and turns
// about its corners. Where this line crosses itself and the disc there is clear of the boundary, the disc jumps from
// one part of the boundary to another: that is a stretch, and what lies between is not reached. Everything is computed
// on the lines and circles themselves, nothing is flattened, and no polygon is constructed.
package residue

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Piece is one connected piece of residue. Discs that cannot pass from one stretch to the other may yet overlap across
// the place, as between two points that face each other; such a place counts as a piece with two stretches although the
// residue there is two crumbs, and its Reach is small or 0.
type Piece struct {
	Outline   orb.Polygon // its boundary; arcs as chords, and straight where the arcs of its stretches would cross
	Stretches int         // along which it touches what remains; 0 where nothing remains of this part of the region
	// Reach is the greatest distance in mm of a point of the piece's boundary from the discs at its stretches, at Far;
	// 0 where there is no stretch. Other parts of what remains that lie near across a gap do not count.
	Reach float64
	Far   orb.Point
	// P, Q, Width: the narrowest place. Of a piece that joins stretches it is the shortest segment that parts them, a
	// double normal, as wide as the widest disc that can pass. Of one that hangs it is the shortest double normal in
	// it; where there is none, because it tapers, it is the width halfway along its side, and Tapers is true.
	P, Q   orb.Point
	Width  float64
	Tapers bool
	// Length in mm: of a piece that joins stretches the mean length of its sides, of one that hangs its Reach.
	Length float64
}

// Joins reports whether the piece joins two stretches or more of what remains.
func (p Piece) Joins() bool { return p.Stretches >= 2 }

// Of returns the pieces of the region's residue for a width in mm, in the order of the boundary: all that join
// stretches, all where nothing remains, and of those that hang from one stretch the ones that reach further than half
// the width from it: what is left in a corner of 60 degrees or more does not. Places no more than 3e-7 of the width
// short of it count as wide enough. Arcs of outlines are drawn with chords that leave them by no more than tolerance mm
// (> 0).
//
// The region must be valid; its rings may touch at points. Every number returned is finite. An error names a coordinate
// or an argument that is not a usable number; it is an *UnclearError where a disc could not be followed.
func Of(region orb.MultiPolygon, width, tolerance float64) ([]Piece, error) {
	return find(region, width, tolerance, true)
}

// Around is Of for the plane round a shape, the shape's holes included.
func Around(shape orb.MultiPolygon, width, tolerance float64) ([]Piece, error) {
	return find(shape, width, tolerance, false)
}

func find(mp orb.MultiPolygon, width, tolerance float64, inside bool) ([]Piece, error) {
	if !(width > 0) || width > maxCoordinate {
		return nil, fmt.Errorf("residue: the width %g is not a number of mm between 0 and %g", width, maxCoordinate)
	}
	if !(tolerance > 0) {
		return nil, fmt.Errorf("residue: the tolerance %g is not a number of mm above 0", tolerance)
	}
	if err := check(mp); err != nil {
		return nil, err
	}
	var unclear *UnclearError
	for _, turn := range turns {
		to := geometry.TurnDegrees(turn)
		turned, tries := mp, attempts
		if turn != 0 {
			turned, tries = geometry.Transform(mp, to), attempts[len(attempts)-turnedAttempts:]
		}
		found, at, ok := follow(turned, width, tolerance, inside, tries)
		if back, invertible := to.Inverse(); turn != 0 && invertible {
			carry(found, back)
			at = back.Apply(at)
		}
		if ok {
			return found, nil
		}
		if unclear == nil {
			unclear = &UnclearError{At: at, Width: width}
		}
	}
	return nil, unclear
}

// UnclearError says where a disc could not be followed along the boundary: the arithmetic cannot tell there what is
// nearer, with any of the radii a hair smaller that were tried, nor turned.
type UnclearError struct {
	At    orb.Point
	Width float64
}

func (e *UnclearError) Error() string {
	return fmt.Sprintf("residue: a disc %g mm wide could not be followed along the outline near (%.4f, %.4f) mm; "+
		"move the points there a little or change the width",
		e.Width, e.At[0], e.At[1])
}

// follow finds the pieces with the first of the attempts whose jumps fit together; else it returns where they did not.
func follow(mp orb.MultiPolygon, width, tolerance float64, inside bool, tries []attempt) (found []Piece, at orb.Point,
	ok bool) {
	b, taken := newBoundary(mp, inside)
	if len(b.edges) == 0 {
		return nil, at, true
	}
	s := geometry.NewShape(taken)
	for _, t := range tries {
		r := width / 2 * (1 - t.part)
		loops, place, ok := b.loops(s, r, t.clear)
		if ok {
			m := measure{b: b, s: s, r: r, half: width / 2, tolerance: tolerance, inside: inside}
			return m.pieces(loops), at, true
		}
		at = place
	}
	return nil, at, false
}

// carry takes pieces from one frame to another.
func carry(pieces []Piece, to geometry.Map) {
	for i := range pieces {
		p := &pieces[i]
		p.P, p.Q, p.Far = to.Apply(p.P), to.Apply(p.Q), to.Apply(p.Far)
		for _, r := range p.Outline {
			for k := range r {
				r[k] = to.Apply(r[k])
			}
		}
	}
}

// check returns an error that names the first coordinate which is not a number or too far away.
func check(mp orb.MultiPolygon) error {
	for i, p := range mp {
		for j, r := range p {
			for k, v := range r {
				if !(math.Abs(v[0]) <= maxCoordinate) || !(math.Abs(v[1]) <= maxCoordinate) {
					return fmt.Errorf("residue: polygon %d, ring %d, point %d at (%g, %g) is not a point within %g "+
						"mm of the origin", i, j, k, v[0], v[1], maxCoordinate)
				}
			}
		}
	}
	return nil
}
