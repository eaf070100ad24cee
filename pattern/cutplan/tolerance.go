package cutplan

import "openwork/pattern/measure"

const (
	// minTolerance in mm of the curves: a step of the file, which no finer curve would show; and the number of pieces
	// grows as the tolerance shrinks.
	minTolerance = Step

	// arcTolerance in mm, of the round corners that the kerf leaves: a fortieth of what the curves may stray, so that
	// the areas of small jagged openings, which are round corners all over, stay true.
	arcTolerance = 0.0005

	// joinShare of the curves' tolerance is how far a sharp join may reach beyond the round one that the kerf leaves;
	// curves have the rest of it. At a corner of the drawing, where curves end, it may be cornerShare.
	joinShare, cornerShare = 0.08, 0.2

	// besideShare of the curves' tolerance is the most that curves lie beside the polygon for what sharp joins take.
	besideShare = 0.1
	// longerAtMost is the greatest part of the length that is put down to them.
	longerAtMost = 0.01

	// shortest in mm from end to end of a piece, once it is written: a controller slows down at every shorter one.
	shortest = 0.052
	// leastTimes the curves' tolerance is the shortest piece when that is less: a finer file is asked for.
	leastTimes = 2.6

	// Step in mm of the coordinates in a file: a twentieth of the curves' tolerance, finer than any machine's.
	Step = 0.001
	// arcStep in mm is that of files with arcs.
	arcStep = 1e-4

	// outlineWithin in mm of a sheet's outline as it is cut are the chords that say how it lies on stock.
	outlineWithin = 0.01

	// minGap in mm: openings with less than this between them, twice the curves' tolerance and some, keep their
	// polygons, so that the curves of neighbours do not meet.
	minGap = 0.05

	// minSize in mm: what remains of an opening, or of what drops out of it, smaller than this both ways is nothing
	// that a beam could cut; in a file it would be a point.
	minSize = 0.02

	// maxWork bounds the places that the improving of the way moves about, in all, and the stops looked at in search of
	// near ones: a second or so each in a browser.
	maxWork = 20_000_000
	// maxRounds of going over all stops.
	maxRounds = 40
	// neighbours of each stop that are tried as the next.
	neighbours = 8
	// gain in mm: shortening the way by less is rounding.
	gain = 1e-6

	// maxNamed is how many lost openings are named one by one.
	maxNamed = 20
)

// Parts of the work done, as progress: the openings are united, curves are fitted, the order is found; the rest is left
// to writing the file. Measured on two thousand copies; roughly.
const (
	partOpened, partFitted, partOrdered = 0.15, 0.5, 0.75
)

// Sheet furniture, in mm; common practice unless said.
const (
	// crossBeyond: a registration mark's cross reaches that much beyond its circle.
	crossBeyond = 1.0
	// clearance is left between furniture and the sheet's edge, openings and other furniture.
	clearance = 1.0
	// barTick is the height of the check bar's end ticks.
	barTick = 3.0
	// slide is the step by which furniture looks for a free place along a margin.
	slide = 5.0
	// minText is the lowest letter that a beam can mark legibly.
	minText = 1.5
	// minSquare in mm, and maxSquares in all, of the ground that is looked over for room; maxSpots of those found are
	// held against the outlines.
	minSquare, maxSquares, maxSpots = 0.5, 600_000, 60
)

// barLengths of the check bar in mm, and where figures are in inches, are tried one after another where there is little
// room: 100 mm, or four inches, first.
var (
	barLengths   = []float64{100, 50, 20, 10}
	inchesOfBars = []float64{4 * measure.PerInch, 2 * measure.PerInch, measure.PerInch, 0.5 * measure.PerInch}
)
