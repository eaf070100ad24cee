package cutfile

const (
	// hairline in mm: what a cut line is drawn with; common practice is 0.01–0.1.
	hairline = 0.05

	// minTolerance in mm of the curves: a step of the file, which no finer curve would show; and the number of pieces grows
	// as the tolerance shrinks.
	minTolerance = step

	// arcTolerance in mm, of the round corners that the kerf leaves: a fortieth of what the curves may stray, so that the
	// areas of small jagged openings, which are round corners all over, stay true.
	arcTolerance = 0.0005

	// step in mm of the coordinates in a file: a twentieth of the curves' tolerance, finer than any machine's.
	step = 0.001

	// leastKerf in mm: openings with less than this between them, twice the curves' tolerance and some, keep their polygons,
	// so that the curves of neighbours do not meet.
	leastKerf = 0.05

	// leastSize in mm: what remains of an opening, or of what drops out of it, smaller than this both ways is nothing that a
	// beam could cut; in a file it would be a point.
	leastSize = 0.02

	// Read back: what writing to whole steps may change. A point moves by up to half the diagonal of a step, and so does
	// every extent; an area by that times the length, and a length by twice that for every point.
	slackExtent = step
	slackTotal  = 1e-5 // of areas and lengths, besides

	// mostWork bounds the places that the improving of the way moves about, in all, and the stops looked at in search of near
	// ones: a second or so each in a browser.
	mostWork = 20_000_000
	// mostRounds of going over all stops.
	mostRounds = 40
	// neighbours of each stop that are tried as the next.
	neighbours = 8
	// gain in mm: shortening the way by less is rounding.
	gain = 1e-6

	// mostNamed is how many lost openings are named one by one.
	mostNamed = 20
)

// Parts of the work done, as they are told: once the openings are united, curves are fitted, the order is found, the file is
// written. Measured on two thousand copies; roughly.
const (
	partOpened, partFitted, partOrdered, partWritten = 0.15, 0.5, 0.75, 0.85
)

// Sheet furniture, in mm; common practice unless said.
const (
	// crossBeyond: a registration mark's cross reaches that much beyond its circle.
	crossBeyond = 1.0
	// clear is left between furniture and the sheet's edge, openings and other furniture.
	clear = 1.0
	// barLength of the check bar, and the height of its end ticks.
	barLength, barTick = 100.0, 3.0
	// slide is the step by which furniture looks for a free place along a margin.
	slide = 5.0
	// leastText is the lowest letter that a beam can mark legibly.
	leastText = 1.5
)
