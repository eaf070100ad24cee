package pattern

const (
	// SameSlack in mm: two copies whose boundaries lie this near each other everywhere are one copy. A link keeps
	// outlines to 0.01 mm, so a symmetrical silhouette may come back up to 0.0142 mm from its own image; a motif moved
	// 0.05 mm off a mirror stands 0.1 mm from its image, and both differences stay far below any kerf.
	SameSlack = 0.02

	// boxRounding in mm is what rounding may add to the difference of two boxes that stand up to MaxPlace away: some
	// steps of a float64 there.
	boxRounding = 1e-8

	// MaxCopies is how many copies a panel may hold. A panel of 2.4 × 1.2 m with copies every 12 mm stays below it.
	MaxCopies = 20000

	// MaxTieCopies is how many ties of the field a panel may hold.
	MaxTieCopies = 2 * MaxCopies

	// maxTrials bounds the places tried at the field's edge: a motif whose silhouette is many cells long meets the
	// field from far outside it.
	maxTrials = 40 * MaxCopies

	// maxShift in mm bounds how far copies are looked for from the cell they are given in: beyond it lies nothing that
	// a draft may hold, and the cells' numbers would leave the integers.
	maxShift = 1e10

	// maxCrowd is how many copies may lie over one place: some times as many as a panel may hold, for silhouettes
	// larger than a panel. Whatever is done to a copy, it is held against those over and beside it, so this bounds the
	// work of a step of the hand.
	maxCrowd = 150_000

	// maxTieCrowd is how many ties of the field may cross at one place. A tie along the diagonal of a panel of 600 ×
	// 900 mm in a cell of 150 × 100 mm crosses some 150 of its images; one that crosses thousands leaves nothing of the
	// pattern.
	maxTieCrowd = 5000
)
