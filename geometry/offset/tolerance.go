package offset

import "math"

const (
	// widestStep in radians is the widest angle that one chord of an arc may span, however large the tolerance: a round
	// join stays recognisably round.
	widestStep = math.Pi / 4

	// narrowestStep in radians bounds the number of points: about 6,000 to the full circle, a chord that leaves an arc
	// of 100 mm by 0.00001 mm.
	narrowestStep = 1e-3

	// maxDistance in mm bounds the distance: ten times the largest panel.
	maxDistance = 1e5

	// sharpestCrossing in radians (about 170°): where an outline turns inward by more, the images of its edges cross so
	// far off or at so small an angle that the corner itself is the better place.
	sharpestCrossing = 2.97

	// widestSharp in radians (120°) is the widest turn with a sharp join: it reaches as far again as the distance.
	widestSharp = 2 * math.Pi / 3

	// manyPoints: in a polygon of no more points the plain curve is quick enough.
	manyPoints = 1000

	// crowdedShare: where more than one point in so many turns inward with edges too short for the distance, strips are
	// united run by run. What is less crowded is faster done at once.
	crowdedShare = 16

	// runEdges is how many edges make a run, and runsAtOnce how many runs are united at a time.
	runEdges   = 4
	runsAtOnce = 4
)
