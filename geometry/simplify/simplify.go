// Package simplify draws a dense outline with few points.
//
// Leaving points out of a round outline, as is usual, always cuts it smaller: each chord lies inside the curve. Here
// the outline is parted into runs, each run is replaced by the straight line that fits it best, with as much of the run
// to one side as to the other, and the corners are where neighbouring lines meet. So area is kept, and since the curve
// may lie to both sides of an edge, fewer edges are needed.
package simplify

import (
	"errors"
	"math"

	"openwork/geometry"

	"github.com/paulmach/orb"
)

// Options say how far the answer may stray. All lengths are in the outline's own unit, mm.
type Options struct {
	// Tolerance is how far the answer may lie from the outline, either way, measured along the whole of both.
	Tolerance float64

	// Blur is the standard deviation of the blur that rounded the outline's corners, as a lens or a scanner does; 0 for
	// an outline that is exact. Where two straight sides of an angle of at most 155° are joined by no more of a curve
	// than such a blur makes of a sharp corner, the corner is put back where the sides meet. Such a corner alone may
	// lie further from the outline than Tolerance.
	Blur float64

	// Rise is how far an arc may rise from the edge that draws it before it is drawn with two; 0: as far as Tolerance
	// allows. It costs points on curves, not on what is straight, however much that shakes.
	Rise float64

	// Progress, where it is not nil, receives the part of the work that is done, from 0 to 1; a second way, where the
	// first does not lead to an answer, is not counted.
	Progress func(part float64)
}

// Outline returns mp drawn with few points: outer rings, holes and their order are kept, coordinates are snapped to
// geometry.Grid, and no ring of the answer crosses or touches itself or another. Where an answer would, or would stray
// too far, it is refined there, down to the outline's own points. Only points that two rings, or two places of a ring,
// have in common already stay in common, as single points.
//
// A ring without area on the grid is dropped, an outer ring with its holes; so is a ring that lies within the tolerance
// of another all over and would come to lie on its other side (see nested). If the rings given cross each other, so
// that no refining helps, the error is ErrCrossing. A coordinate that is not a finite number, or is greater than
// maxCoordinate, is an error.
//
// Time grows with the number of points times the number of points in a run (bounded by maxReach). The parting into runs
// is the one with the fewest runs that start at the outline's outermost point, and among these the one with the least
// sum of squares: a shortest path, as in H. Imai, M. Iri, "Polygonal approximations of a curve", in Computational
// Morphology (1988). The runs are held apart by the tolerance cone of J. Sklansky, V. Gonzalez, Pattern Recognition 12
// (1980).
func Outline(mp orb.MultiPolygon, o Options) (orb.MultiPolygon, error) {
	if !(o.Tolerance > 0) || math.IsInf(o.Tolerance, 0) || !(o.Blur >= 0) || math.IsInf(o.Blur, 0) {
		return nil, errors.New("the tolerance must be greater than 0, and the blur must not be negative")
	}
	for _, p := range mp {
		for _, r := range p {
			if !finite(r) {
				return nil, errors.New("a coordinate is not a number, or too large")
			}
		}
	}
	if o.Blur > 0 { // lines through a picture share nothing, as a rule
		if out, err := outline(mp, o, nil); err == nil {
			return out, nil
		}
	}
	return outline(mp, o, sharedPoints(mp))
}

// outline is Outline with the points that are shared on purpose.
func outline(mp orb.MultiPolygon, o Options, shared map[orb.Point]bool) (orb.MultiPolygon, error) {
	var fits []*fit
	for i, p := range mp {
		for j, r := range p {
			f := newFit(r, o, shared)
			f.polygon, f.hole = i, j > 0
			fits = append(fits, f)
		}
	}
	points, done := 0, 0
	for _, f := range fits {
		points += len(f.p)
	}
	report := func(more int) {
		if o.Progress != nil && points > 0 {
			o.Progress(partingShare * float64(done+more) / float64(points))
		}
	}
	for _, f := range fits {
		f.part(report)
		f.sharpen()
		f.halve()
		done += len(f.p)
	}
	report(0)
	if err := refineAll(fits); err != nil {
		return nil, err
	}
	if o.Progress != nil {
		o.Progress(1)
	}
	return nested(collect(fits)), nil
}

// sharedPoints returns the points where rings touch: those that are a corner twice.
func sharedPoints(mp orb.MultiPolygon) map[orb.Point]bool {
	seen, shared := map[orb.Point]bool{}, map[orb.Point]bool{}
	for _, p := range mp {
		for _, r := range p {
			for k := 0; k+1 < len(r); k++ {
				if r[k] == r[k+1] {
					continue
				}
				if seen[r[k]] {
					shared[r[k]] = true
				}
				seen[r[k]] = true
			}
		}
	}
	return shared
}

// ErrCrossing: the outline given crosses itself.
var ErrCrossing = errors.New("the outline crosses itself")

// Ring is Outline for one ring that stands alone.
func Ring(r orb.Ring, o Options) (orb.Ring, error) {
	mp, err := Outline(orb.MultiPolygon{orb.Polygon{r}}, o)
	if err != nil || len(mp) == 0 {
		return nil, err
	}
	return mp[0][0], nil
}

// finite says whether all coordinates can be held on the grid.
func finite(r orb.Ring) bool {
	for _, p := range r {
		if !(math.Abs(p[0]) <= maxCoordinate && math.Abs(p[1]) <= maxCoordinate) {
			return false
		}
	}
	return true
}

// refineAll looks for what strays too far and for what crosses, refines there, and looks again.
func refineAll(fits []*fit) error {
	for round := range maxRounds {
		again := false
		for _, f := range fits {
			// Once refined to the last in a later round, a ring is what it was, and cannot stray.
			for range maxRounds {
				if !f.refineFar(round >= maxRounds/2) {
					break
				}
				again = true
			}
			f.draw()
		}
		meeting := crossings(fits)
		refined := false
		for _, c := range meeting {
			refined = fits[c.ring].refineAt(c.span) || refined
		}
		switch {
		case refined:
		case len(meeting) > 0:
			return ErrCrossing
		case !again:
			return nil
		}
	}
	return ErrCrossing
}

// collect puts the rings together again.
func collect(fits []*fit) orb.MultiPolygon {
	var out orb.MultiPolygon
	at, polygon := -1, -1 // polygon at of out is made from this polygon of the outline
	for _, f := range fits {
		r := f.ring()
		switch {
		case r == nil:
		case !f.hole:
			out = append(out, orb.Polygon{r})
			at, polygon = len(out)-1, f.polygon
		case polygon == f.polygon:
			out[at] = append(out[at], r)
		}
	}
	return out
}

// ring returns the drawn ring, closed; nil when it has no area, or on the grid has turned over.
func (f *fit) ring() orb.Ring {
	if len(f.drawn) < 3 {
		return nil
	}
	r := make(orb.Ring, 0, len(f.drawn)+1)
	for _, v := range f.drawn {
		r = append(r, v.point())
	}
	r = append(r, r[0])
	if geometry.RingArea(r)*f.area <= 0 {
		return nil
	}
	return r
}
