package joined

const (
	// maxMore is by how many the parts along a side may be more than the bed asks for, to find a way for the joints.
	maxMore = 3
	// maxParts along a side; more is no work for a hand.
	maxParts = 40

	// lineStep in mm between the straight lines that are tried.
	lineStep = 0.5
	// minStep in mm of the grid that a way is looked for on, and how many steps the clearance is otherwise; so narrow a
	// strip that no point of the grid falls into it is passed over.
	minStep, stepsToClear = 0.4, 4.0
	// look is how many steps beyond the clearance a node looks for openings.
	look = 6.0
	// maxNodes of a grid: some seconds in a browser.
	maxNodes = 4_000_000
	// stray is how much longer a way may get to come nearer to where the joint is wanted, per length and at the band's
	// edge.
	stray = 0.3
	// minBand in mm is left between two joints.
	minBand = 30.0

	// same in mm: points this near to each other are one; and the part of a sheet's area that rounding may take.
	same, areaSlack = 1e-6, 1e-9

	// notch in mm from the middle to the tips of the small squares that mark a joint on both sides.
	notch = 1.5
	// notchStep in mm between the places looked at, notchEnd that they keep from a joint's ends.
	notchStep, notchEnd = 2.0, 8.0
	// minStretch in mm: where two parts meet along less than this, they meet at a corner, which has no letter.
	minStretch = 12.0
	// letterReach in mm that a joint's letter may stand from it.
	letterReach = 22.0
	// tabText in mm is how high the letters of a tab are, tabRim the sheet round them, tabGap the length of its neck
	// at least, neckHalf half its width, maxNeck its length at most, neckInto how far it runs into the part, tabStep
	// the way between the places that are tried.
	tabText, tabRim, tabGap, neckHalf, maxNeck, neckInto, tabStep = 2.5, 1.6, 2.0, 2.5, 40.0, 0.4, 10.0
	// tabRoom in mm is kept free of the bed where parts need tabs.
	tabRoom = 16.0
	// holeStep in mm between the places looked at for registration holes.
	holeStep = 3.0
	// cutRoom in mm is the least that the cut file leaves round a hole that is cut, where the bridge is narrower.
	cutRoom = 1.0
	// pinRoom in mm is left between a hole and the panel's edge; from memory of pins.
	pinRoom = 1.0
	// maxNamed is how many parts a sentence names.
	maxNamed = 12
	// inLine: three holes are not in line when one lies this part of the others' distance from the line through them.
	inLine = 0.1
)

// tiers are the clearances of a joint from the openings that are tried one after another, in bridges.
var tiers = []float64{1, 0.7, 0.5, 0.35}
