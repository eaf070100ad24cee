package curve

import "math"

const (
	// DefaultTolerance in mm: how far a fitted curve may lie from its polygon. A tenth of a usual kerf: nothing that a
	// beam leaves visible.
	DefaultTolerance = 0.02

	// flattenShare of the tolerance is how far the chords on which a curve is measured may lie from the curve itself;
	// it is added to what is measured.
	flattenShare = 1.0 / 40

	// AreaSlack is the part of its area by which a fitted ring may differ from its polygon.
	AreaSlack = 1e-3

	// LengthSlack is the part of a ring's length by which a fitted ring may be shorter or longer than the polygon with
	// its vertices rounded: one that is longer sways, one that is shorter cuts across.
	LengthSlack = 0.4e-3
)

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
	// longEdge: an edge that many times as long as the longer of its neighbours is a straight side, and stays one.
	longEdge = 3.0
	// maxTurn in radians (140°) of the polygon within one piece.
	maxTurn = 140 * math.Pi / 180
	// minLength in mm: edges shorter than this are no edges; coordinates lie on a grid of 1e-4, offsets on one of 1e-9.
	minLength = 1e-7
)

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
	// sameRadius: two arcs whose bulges give radii within this part of each other, one going on from the other, are
	// one.
	sameRadius = 1e-4
	// maxChords bounds the chords of one piece when it is flattened.
	maxChords = 2000
	// refits is how often an outline is fitted again, each time to a third of the tolerance, when it crosses itself or
	// has lost area, before it stays a polygon.
	refits = 2
)
