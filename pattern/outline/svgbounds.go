package outline

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
	// backTurn is the tangent of the angle between two edges in a point below which they may touch further on.
	backTurn = 0.01
	// crackWidth in mm, a tenth of the draft's grid: what is narrower is no cut.
	crackWidth = 1e-5
	// boxShare of a shape's size is how near its curves are cut when only its box is asked for.
	boxShare = 1. / 2000
	// initialFont in CSS pixels is the letter height that em and ex refer to where none is said ("medium" in CSS Fonts 4,
	// section 2.5, as browsers take it).
	initialFont = 16.0
)
