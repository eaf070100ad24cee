package recognise

import (
	"math"

	"openwork/pattern"
)

const (
	// slack in mm: two pieces are one when every point of either boundary lies this near the other boundary. It is the
	// layout's own measure of when two copies are one.
	slack = pattern.SameSlack

	// centreSlack in mm: how far the centres of two such pieces can lie apart. A centre is the Steiner point of the
	// convex hull, (1/π)·∫ h(u)·u du over all directions u with h the hull's reach; reaches that differ by at most
	// slack move it by at most slack/π · ∫ |cos| = 4/π · slack.
	centreSlack = 4 / math.Pi * slack

	// looseSlack in mm: how far the centre of one piece can lie from where it belongs when an isometry is placed by
	// another piece alone, and each of the two is off by slack the other way.
	looseSlack = 2 * slack

	// latticeSlack in mm: a turn or a mirroring keeps the lattice when it carries both vectors of the reduced basis to
	// lattice vectors within this. It leaves room for sides and angles written to 1e-4 (an angle so rounded moves the
	// end of a side of 1 m by 0.001 mm) and tells a cell of 60 × 60.05 mm from a square.
	latticeSlack = 0.01

	// fractionSlack in parts of a cell: a place this near a side of the primitive cell is taken to be on it.
	fractionSlack = 1e-9

	// Steps by which placings of one piece on another are told apart when what was found is looked up again: of the
	// linear part, and of the shift in mm. Rounding stays below both.
	turnStep, shiftStep = 1e-9, 1e-7

	// maxPieces is how many pieces of one cell are looked through: 500 motifs of three pieces in p6mm.
	maxPieces = 20000

	// maxLooks bounds the search: how often one piece is looked for. Even fields of thousands of alike pieces need a
	// hundredth of it; it is some seconds of work.
	maxLooks = 20_000_000

	// maxReduce bounds the steps of lattice reduction; each but the last shortens a vector, and the longest cell
	// allowed comes down in some twenty.
	maxReduce = 200

	// leafEdges is how many consecutive edges share a box, as in geometry.
	leafEdges = 6
)
