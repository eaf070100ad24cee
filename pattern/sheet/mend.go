package sheet

import (
	"math"

	"openwork/geometry"
	"openwork/pattern"
)

const (
	// widestOpening is the largest factor by which a cell is opened in a mend; beyond it the pattern is another.
	widestOpening = 2.5
	// openingSteps halves the interval of the factor this many times, to 0.0015 of the cell, before it is rounded up.
	openingSteps = 10
)

// OpenCell returns the command that opens the cell, in its own proportion and by as little as serves, until no two copies
// run into each other or leave a bridge narrower than the sheet needs. Motifs keep their size and their places in
// fractions of the cell. ok is false when nothing is wrong between copies, or when opening does not help, as for copies
// round a rotation point that a motif covers.
func OpenCell(l *pattern.Layout) (c pattern.Command, ok bool) {
	if clears(l, 1) {
		return c, false
	}
	low, high := 1.0, 1.0
	for {
		high *= 1.25
		if high > widestOpening {
			return c, false
		}
		if clears(l, high) {
			break
		}
		low = high
	}
	for range openingSteps {
		if mid := (low + high) / 2; clears(l, mid) {
			high = mid
		} else {
			low = mid
		}
	}
	c = opened(l, high)
	return c, clearsWith(l, c)
}

// opened is the command for a factor, rounded up to whole tenths of a millimetre and kept in proportion.
func opened(l *pattern.Layout, factor float64) pattern.Command {
	r := l.Draft.Repeat
	a := math.Ceil(r.A*factor*10) / 10
	b := geometry.Snap(r.B * a / r.A)
	return pattern.Command{Name: "cell", Values: map[string]float64{"a": a, "b": b}}
}

func clears(l *pattern.Layout, factor float64) bool {
	r := l.Draft.Repeat
	return clearsWith(l, pattern.Command{Name: "cell",
		Values: map[string]float64{"a": r.A * factor, "b": r.B * factor}})
}

// clearsWith reports whether, after the command, no two copies meet and no bridge between them is too narrow.
func clearsWith(l *pattern.Layout, c pattern.Command) bool {
	d, err := pattern.Apply(l.Draft, c)
	if err != nil {
		return false
	}
	next, err := pattern.NewLayout(d, l.Shapes)
	if err != nil {
		return false
	}
	live := Check(next, nil)
	return len(live.Overlaps) == 0 && len(live.Bridges) == 0 && !live.Partial
}
