package outline

// Defaults of Options.
const (
	// DefaultTolerance in mm: a quarter of the usual kerf, and half the width of a line one can just see.
	DefaultTolerance = 0.05
	// DefaultSpecks in mm²: a dot of 0.8 mm across, smaller than the narrowest opening for thin paint.
	DefaultSpecks = 0.5
	// DefaultPinholes in mm²: a dot of 0.5 mm across; sheet that small falls out or burns away.
	DefaultPinholes = 0.2
	// DefaultDPI is what a scanner is usually set to.
	DefaultDPI = 300
)

// mmPerInch is exact.
const mmPerInch = 25.4

// Bounds on what is read and on what may be typed.
const (
	maxBytes  = 128 << 20 // of any file: a page at 600 dpi stored without compression still fits
	maxPixels = 72e6      // A3 at 600 dpi is 69.6 million; grey and levelled copies of it take 3 bytes a pixel
	maxSide   = 32767     // pixels; wider than any flat bed at 1,200 dpi

	minDPI, maxDPI             = 10, 4800    // below lies a screen picture, above no scanner
	minHeightMM, maxHeightMM   = 0.1, 100000 // mm
	minTolerance, maxTolerance = 0.001, 10   // mm
	maxSpeck                   = 1e6         // mm²
)

// Paper and ink. Greys run from 0 to 255.
const (
	// maxSamples spots are enough to tell the light: 160 to each knot of the net, and on a page of A4 one to each
	// 0.8 mm.
	maxSamples = 100e3
	// darkBlock pixels a side has a block that is looked at pixel by pixel, when it has darkPixels dark ones; maxDarkBlocks
	// of them are about as many spots as maxSamples.
	darkBlock, darkPixels, maxDarkBlocks = 32, 8, 100
	// thinShare: of thin strokes that are nowhere clear of an edge, one spot in so many is at their middle.
	thinShare = 8
	// leastSamples of paper and of ink: fewer tell nothing.
	leastSamples = 32
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
	// leastSpread is the least that greys are taken to scatter by: that of rounding to whole greys, and a little more.
	leastSpread = 0.5
	// outlier standard deviations away, a spot of paper is taken for a smudge.
	outlier = 2.5
	// stiffness of the surface, as a part of the number of spots.
	stiffness = 1e-6
	// steadyPaper: paper that changes by less than this part of the contrast says nothing about how ink follows it.
	steadyPaper = 0.02
	// leastContrast in greys: less is a smudge on both sides of a sheet.
	leastContrast = 8
	// leastSeparation: a normal distribution cut in two at its middle has its halves 2.65 of their own standard
	// deviation apart, one that is level all over 3.46; ink on paper has 5 at the very least.
	leastSeparation = 4.5
	// knots along each side of the net of what the quadratic surface leaves, knotSamples that make one known, and
	// knotRounds of spreading to the unknown.
	knots, knotSamples, knotRounds = 25, 12, 60
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
	// tightest of the tolerance, and pixelShare of a pixel: see tightened.
	tightest, pixelShare = 0.4, 0.35
	// maxRings: more pieces and holes than anyone drew.
	maxRings = 20000
	// leastPart of the way from paper to ink: a level typed nearer to paper than this would trace the paper.
	leastPart = 0.01
	// coverShare of the picture's area: a piece that fills more of it, without a hole, is no drawing.
	coverShare = 0.999
	// mostBlur in pixels that corners are put back for; what is blurred more is out of focus, and corners are a guess.
	mostBlur = 3.0
)

// Bounds on an SVG drawing. Each is far beyond what is drawn, and keeps what a small file can ask for small.
const (
	maxSVGBytes  = 32 << 20 // unpacked
	maxElements  = 200000   // read, and again drawn, as a use element draws others
	maxDepth     = 256      // of elements within elements, and of use within use
	maxRules     = 20000    // of style
	maxStyleWork = 20000000 // rules held against elements
	maxClasses   = 32       // of one element
	maxSegments  = 2000000  // of paths
	maxPoints    = 1000000  // after curves are cut
	maxPieces    = 1000     // that one curve is cut into
	maxCrossings = 100000   // of lines: what is found at them grows as their number, and its cost faster
	maxWinding   = 64       // of a shape about a point
	maxReachMM   = 50000.0  // from the corner of the page
	assumedWidth = 300.0    // CSS pixels: the size of a drawing that does not say one (CSS 2.2, section 10.3.2)
	assumedTall  = 150.0
)

const (
	// sizeShare of the drawing's size is the tolerance that a small drawing is drawn with, when it is drawn with the
	// default one: one part in 4,000, so that an icon keeps its looks however small its file says it is.
	sizeShare = 1. / 4000
	// curveShare of the tolerance is how near curves are cut before they are drawn with few points again.
	curveShare = 0.08
	// leastCurve in mm is the least of that.
	leastCurve = 0.0001
	// crumb in mm²: 0.03 mm across. No one draws that, but lines that all but coincide leave it.
	crumb = 0.001
	// pageShare of the page: a first shape that fills more of it is a background.
	pageShare = 0.999
	// paperLight: what is at least this light, from 0 to 1, is paper.
	paperLight = 0.95
)
