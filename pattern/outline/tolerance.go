package outline

// Defaults of Options.
const (
	// DefaultTolerance in mm: a quarter of the usual kerf, and half the width of a line one can just see.
	DefaultTolerance = 0.05
	// DefaultSpecks in mm²: a dot of 0.8 mm across, smaller than the narrowest opening for thin paint.
	DefaultSpecks = 0.5
	// DefaultPinholes in mm²: a dot of 0.5 mm across; sheet that small falls out or burns away.
	DefaultPinholes = 0.2
	// DefaultGap in mm between the ends of a pencil line that was meant to close.
	DefaultGap = 1
	// DefaultDPI is what a scanner is usually set to.
	DefaultDPI = 300
)

// MMPerInch is exact.
const MMPerInch = 25.4

// MaxBytes is how long a file may be that is read: a page at 600 dpi stored without compression still fits. Whoever
// reads a file for Read need read no more than one byte beyond it.
const MaxBytes = 128 << 20

// Bounds on what may be typed.
const (
	// mm; these three are wider than anyone means, and keep what they cost small
	maxGap                     = 50
	maxSmoothing               = 10          // mm
	maxNarrow                  = 100         // mm
	MinDPI, MaxDPI             = 10, 4800    // below lies a screen picture, above no scanner
	minHeightMM, maxHeightMM   = 0.1, 100000 // mm
	minTolerance, maxTolerance = 0.001, 10   // mm
	maxSpeck                   = 1e6         // mm²
)

const (
	// Tightest is the part of the tolerance asked for that outlines are always allowed to stray by.
	Tightest = 0.4
	// narrowTolerance in mm is asked of the outlines of narrow places, which nothing here draws; maxNarrowPoints of
	// outlines are gone through for them.
	narrowTolerance, maxNarrowPoints = 0.1, 100000
)
