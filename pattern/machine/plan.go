package machine

import (
	"openwork/geometry/curve"
	"openwork/pattern/cutplan"

	"github.com/paulmach/orb"
)

// Machine is what a plan's time depends on.
type Machine struct {
	Motion
	Cut, Mark, Travel float64 // mm/s: of cutting, of marking and scoring, between contours
	Pierce            float64 // s for each contour that is cut
}

// Times is how long a plan takes, in seconds: cutting with piercing, marking, and the ways between.
type Times struct{ Cutting, Marking, Between float64 }

// Total is all of it.
func (t Times) Total() float64 { return t.Cutting + t.Marking + t.Between }

// TimesOf returns how long a plan takes, in the order in which it is cut, from the lower left corner of its page. The
// head stops before and after each contour.
func (m Machine) TimesOf(p *cutplan.Plan) Times {
	type job struct {
		path  *curve.Path
		start int
		layer cutplan.Layer
	}
	known := map[job]float64{}
	var t Times
	var pieces []curve.Piece
	at := p.Page.Min
	for _, c := range p.Contours {
		var from orb.Point
		from, pieces = c.Pieces(pieces[:0])
		t.Between += m.Hop(distance(at, from), m.Travel)

		speed, to := m.Mark, &t.Marking
		if c.Layer == cutplan.Cut {
			speed, to = m.Cut, &t.Cutting
			t.Cutting += m.Pierce
		}
		each := job{c.Path, c.Start, c.Layer}
		if _, ok := known[each]; !ok {
			known[each] = m.Along(from, pieces, speed)
		}
		*to += known[each]
		if at = from; len(pieces) > 0 {
			at = pieces[len(pieces)-1].To
		}
	}
	return t
}
