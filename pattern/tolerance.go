package pattern

const (
	// SameSlack in mm: two copies whose boundaries lie this near each other everywhere are one copy. A link keeps
	// outlines to 0.01 mm, so a symmetrical silhouette may come back up to 0.0142 mm from its own image; a motif moved
	// 0.05 mm off a mirror stands 0.1 mm from its image, and both differences stay far below any kerf.
	SameSlack = 0.02

	// boxRounding in mm is what rounding may add to the difference of two boxes that stand up to MaxPlace away: some steps
	// of a float64 there.
	boxRounding = 1e-8

	// MaxCopies is how many copies a panel may hold. A panel of 2.4 × 1.2 m with copies every 12 mm stays below it.
	MaxCopies = 20000

	// maxTrials bounds the places tried at the field's edge: a motif whose silhouette is many cells long meets the field
	// from far outside it.
	maxTrials = 40 * MaxCopies
)
