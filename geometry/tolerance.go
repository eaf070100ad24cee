package geometry

const (
	// Grid is the step in mm to which coordinates are snapped once, when they enter a draft: far below what a beam or
	// a knife can follow, coarse enough that the sums of two coordinates stay exact in a float64.
	Grid = 1e-4

	// rectSlack in mm: an outline that passes a rectangle's side by less than this only touches it. Two roundings of a
	// coordinate near 1e3 mm (1e-13 each) stay far below it, a visible sliver far above.
	rectSlack = 1e-7

	// squareSlack is the cosine by which a segment may lean against the normal cone at its end and still count as
	// square: 1e-9 covers the rounding of directions computed from coordinates on the grid.
	squareSlack = 1e-9

	// leafEdges is how many consecutive edges share one box of a Shape's tree. Measured best between 4 and 8 for
	// outlines of 100 to 1,000 points.
	leafEdges = 6
)
