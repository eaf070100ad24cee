package residue

import "math"

const (
	// maxCoordinate in mm is the farthest place from the origin that is accepted, as in the overlay.
	maxCoordinate = 1e6

	// clearSlack in mm: a disc counts as clear of the boundary when nothing comes nearer to its centre than its radius
	// less this. Centres are computed to some 1e-12 mm; the radius is shortened by more (see attempts), so that a strip
	// of exactly the asked width stays clear.
	clearSlack = 1e-9

	// touchSlack in mm: points of the boundary no farther apart lie at one place. No more than clearSlack, so that
	// moving one to the other does not matter to a disc.
	touchSlack = 1e-9

	// pointSlack in mm: a point no farther from the one before it is left out. More than twice touchSlack, so that no
	// edge is so short that its ends lie at the place of one corner.
	pointSlack = 4e-9

	// endSlack in mm: a disc that touches an edge this far beyond its end still touches it. Without it one that touches
	// just at a corner could be missed from both sides; found from both, it is kept once.
	endSlack = 1e-9

	// boxSlack in mm is added round the boxes of the centre's line: centres of jumps may leave it by endSlack, and by
	// the rounding of coordinates.
	boxSlack = 1e-8

	// A stretch of the centre's line is divided, to find what part of it may be clear, into no more parts than the
	// boundary has edges over edgesOfPart, and maxParts at most, and into none shorter than the radius over liveRadius:
	// finer boxes would spare less than they cost.
	edgesOfPart = 16
	maxParts    = 256
	liveRadius  = 6

	// sameSlack in mm: two jumps of the disc with centres and touching points nearer than this are one.
	sameSlack = 1e-8

	// flat is the sine below which two directions count as parallel: the disc touches twice at one place, or the two
	// walls face each other and it just fits, and there is no jump in either case.
	flat = 1e-11

	// reachSlack in mm is added to half the width before a piece that hangs counts: a corner of exactly 60 degrees
	// reaches exactly that far.
	reachSlack = 1e-5

	// tie is the part by which a width must be less than one found before to take its place: where a piece is as narrow
	// in two places, rounding does not choose, and openings that are translates of each other show the same one.
	tie = 1e-9

	// leafEdges is how many consecutive edges share one box of the tree.
	leafEdges = 6

	// maxStretches bounds the stretches of a piece among which the farthest place is looked for also between corners.
	maxStretches = 12

	// widestStep in radians is the widest angle of one chord of an outline's arc.
	widestStep = math.Pi / 8

	// narrowestStep in radians bounds the number of chords.
	narrowestStep = 1e-2
)

// attempt is a part by which the radius is shortened, and by how much in mm the boundary may come nearer to a disc that
// counts as clear of it.
type attempt struct{ part, clear float64 }

// attempts are tried one after another until the jumps of the disc fit together. Where a disc touches the boundary at
// three places at once they may not; a little less, and it does not. 1e-7 of a few mm is well above clearSlack. Where
// two of the three are edges nearly in line, a little less does not tell them apart, and less slack does.
var attempts = []attempt{{1e-7, clearSlack}, {1.37e-7, clearSlack}, {2.11e-7, clearSlack}, {0.71e-7, clearSlack / 10},
	{2.63e-7, clearSlack / 100},
	{0.53e-7, clearSlack / 10}, {2.93e-7, clearSlack / 300}, {1.73e-7, clearSlack / 100}}

// turnedAttempts is how many of the radii are tried with an outline turned.
const turnedAttempts = 3

// turns are the degrees by which an outline is turned, one after another, where no radius helps as it lies: other
// coordinates round otherwise.
var turns = []float64{0, 17.3, 61.9}
