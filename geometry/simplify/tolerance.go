package simplify

// How much of the tolerance goes where. A chord's greatest distance from an arc, its height, is split by the line that
// fits the arc best into a third at the middle and two thirds at the ends, where neighbouring lines meet; the root mean
// square of the distance is 0.298 of the height.
const (
	// fitShare of the tolerance is the largest root mean square distance of a run from its line: heights up to 1.28 of
	// the tolerance, so ends up to 0.85 of it. The rest is for what the contour shakes.
	fitShare = 0.38
	// coneShare of the tolerance is how far a run may lie from a ray that starts at its first point: the height above,
	// and again what the contour shakes.
	coneShare = 1.6
)

// Sharp corners that were blurred.
const (
	// quartile of the normal distribution: a strip of twice this width, blurred by one, is half as dark at its middle.
	quartile = 0.6745
	// retreatFactor and retreatSlack bound how far from its sharp corner, in units of what is expected and of the blur,
	// a blurred one may lie. A corner rounded on purpose by more than about the blur is left as it is.
	retreatFactor, retreatSlack = 1.25, 0.2
	// sharpest and bluntest turn in radians (25° to 160°): below, it is a curve; above, a blurred spike says nothing of
	// its length.
	bluntest, sharpest = 0.436, 2.793
	// flankClear in units of the blur: nearer to the other side than this a blurred side is bent (it is 0.03 off at 2).
	flankClear = 2.0
	// shortestFlank in units of the blur: a side shorter than this says nothing of its direction.
	shortestFlank = 4.0
	// nearFlank in units of the blur: so much of a bent side, next to the corner, tells how it goes on there.
	nearFlank = 14.0
	// bent: a side is, when its root mean square distance from its line is this many times that of its nearer half. A
	// parabola has four times that, what is straight and shakes about the same.
	bent = 1.7
	// minBend in units of the blur: a root mean square distance below this is what the other side of a corner does.
	minBend = 0.06
	// sharpenRounds of finding a corner and trimming the sides: the first comes within the blur of it, the next two
	// within a tenth.
	sharpenRounds = 4
	// longestRound in units of the blur, and again of the tolerance: the curve that a blur makes of a sharp corner,
	// with what the runs beside it leave to it, is not longer than this.
	longestRound = 5.0
	// rejoinShare of the tolerance is how far the points of two runs may lie from one line that is to stand for both.
	rejoinShare = 0.5
	// maxRound is the number of runs such a curve may have been parted into.
	maxRound = 4
)

// Bounds.
const (
	// partingShare of the time, about, goes into parting the rings into runs; the rest into holding them apart.
	partingShare = 0.85
	// reportEach points of a ring the progress of the parting is reported: a millisecond or so.
	reportEach = 1000
	// maxReach is the most points in a run before runs are joined; it keeps time linear on long straight sides.
	maxReach = 600
	// maxRounds of refining: halving a run of maxReach points this often leaves its points.
	maxRounds = 24
	// finest is the refinement at which a run is drawn with all its points.
	finest = 6
	// maxCoordinate in mm: a hundred metres; products of differences on the grid of 1e-4 mm stay within 63 bits.
	maxCoordinate = 1e5
	// parallel is the sine below which two lines do not usefully meet: at 1e-9 where they do is lost in the rounding.
	parallel = 1e-9
	// sweeps of Gauss and Seidel: each leaves at most a quarter of the error that was, so nothing a float64 can tell.
	sweeps = 30
	// areaRounds of making up for the area: moving alike changes it by the square of the way, too.
	areaRounds = 2
	// areaSlack of its area may be missing from a ring, where moving its corners within the tolerance cannot make it
	// up.
	areaSlack = 2e-4
	// shortSpan is the number of steps up to which a run is not worth cutting in two.
	shortSpan = 3
	// pairsPerCrossing: so many pairs of edges are looked at for each crossing that is asked for, then it is given up.
	pairsPerCrossing = 1000
	// leafEdges is how many consecutive edges share one box when crossings are sought.
	leafEdges = 6
)
