// Package leadin finds lead-ins: the beam pierces the waste and runs in to the contour, so that the place where it
// pierces, wider than the kerf, spoils nothing that stays. Lengths are millimetres.
package leadin

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
)

const (
	// Near in mm: so near to its own contour a lead-in is taken to be clear.
	Near = 0.02
	// short is the part of the length asked for that a lead-in has at least; there is none shorter.
	short = 0.5
	// least in radians (10°): a lead-in leaves the contours by that at least, as seen from where it meets its own.
	least = 10 * math.Pi / 180
	// maxPlaces is how many places of a contour are tried.
	maxPlaces = 24
)

// angles are tried at each place, as parts of the angle that the waste has there: its middle first.
var angles = [...]float64{0.5, 0.65, 0.35, 0.8, 0.2}

// Into returns a run of pieces that begins at start, with a lead-in of that length, or half of it, before it. The waste
// lies to the left of the pieces, inside the shape. A closed run begins where there is room, at its own start first; an
// open one at its start only. Where there is no room, or nothing to run in to, it is nil.
func Into(start orb.Point, pieces []curve.Piece, closed bool, waste *geometry.Shape, length float64) *curve.Path {
	n := len(pieces)
	places := 1
	if closed {
		places = min(n, maxPlaces)
	}
	for _, l := range [...]float64{length, short * length} {
		for k := range places {
			at := k * n / places
			from := start
			if at > 0 {
				from = pieces[at-1].To
			}
			u := direction(from, pieces[at], true)
			v := u
			if closed {
				before := (at + n - 1) % n
				v = direction(curve.Path{Start: start, Pieces: pieces}.From(before), pieces[before], false)
			}
			// The waste lies between the way on and the way back, counter-clockwise.
			wide := math.Mod(math.Atan2(geometry.Cross(u, geometry.Times(v, -1)), -geometry.Dot(u, v))+2*math.Pi,
				2*math.Pi)
			if wide == 0 {
				wide = math.Pi
			}
			for _, part := range angles {
				d := geometry.Turn(part * wide).Vector(u)
				if !fits(waste, from, d, l) {
					continue
				}
				out := curve.Path{Start: geometry.Add(from, geometry.Times(d, l)),
					Pieces: []curve.Piece{{Kind: curve.Line, To: from, Corner: true}}}
				out.Pieces = append(append(out.Pieces, pieces[at:]...), pieces[:at]...)
				return &out
			}
		}
	}
	return nil
}

// fits reports whether a lead-in from a place on a contour, in a direction of unit length, lies in the waste and
// keeps away from all contours. It goes along it by steps no longer than the distance that it has there.
func fits(waste *geometry.Shape, from, d orb.Point, length float64) bool {
	if !waste.Contains(geometry.Add(from, geometry.Times(d, length))) {
		return false
	}
	for t := length; t > Near; {
		near := waste.DistanceTo(geometry.Add(from, geometry.Times(d, t)), 2*length)
		if near.Found && near.D < t*math.Sin(least) {
			return false
		}
		step := length
		if near.Found {
			step = near.D
		}
		t -= step / 2
	}
	return true
}

// direction returns the unit vector in which a piece leaves a place, or arrives at its end.
func direction(from orb.Point, q curve.Piece, leaving bool) orb.Point {
	p := curve.Path{Start: from, Pieces: []curve.Piece{q}}
	const hair = 1e-4 // of the piece
	long := p.Length()
	s := curve.Section(from, p.Pieces, 0, hair*long)
	if !leaving {
		s = curve.Section(from, p.Pieces, (1-hair)*long, long)
	}
	return geometry.Unit(geometry.Sub(s.End(), s.Start))
}
