package panel

import (
	"errors"

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

// Island is a piece of sheet that nothing holds. Ring is what closes it in, counter-clockwise, and the holes that
// openings touching it from within leave; other openings may stand in it.
type Island struct {
	Opening int // that closes it in; the first where several do
	Ring    orb.Polygon
	Bound   orb.Bound
	At      orb.Point // inside the ring
	Area    float64   // of all that the ring encloses, mm²
}

// Look surveys a panel. It finds the islands that Check reports, in its order. It fails as Check does, and
// where the field is too crowded for it.
func Look(l *pattern.Layout) (Survey, error) {
	u := united{l: l}
	if _, err := u.unite(touchSlack, nil); err != nil {
		return Survey{}, err
	}
	if u.density == dense {
		return Survey{}, errors.New("the silhouettes run into each other too often to tell the openings' parts; " +
			"make the cell larger or the motifs smaller first")
	}
	s := Survey{Copies: u.copies}
	box := l.Draft.SheetBound()
	for i, o := range u.openings {
		s.Openings = append(s.Openings, Opening{o.shape, o.shift})
		var members []Piece
		for _, k := range o.pieces {
			p := &u.pieces[k]
			members = append(members, Piece{p.copy, p.whole && !p.cut, p.shape, p.shift})
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
