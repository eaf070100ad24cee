package link

const (
	// maxRise in mm: a step of an outline's coordinates may not grow beyond this on the panel, however much a motif is
	// enlarged; half of it is a quarter of the usual kerf.
	maxRise = 0.1

	// exact is the step number of coordinates that are kept as they are.
	exact = len(perMM)
)

// perMM lists the steps to which an outline's coordinates may be rounded, as steps in a mm, coarse ones first. The
// first is what a link promises. The others serve outlines that would cross or touch themselves when rounded so far,
// and those of motifs enlarged more than ten times.
var perMM = [...]float64{100, 1e3, 1e4, 1e5, 1e6}
