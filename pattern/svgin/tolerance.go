package svgin

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
	// minCurve in mm is the least of that.
	minCurve = 0.0001
	// crumb in mm²: 0.03 mm across. No one draws that, but lines that all but coincide leave it.
	crumb = 0.001
	// pageShare of the page: a first shape that fills more of it is a background.
	pageShare = 0.999
	// paperLight: what is at least this light, from 0 to 1, is paper.
	paperLight = 0.95
)

// Further bounds on an SVG drawing, each far beyond what is drawn.
const (
	maxCompounds = 32    // of one selector
	maxDashes    = 50000 // of all strokes: beyond, they could not be cut apart in reasonable time
	// maxStroked points have the pieces that all strokes are made of: they are united stroke by stroke, at a few
	// microseconds a point.
	maxStroked = 3000000
	// strokeShare of the tolerance for a filled curve is how near the middle of a stroke is cut: its sides, which are
	// what is seen, are made of four times as many points.
	strokeShare = 2.0
	// crackWidth in mm, a tenth of the draft's grid: what is narrower is no cut.
	crackWidth = 1e-5
	// boxShare of a shape's size is how near its curves are cut when only its box is asked for.
	boxShare = 1. / 2000
	// initialFont in CSS pixels is the letter height that em and ex refer to where none is said ("medium" in CSS Fonts
	// 4, section 2.5, as browsers take it).
	initialFont = 16.0
)
