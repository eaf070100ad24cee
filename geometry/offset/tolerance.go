package offset

import "math"

const (
	// widestStep in radians is the widest angle that one chord of an arc may span, however large the tolerance: a round
	// join stays recognisably round.
	widestStep = math.Pi / 4

	// narrowestStep in radians bounds the number of points: about 6,000 to the full circle, a chord that leaves an arc of
	// 100 mm by 0.00001 mm.
	narrowestStep = 1e-3

	// maxDistance in mm bounds the distance: ten times the largest panel.
	maxDistance = 1e5
)
