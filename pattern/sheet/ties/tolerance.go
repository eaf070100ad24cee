package ties

const (
	// spare in mm is added to the width that the sheet asks for: a cut file keeps 0.001 mm and the draft 0.0001, and no
	// rounding may leave a tie narrower than the bridge it has to be.
	spare = 0.01

	// How many ties an island gets goes by its length along its longest way, counted in widths of a tie, as the trade
	// has it: one where it is tiny, two where it is small or long, three or more where it is large. An island no
	// longer than two widths cannot turn about one tie, but from TwoFrom on it has two whatever the width (craft
	// practice); one of eight widths (24 mm at the usual 3) sags between fewer than three.
	tinyUpTo  = 2.0
	smallUpTo = 8.0
	// TwoFrom in mm is the length from which an island has two ties where there is room for them.
	TwoFrom = 6.0
	// A strip at least slender times as long as wide is long: two ties hold its ends, up to longUpTo widths.
	slender  = 4.0
	longUpTo = 40.0
	// A large island gets one more for every moreEvery widths beyond smallUpTo, up to maxTies.
	moreEvery = 20.0
	maxTies   = 6

	// samples is about how many places along an island's edge are tried, and as many corners again.
	samples = 80

	// anchor, in widths of the tie, is how far its ends reach into the sheet beyond the opening's edge, where the sheet
	// is that deep; where not, half of what there is.
	anchor = 0.5
	// minAnchor in mm: an end that finds less sheet than this hangs on a hair.
	minAnchor = 0.02

	// steepest is how far along the tie, in widths, its end may run out on a slanting edge before another place is
	// preferred: 1.2 is an edge 50° off square.
	steepest = 1.2

	// spread: two ties of an island stand at least this part of an even share of the full turn apart.
	spread = 0.45
	// spreadWeight is what standing close costs against the length of the shortest tie.
	spreadWeight = 2.0

	// onEdge, in mm, is how near to the boundary a point may be computed and still be held to be on it.
	onEdge = 1e-6

	// longest, in widths, is how long a tie may be that is looked for from an island's edge; longer ones are a last
	// resort.
	longest = 60.0
	// far, in widths, is how far round an island other ties are looked at.
	far = 6.0

	// nearby, in widths, is how far round an island new faults are looked for before the whole panel is checked, in an
	// opening of no more than maxPoints corners there.
	nearby    = 5.0
	maxPoints = 1500
	// coarse in mm is the tolerance of outlines that nobody sees.
	coarse = 0.1
	// maxPicks of the cheapest places are tried for room, and maxLooks of them, a third of a width apart, for new
	// faults.
	maxPicks = 80
	maxLooks = 10

	// A tie by which new faults stand is held against maxOthers places at the most; measuredOthers of them, those that
	// seem best, are tried on the panel.
	maxOthers, measuredOthers = 40, 10
	// Such tries are checks of the whole panel: maxTries of them, fewer on a panel with so many corners that they come
	// to more than triesWork corners in all, but minTries always.
	maxTries, minTries = 80, 6
	triesWork          = 4e6

	// maxMembers is how many of an island's images are looked at for a way to sheet that is held, half of them in the
	// middle of the panel, half at its edge.
	maxMembers = 6

	// maxRounds bounds how often the panel is surveyed in one attempt. A round ties every kind of island that a tie
	// across one opening can reach; more than one is needed only where ties join islands of the field into larger ones.
	maxRounds = 24

	// samePlace in mm: two faults of a kind whose places are this near are one, before and after.
	samePlace = 0.05
)
