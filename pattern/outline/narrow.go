package outline

import (
	"fmt"
	"sort"

	"openwork/geometry"
	"openwork/geometry/residue"

	"github.com/paulmach/orb"
)

// Kinds of narrow places.
const (
	NarrowOpening = "opening" // ink, which is cut away, narrower than Options.OpeningMM
	NarrowBridge  = "bridge"  // what stays between ink, narrower than Options.BridgeMM
)

// Narrow is a place narrower than the sheet allows.
type Narrow struct {
	Kind  string
	At    orb.Point    // its middle, in the outlines' frame, mm
	Ends  [2]orb.Point // of the shortest way across
	Width float64      // mm
}

// findNarrow writes the narrow places into r: those of each piece, and those between pieces. Where they cannot be found
// a sentence says so.
func (r *Result) findNarrow(o Options) {
	if o.OpeningMM <= 0 && o.BridgeMM <= 0 {
		return
	}
	var mp orb.MultiPolygon
	for _, p := range r.Pieces {
		mp = append(mp, p.Outline...)
	}
	if n := geometry.Points(mp); n > maxNarrowPoints {
		r.Left = append(r.Left, fmt.Sprintf("Narrow places were not looked for: the outlines have %d points, and up "+
			"to %d are gone through.", n, maxNarrowPoints))
		return
	}

	for _, c := range []struct {
		kind  string
		width float64
		find  func(orb.MultiPolygon, float64, float64) ([]residue.Piece, error)
	}{{NarrowOpening, o.OpeningMM, residue.Of}, {NarrowBridge, o.BridgeMM, residue.Around}} {
		if c.width <= 0 {
			continue
		}
		found, err := c.find(mp, c.width, narrowTolerance)
		if err != nil {
			r.Left = append(r.Left, fmt.Sprintf("Where a %s is narrower than %.3g mm could not be found (%v).", c.kind,
				c.width, err))
			continue
		}
		for _, p := range found {
			if c.kind == NarrowBridge && p.Stretches == 0 {
				continue // a hole lost as a whole is an island, and reported as one by the sheet's check
			}
			if p.Stretches == 0 && p.P == p.Q { // nowhere wide enough, and no way across to measure
				p.P, p.Q = p.Far, p.Far
			}
			r.Narrow = append(r.Narrow, Narrow{c.kind, orb.Point{(p.P[0] + p.Q[0]) / 2, (p.P[1] + p.Q[1]) / 2},
				[2]orb.Point{p.P, p.Q}, p.Width})
		}
	}

	sort.SliceStable(r.Narrow, func(i, j int) bool { return r.Narrow[i].Width < r.Narrow[j].Width })
	r.sayNarrow(NarrowOpening, "in the ink", o.OpeningMM)
	r.sayNarrow(NarrowBridge, "between ink", o.BridgeMM)
}

// sayNarrow adds a sentence on the narrow places of a kind.
func (r *Result) sayNarrow(kind, where string, width float64) {
	n := 0
	var worst Narrow
	for _, p := range r.Narrow {
		if p.Kind != kind {
			continue
		}
		if n == 0 {
			worst = p
		}
		n++
	}
	if n > 0 {
		r.LeftNarrow = append(r.LeftNarrow,
			fmt.Sprintf("%s %s narrower than %.3g mm; the narrowest is %.2f mm, at %.1f, %.1f.",
				Count(n, "place"), where, width, worst.Width, worst.At[0], worst.At[1]))
	}
}
