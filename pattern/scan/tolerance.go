package scan

// lookSide in pixels is the longest side of Result.Look: about that of the dialog it is shown in, on a fine screen.
const lookSide = 1600

// Bounds on what is read and on what may be typed.
const (
	maxPixels = 72e6  // A3 at 600 dpi is 69.6 million; grey and levelled copies of it take 3 bytes a pixel
	maxSide   = 32767 // pixels; wider than any flat bed at 1,200 dpi

	maxDecoded = 300e6 // pixels that are decoded, then taken several as one: A3 at 1,200 dpi is 278 million
	// bytes that decoding may take; a browser gives a program 2 GB at the least, and copies follow
	maxMemory = 1200e6
	// of a drawing of lines, whose middles are found at two more numbers a pixel; A4 at 300 dpi is 8.7 million
	maxPencilPixels = 12e6

	minCrop            = 3        // pixels of a part that is read, across and down
	minPoints          = 2        // pixels between the two points that give the scale
	minScale, maxScale = 1, 20000 // dpi that two points may give: from a photo of a wall to one through a lens

)

// How far the reading of a picture has come, about, as a part of all its time.
const (
	partDecoded  = 0.35
	partGrey     = 0.38
	partLight    = 0.45
	partLevelled = 0.6
	partFollowed = 0.7
	partPencil   = 0.8
	partDrawn    = 0.97 // what is left is for narrow places
)

// Paper and ink. Greys run from 0 to 255.
const (
	// maxSamples spots are enough to tell the light: 90 to each knot of the net, and on a page of A4 one to each
	// 0.8 mm.
	maxSamples = 100e3
	// darkBlock pixels a side has a block that is looked at pixel by pixel, when it has darkPixels dark ones;
	// maxDarkBlocks of them are about as many spots as maxSamples.
	darkBlock, darkPixels, maxDarkBlocks = 32, 8, 100
	// thinnedShare: one spot in so many is enough to tell guesses apart, where there are minThinned.
	thinnedShare, minThinned = 8, 40000
	// thinShare: of thin strokes that are nowhere clear of an edge, one spot in so many is at their middle.
	thinShare = 8
	// minSamples of paper and of ink: fewer tell nothing.
	minSamples = 32
	// sureReach in pixels: a spot whose neighbours at this distance are of its kind is clear of a blurred edge.
	sureReach = 4
	// nearGuess in greys: guesses nearer to each other than this lead to the same light.
	nearGuess = 4
	// lightRounds of parting and fitting: three settle it, unless light and ink are wild.
	lightRounds = 6
	// lightSettled in greys: when a round changes less, the next would change nothing to speak of.
	lightSettled = 0.1
	// surfaceSamples of paper are enough to fit its six numbers.
	surfaceSamples = 15000
	// minSpread is the least that greys are taken to scatter by: that of rounding to whole greys, and a little more.
	minSpread = 0.5
	// outlier standard deviations away, a spot of paper is taken for a smudge.
	outlier = 2.5
	// stiffness of the surface, as a part of the number of spots.
	stiffness = 1e-6
	// steadyPaper: paper that changes by less than this part of the contrast says nothing about how ink follows it.
	steadyPaper = 0.02
	// minContrast in greys: less is a smudge on both sides of a sheet.
	minContrast = 8
	// minSeparation: a normal distribution cut in two at its middle has its halves 2.65 of their own standard
	// deviation apart, one that is level all over 3.46; ink on paper has 5 at the very least.
	minSeparation = 4.5
	// knots along each side of the net of what the quadratic surface leaves, knotSamples that make one known, and
	// knotRounds of spreading to the unknown.
	knots, knotSamples, knotRounds = 33, 12, 110
	// levelStep in pixels, within which light runs straight.
	levelStep = 16
)

// Grain, as a standard deviation and a part of the contrast, up to which each kernel leaves edges steady to about a
// tenth of a pixel.
const (
	fineGrain   = 0.012
	middleGrain = 0.08
	coarseGrain = 0.2
)

// Outlines.
const (
	// pixelShare of a pixel: see tightened.
	pixelShare = 0.35
	// riseShare of the tolerance is how far arcs may rise from their edges: strips of 2 mm then keep 99.5 % of what
	// they cover, for less than twice the points that the tolerance needs.
	riseShare = 0.49
	// maxRings: more pieces and holes than anyone drew.
	maxRings = 20000
	// minPart of the way from paper to ink: a level typed nearer to paper than this would trace the paper.
	minPart = 0.01
	// coverShare of the picture's area: a piece that fills more of it, without a hole, is no drawing.
	coverShare = 0.999
	// steadySpread times the smoothing asked for is the standard deviation of the mean along the outline, steadySteps
	// places to each smoothing; a ring shorter than steadyLeast smoothings is left as it is, and so is a run of more
	// than maxSteady places.
	steadySpread, steadySteps, steadyLeast, maxSteady = 3, 4, 40, 2000000
	// flankSizes times the smoothing, to either side, tell the directions of a corner's sides, which is sharp when they
	// differ by sharpTurn radians, 55°: a curve turns by less there unless it is a tip.
	flankSizes, sharpTurn = 4, 0.96
	// maxBlur in pixels that corners are put back for; what is blurred more is out of focus, and corners are a guess.
	maxBlur = 3.0
)

// Drawings of lines. Lengths are in widths of the line where nothing else is said.
const (
	// clearOfLine in pixels: what is farther to one side of the middle of a line than this is not told apart;
	// middleOfLine is the value at the middle.
	clearOfLine, middleOfLine = 2.0, 1 << 15
	// farOff in pixels is farther than any two points of a picture.
	farOff = 1e6
	// At the end of a line its two sides are tipAcross from each other or less tipNearBy back from its tip, and still
	// tipAcrossFar or less tipFar back: an acute corner of a line that goes on is wider there.
	tipNearBy, tipAcross, tipFar, tipAcrossFar = 1.5, 1.4, 3.0, 1.7
	// tipLeast is the least length around a line that has ends.
	tipLeast = 8
	// tipCone is the cosine of how far from straight ahead, 75°, the ink may lie that a line is carried on to.
	tipCone = 0.26
	// tipOwn: so much of the outline to either side of the tip is the line's own end.
	tipOwn = 4
	// openGapMM is how wide a gap may be that is named as one that stayed open, and maxOpenGaps how many are.
	openGapMM, maxOpenGaps = 10.0, 30
	// minStroke in pixels is half the width of a line that closes a gap, at the least: it must not fall apart.
	minStroke = 0.8
)
