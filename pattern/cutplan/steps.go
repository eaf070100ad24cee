package cutplan

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
)

// whole returns the move by a shift to whole steps from the sheet's corner, as files are written: copies of a shape
// then are the same in the file, and as they were looked at. A step of 0 leaves the shift.
func (b *build) whole(shift orb.Point, step float64) geometry.Map {
	if step > 0 {
		for k, from := range b.plan.Page.Min {
			shift[k] = from + math.Round((shift[k]-from)/step)*step
		}
	}
	return geometry.Translate(shift[0], shift[1])
}

// stepOf returns the step in mm that files of a kind of curves are written in: DXF, which has arcs, is finer. Polygons
// are written as they are.
func stepOf(kind curve.Kind) float64 {
	switch kind {
	case curve.Arc:
		return arcStep
	case curve.Cubic:
		return Step
	}
	return 0
}
