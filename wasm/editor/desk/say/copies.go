package say

import (
	"fmt"
	"math"

	"openwork/geometry"
)

// Carried says how a copy comes from its motif: op is the operation in field mm, moved is the least length in mm by
// which it moves along its own mirror line, over all cells. Angles are counter-clockwise, from 0 to 360°.
func Carried(op geometry.Map, moved float64) string {
	if op.Det() < 0 {
		if moved > 1e-6 {
			return "mirrored and moved along"
		}
		return "mirrored"
	}
	turn := math.Round(math.Atan2(op.C, op.A) * 180 / math.Pi)
	switch {
	case turn == 0:
		return "as it was placed"
	case turn < 0:
		turn += 360
	}
	return fmt.Sprintf("turned by %g°", turn)
}

// Copy says which copy of a motif is meant: its number among those of a cell, and how it comes from the motif.
func Copy(number, inCell int, carried string) string {
	if inCell < 2 {
		return "one in a cell"
	}
	return fmt.Sprintf("copy %d of %d, %s", number, inCell, carried)
}
