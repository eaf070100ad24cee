package cutfile

import "openwork/pattern/cutplan"

const (
	// step in mm of the coordinates in a file.
	step = cutplan.Step

	// Read back: what writing to whole steps may change. A point moves by up to half the diagonal of a step, and so
	// does every extent; an area by that times the length, and a length by twice that for every point.
	slackExtent = step
	slackTotal  = 1e-5 // of areas and lengths, besides

	// partWritten of the work is done, as progress, once the file is encoded; what is before that is planning.
	partWritten = 0.85
)
