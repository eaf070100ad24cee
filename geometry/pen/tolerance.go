package pen

import "math"

const (
	// FlattenSlack in mm is how far a ring's polygon may lie from its curves: a tenth of the smallest kerf.
	FlattenSlack = 0.02
	// ReadSlack in mm is how far the curves that answer a polygon may leave it: half of the usual kerf. A ring that
	// nobody touches keeps its polygon. The first fit takes the share curveShare, and is then drawn with fewer points.
	ReadSlack  = 0.1
	curveShare = 0.4
	// MinArea in mm²: what an overlay leaves that is smaller is a crumb of two lines that nearly coincide, no opening a
	// beam could cut.
	MinArea = 0.02
)

// Strokes. jitter is what the hand and the screen are off by at most, mm.
const (
	// stepShare of the jitter lies between two samples of a stroke.
	stepShare = 1.0
	// maxSamples of a stroke: its samples lie further apart when it is longer.
	maxSamples = 1500
	// sideShare: a corner is seen between two sides of so many times the jitter.
	sideShare = 9.0
	// sideOf: such a side is no longer than this part of the stroke.
	sideOf = 1.0 / 12
	// cornerTurn in radians (55°): between sides that turn less the stroke bends.
	cornerTurn = 55 * math.Pi / 180
	// widest and narrowest are half the stretches over which a sample is evened out, in units of the jitter.
	widest, narrowest = 60.0, 3.0
	// widerBy is the step from one to the next.
	widerBy = 1.5
	// noiseShare: samples off by at most the jitter, any way alike, are off by 0.58 of it on the root of the mean
	// square.
	noiseShare = 0.62
	// cornerReach in units of the jitter: a corner is put where its sides meet if that lies so near to what was drawn.
	cornerReach = 3.0
	// fitShare of the jitter is how far the curves may leave the evened samples.
	fitShare = 0.3
	// setOut samples tell the direction in which a stretch begins at a corner.
	setOut = 8
	// straightShare of the jitter is how far the evened samples between two corners may leave a straight line that is
	// meant.
	straightShare = 0.9
	// minFit in mm is the closest such a fit.
	minFit = 0.02
	// tailShare of a stroke, at either end, is looked through for the crossing where it closes itself.
	tailShare = 0.25
)

// Fitting.
const (
	// minRun is the fewest samples that one curve answers.
	minRun = 4
	// betterRounds of moving the parameters of the points to where the curve is nearest to them.
	betterRounds = 4
	// worthBetter: a fit that is off by so many times the tolerance is not made good by that.
	worthBetter = 4.0
	// sameTurn in radians (6°): directions that differ by less are one.
	sameTurn = 6 * math.Pi / 180
	// bulge in radians (30°) is the angle that a straight piece, when made a curve between two corners, has with its
	// chord.
	bulge = math.Pi / 6
	// squareTurn in radians (35°): a half that meets its mirror at nearly a right angle goes on round into its image.
	squareTurn = 35 * math.Pi / 180
)
