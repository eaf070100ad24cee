package overlay

const (
	// gridStep in mm: every coordinate is rounded to a multiple of it before anything is computed, so that whether
	// two lines cross, and what lies left of what, is decided without rounding. 1e-9 mm keeps every coordinate of the
	// draft's grid of 1e-4 mm exactly as it is, and a panel of a kilometre below 2^50 steps.
	gridStep = 1e-9

	// snapSteps, in steps of the grid: points nearer to one another than this become one point, and a line that passes
	// a point nearer than this goes through it. Copies laid by turning and mirroring miss one another by 1e-13 mm to
	// 1e-12 mm where they ought to meet; 1e-8 mm is far above that and far below what a beam can follow. It also keeps
	// results valid when read by programs that compute in plain float64.
	snapSteps = 10

	// maxCoordinate in mm is the largest distance from the origin that is accepted. Beyond it differences of grid
	// coordinates would no longer be exact.
	maxCoordinate = 1e6

	// sliverWidth, in steps of the grid: rings whose area is less than half this width times their length are
	// dropped. Twice the snapping distance: nothing thinner survives by intention.
	sliverWidth = 2 * snapSteps

	// maxRounds bounds how often crossing lines are cut and looked at again. Four rounds were the most in 8,400 cases
	// of the families in the tests, five in 300,000 random tangles with corners a hair off one another, eight in
	// 100,000 tangles smaller than 3e-7 mm.
	maxRounds = 40

	// floorSlack, in steps, is taken off a height computed in float64 that is used to pass boxes over: a height below
	// 2^50 steps is computed to a step or two.
	floorSlack = 16

	// oddAngle in radians: the frame of the last attempts is turned by it. It is no rational part of a circle, so that
	// lines which coincide in the first frame meet the grid differently in the second.
	oddAngle = 0.7390851332151607

	// contactReach in mm: polygons that come nearer to one another than this are computed together. A little more than
	// the snapping distance and the rounding to the grid.
	contactReach = 3 * snapSteps * gridStep

	// auditRounds is how many times the snapping distance a line may have moved before the check of areas calls it a
	// fault. Faults of the kind looked for, a face taken for the wrong side, are larger by far.
	auditRounds = 8

	// auditDigits is the relative rounding allowed in sums of areas.
	auditDigits = 1e-12
)
