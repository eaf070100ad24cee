package curve

import "math"

const (
	// DefaultTolerance in mm: how far a fitted curve may lie from its polygon. A tenth of a usual kerf: nothing that a
	// beam leaves visible.
	DefaultTolerance = 0.02

	// flattenShare of the tolerance is how far the chords on which a curve is measured may lie from the curve itself;
	// it is added to what is measured.
	flattenShare = 1.0 / 40

	// coarseShare and fineShare of the tolerance are how far chords may lie from curves that are looked at for
	// crossings: the first finds most of them fast, the second those of curves that graze each other.
	coarseShare, fineShare = 0.1, 0.005

	// AreaSlack is the part of its area by which a fitted ring may differ from its polygon.
	AreaSlack = 1e-3
	// unevenShare of that is what is not made up for.
	unevenShare = 0.25
	// evenings is how often it is tried.
	evenings = 3

	// LengthSlack is the part of a ring's length by which a fitted ring may be shorter or longer than the polygon with
	// its vertices rounded: one that is longer sways, one that is shorter cuts across.
	LengthSlack = 0.4e-3
)

// roundedShare of what a curve is shorter by that rounds every vertex as far as it may is what it may be shorter by.
const roundedShare = 1.0

// Corners. A polygon with edges of length L on a curve of radius R turns by L/R at each vertex and leaves the curve by
// L²/8R, so turns grow with the root of what the drawing allowed itself: at 50° a drawing true to 0.025 mm has a radius
// of 0.26 mm, no more than a kerf.
const (
	// sharpTurn in radians (50°): a vertex that turns more is a corner whatever its neighbours do.
	sharpTurn = 50 * math.Pi / 180
	// minCorner in radians (10°): a vertex that turns less is never one.
	minCorner = 10 * math.Pi / 180
	// explainedTimes is how many times the turn that its neighbours explain a vertex may have and still be part of a
	// curve.
	explainedTimes = 2.2
)

// Joints.
const (
	// mendShare of the tolerance: a short edge across the tip of a round join is taken for the vertex it cuts off, when
	// that lies no further away.
	mendShare = 0.25
	// mendTurn in radians (60°) is the most such a join turns in all.
	mendTurn = math.Pi / 3
	// jointShare of the tolerance is how far a joint may lie from the polygon; what remains is for the curve between.
	jointShare = 0.8
	// coarse: a joint at a vertex would have to lie that many times further from it than a joint may, before an arc
	// that rounds the vertex takes its place.
	coarse = 1.3
	// mild is that many times for an arc that rounds the vertex to be one of the ways to pass it.
	mild = 0.6
	// farApart times the tolerance: two edges are straight sides when an arc that passes as near to the vertex between
	// them as to them would have to leave them by more.
	farApart = 2.2
	// longEdge: an edge that many times as long as the longer of its neighbours is a straight side, and stays one.
	longEdge = 3.0
	// maxTurn in radians (140°) of the polygon within one piece.
	maxTurn = 140 * math.Pi / 180
	// minLength in mm: edges shorter than this are no edges; coordinates lie on a grid of 1e-4, offsets on one of 1e-9.
	minLength = 1e-7
)

// Arcs.
const (
	// widestRadius in mm: an arc of more is a straight line.
	widestRadius = 9000.0
	// kink in radians (0.3°) by which arcs may miss a common direction where they meet; a step of the file does as
	// much.
	kink = 0.3 * math.Pi / 180
	// widestKink in radians (20°) is the same where nothing else will do.
	widestKink = 20 * math.Pi / 180
	// widestLean in radians (40°) is how far an arc may lean against the direction that its joint goes by.
	widestLean = 40 * math.Pi / 180
	// besideShare of the limit is how far beside a joint the other places lie that arcs may meet at.
	besideShare = 0.4
	// outsideShare of the limit is how far arcs may pass a vertex on the outside of its turn: further out they sway.
	outsideShare = 0.3
	// missesAllowed is how many joints in a row no arc may reach before those beyond are given up.
	missesAllowed = 4
	// arcShare of the limit is what arcs are looked for with: between the places they are held at they may leave by
	// more.
	arcShare = 0.97
	// arcLess times as much is, when they do; leastShare is the least.
	arcLess, leastShare = 0.93, 0.6
	// startLean in radians: what is tried when a ring without corners cannot begin and end in its first direction.
	startLean = 0.02
	// shortChain is how many joints a chain has at least for places that others have overtaken to be given up at first.
	shortChain = 16
	// statesKept is how many intervals of directions are kept of a joint.
	statesKept = 6
	// narrow in radians: what is new of an interval but narrower than this is left; arcs miss each other by more.
	narrow = kink / 2
	// spareCounts is how many pieces more than the fewest a way to a joint may have, for the sake of its direction.
	spareCounts = 1
	// sidePlaces is how many places an arc may end at along each end of a long side.
	sidePlaces = 4
)

// tidyShare of the tolerance is what drawing short edges together may take of it before curves are fitted, and
// facetShare where none are.
const tidyShare, facetShare = 0.5, 0.8

// Pieces.
const (
	// handleSteps is how many lengths of the first handle are tried before the equation is solved between two of them.
	handleSteps = 14
	// shortHandle and longHandle are the ends of what is tried, in units of the chord: a cubic that turns by maxTurn
	// has handles of about one.
	shortHandle, longHandle = 0.03, 1.6
	// solveSteps of halving such an interval, by regula falsi: enough for six digits, and the deviation is measured
	// anyway.
	solveSteps = 7
	// shrinkSteps is how often the handles of a piece along one edge are made shorter before it becomes a straight
	// line.
	shrinkSteps = 6
	// straightShare of the tolerance: a piece whose control points lie this near its chord is written as a line.
	straightShare = 0.02
	// straightTurn in radians (0.2°), and its ends may lean against the chord no more.
	straightTurn = 0.2 * math.Pi / 180
	// maxChords bounds the chords of one piece when it is flattened.
	maxChords = 2000
	// refits is how often an outline is fitted again, each time to refitShare of the tolerance, when it crosses
	// itself or has lost area, before it stays a polygon.
	refits     = 4
	refitShare = 0.6
)
