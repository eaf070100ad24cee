package stepping

const (
	// touchSlack in mm: pieces nearer than this may be one opening, and the overlay decides, as in package panel.
	touchSlack = 1e-7
	// noArea in mm²: an overlap up to this is the rounding of its own sum.
	noArea = 1e-9

	// proofSlack is the part of the openings' area by which what is laid may differ from the field: the overlay works
	// on a grid of 1e-9 mm, and a tie or an edge crossed anywhere along an outline moves by that much.
	proofSlack = 1e-7

	// latticeSlack in cells: how far from a whole number of cells a translation may be by rounding.
	latticeSlack = 1e-6

	// usualMargin in mm of the sheet left round the openings; common practice is 20 to 25.
	usualMargin = 20.0
	// minSide in mm stands for a bed that margin and kerf leave nothing of; 0 would mean that there is no limit.
	minSide = 1e-3
	// minHole in mm is the smallest registration hole that a pencil's tip goes through; a value from memory of pencils.
	minHole = 1.5
	// markRoom in mm is left between a mark on the panel and any opening, so that no paste covers it.
	markRoom = 0.5
	// pinRoom in mm is left between the middle of a mark and the edge of what it is pricked into; from memory of pins.
	pinRoom = 2.0
	// maxSeam in mm is how much a sheet without holes grows on every side to have no corner on the panel's edge.
	maxSeam = 10.0
	// moreSheet is by how much a stepping sheet may be larger than the smallest for a narrower surround of the panel.
	moreSheet = 1.1
	// minSurround in mm: narrower than tape is no surround.
	minSurround = 19.0
	// wideSurround in mm: where the four holes' marks need more, further holes are looked for, up to maxMore.
	wideSurround, maxMore = 50.0, 6
	// maxMoves bounds the openings that are counted over in search of where the sheet is laid least often.
	maxMoves = 1_000_000
	// cutRoom in mm is the least that the cut file leaves round a hole that is cut, where the bridge is narrower.
	cutRoom = 1.0
	// spots is how many places a cell are looked at for registration holes, and what it is made finer by when none is
	// free.
	spots, finer = 6400, 9
	// firstSpot in mm is the least step of the first look, minSpot that below which looking closer is of no use.
	firstSpot, minSpot = 1.0, 0.25

	// maxOpenings on one stepping sheet, and maxPlaces to lay it at; more is no work for a hand.
	maxOpenings, maxPlaces = 5000, 2000
	// maxPasses bounds the search for an order; a sheet that covers hundreds of places at once is no stepping sheet.
	maxPasses = 400
	// maxRepeats along each side that are tried when the most that fit the bed are looked for.
	maxRepeats = 12
	// seeds that the choice of openings starts from, and the work that it may take with all of them.
	maxSeeds, minSeeds, seedWork = 96, 6, 300_000
	// maxDescent bounds the moves from one seed.
	maxDescent = 200
	// sideSlack in mm: openings that reach this near to a side of the sheet's box are moved off it together.
	sideSlack = 1e-6

	// maxNamed is how many things of one kind a note names.
	maxNamed = 8
)
