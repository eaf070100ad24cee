package offset

import "math"

const (
	// maxDistance in mm bounds the distance: ten times the largest panel.
	maxDistance = 1e5

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
