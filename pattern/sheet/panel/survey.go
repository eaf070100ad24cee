package panel

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// Survey is where the openings of a panel lie and what they close in, for whoever ties it. Places in panel mm.
type Survey struct {
	Copies   []pattern.Copy
	Openings []Opening
	Pieces   [][]Piece // of each opening
	Islands  []Island
}

// Piece is one polygon of one copy, after the edge rule and less the ties; Shape is moved by Shift.
type Piece struct {
	Copy  int
	Whole bool // a polygon as drawn: neither cropped nor cut by a tie of the field
	Shape *geometry.Shape
	Shift orb.Point
}

// Island is a piece of sheet that nothing holds. Ring is what closes it in, counter-clockwise, and the holes that openings
// touching it from within leave; other openings may stand in it.
type Island struct {
	Opening int // that closes it in; the first where several do
	Ring    orb.Polygon
	Bound   orb.Bound
	At      orb.Point // inside the ring
	Area    float64   // of all that the ring encloses, mm²
}

// Look surveys a panel. It finds the islands that Check reports, in its order, and fails as Check does.
func Look(l *pattern.Layout) (Survey, error) {
	var s Survey
	var err error
	if s.Copies, err = l.Copies(); err != nil {
		return Survey{}, err
	}
	ps, err := pieces(l, s.Copies)
	if err != nil {
		return Survey{}, err
	}
	found, _, err := unite(ps, newMeetings(ps, s.Copies).within(touchSlack), nil)
	if err != nil {
		return Survey{}, err
	}
	box := l.Draft.SheetBound()
	for i, o := range found {
		s.Openings = append(s.Openings, Opening{o.shape, o.shift})
		var members []Piece
		for _, k := range o.pieces {
			members = append(members, Piece{ps[k].copy, ps[k].whole && !ps[k].cut, ps[k].shape, ps[k].shift})
		}
		s.Pieces = append(s.Pieces, members)
		for _, h := range o.holes {
			if h.dropsFrom(box) {
				s.Islands = append(s.Islands, Island{i, h.ring, h.bound, geometry.InnerPoint(h.ring), h.area})
			}
		}
	}
	return s, nil
}

// dropsFrom reports whether what closes in this part of the plane lies inside the sheet, so that nothing holds it.
func (h hole) dropsFrom(sheet orb.Bound) bool {
	return h.bound.Min[0] > sheet.Min[0] && h.bound.Min[1] > sheet.Min[1] &&
		h.bound.Max[0] < sheet.Max[0] && h.bound.Max[1] < sheet.Max[1]
}
