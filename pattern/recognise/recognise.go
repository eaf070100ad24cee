// Package recognise says which plane group a laid-out field really has.
//
// It searches over isometries and never looks at the group that was chosen. The field is taken as a periodic set of
// pieces: each polygon of each silhouette, with its holes, as placed. Pieces that overlap are not united, for the
// painter drew them as separate things; pieces that coincide count once. The search goes from the lattice (lattice.go:
// which finer lattice also carries the set to itself) over the turns and mirrorings that keep it (holohedry.go) to
// those that, with some translation, carry every piece to a piece (search.go); the operations found are brought to an
// exact group (exact.go), which is named by its elements (name.go, elements.go).
//
// Two pieces are the same when their boundaries agree to pattern.SameSlack everywhere, however their corners are
// spaced.
package recognise

import (
	"errors"
	"fmt"

	"github.com/paulmach/orb"

	"openwork/pattern"
)

// Finding says which plane group a field really has. Lengths are field mm, y up: before the field's own turn and place
// on the panel.
type Finding struct {
	Chosen string `json:"chosen"` // short symbol of the draft's group
	Actual string `json:"actual"` // short symbol of the whole symmetry of the field as drawn
	// of the actual point group: copies of a general point in a primitive cell
	Order     int          `json:"order"`
	Primitive [2]orb.Point `json:"primitive"` // reduced basis of the true lattice, shorter vector first, right-handed
	// each once modulo the lattice, with At in the cell of Primitive from (0, 0)
	Elements []Element `json:"elements"`

	// Of a field whose copies have colours, short symbols; empty where none are given. Permutes is the group of the
	// operations that carry all copies of one colour to copies of one colour, KeptOne of those among them that leave
	// the colour of the first motif, and Kept of those that leave every copy its colour.
	Permutes string `json:"permutes,omitempty"`
	KeptOne  string `json:"keptOne,omitempty"`
	Kept     string `json:"kept,omitempty"`
	// primitive cells of the field in one of Kept
	KeptCells int `json:"keptCells,omitempty"`
}

// The kinds of elements.
const (
	TurnPoint  = "turn"
	MirrorLine = "mirror"
	GlideLine  = "glide"
)

// Element is a rotation point, a mirror or a glide line. A line that is a mirror is not listed as a glide as well.
type Element struct {
	Kind  string    `json:"kind"`
	Order int       `json:"order"` // of a rotation point: 2, 3, 4 or 6, the highest there; 0 for lines
	At    orb.Point `json:"at"`    // the rotation point, or a point of the line
	Along orb.Point `json:"along"` // unit vector of the line, at 0 up to 180 degrees from +x; (0, 0) for points
	Shift float64   `json:"shift"` // of a glide: its shortest move along the line, mm, above 0; else 0
}

// ErrEmpty is the refusal of a field without a motif.
var ErrEmpty = errors.New("the field is empty; place a silhouette in it first")

var errTooAlike = errors.New("too many pieces of this field are alike to look through for symmetry; use " +
	"fewer motifs")

// Of finds the plane group of a layout, whatever colours its copies have. A draft without motifs, or with silhouettes
// that have no outline, gives ErrEmpty. Sets that agree with a symmetry to pattern.SameSlack have it; one motif moved
// by 0.05 mm does not, for no place of the symmetry's elements brings the difference below 0.025 mm.
func Of(l *pattern.Layout) (Finding, error) {
	f := &field{basis: newBasis(l.A, l.B), known: map[question]bool{}}
	f.pieces = piecesOf(l, maxPieces+1)
	g, err := f.search()
	if err != nil {
		return Finding{}, err
	}
	return f.finding(l, g), nil
}

// search finds the finest lattice and the group of a field of which the pieces of one cell are known.
func (f *field) search() (group, error) {
	if len(f.pieces) == 0 {
		return group{}, ErrEmpty
	}
	if len(f.pieces) > maxPieces {
		return group{}, fmt.Errorf("one cell holds more than %d pieces, too many to look through for symmetry; "+
			"use fewer motifs or silhouettes of fewer pieces", maxPieces)
	}
	f.dropTwins()
	f.refineLattice()
	g := f.group()
	if f.looks > maxLooks {
		return group{}, errTooAlike
	}
	return g, nil
}

func (f *field) finding(l *pattern.Layout, g group) Finding {
	return Finding{Chosen: l.Group.Symbol, Actual: g.name(), Order: len(g.ops),
		Primitive: [2]orb.Point{f.basis.a, f.basis.b}, Elements: g.elements()}
}
