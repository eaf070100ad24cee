package sheet

import (
	"math"

	"openwork/geometry"
	"openwork/pattern"
)

const (
	// widestOpening is the largest factor by which a cell is opened in a mend: enough for a figure typed with a digit
	// too few.
	widestOpening = 25
	// openingSteps halves the interval of the factor this many times, to 0.0015 of the cell at the usual factors,
	// before it is rounded up.
	openingSteps = 10
	// smallestSize is the least factor by which motifs are made smaller in a mend; below it the pattern is another.
	smallestSize = 0.5
)

// OpenCell returns the command that opens the cell, in its own proportion and by as little as serves, until no two
// copies run into each other or leave a bridge narrower than the sheet needs. Motifs keep their size and their places
// in fractions of the cell. ok is false when nothing is wrong between copies, or when opening does not help, as for
// copies round a rotation point that a motif covers.
func OpenCell(l *pattern.Layout) (c pattern.Command, ok bool) {
	var p parting
	if p.apart(l, none, nil) {
		return c, false
	}
	open := func(f float64) bool {
		r := l.Draft.Repeat
		return p.with(l, pattern.Command{Name: "cell", Values: map[string]float64{"a": r.A * f, "b": r.B * f}})
	}
	low, high := 1.0, 1.0
	for {
		high *= 1.25
		if high > widestOpening || p.spent() {
			return c, false
		}
		if open(high) {
			break
		}
		low = high
	}

	for range openingSteps {
		if mid := (low + high) / 2; open(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	c = opened(l, high)
	return c, p.with(l, c)
}

// opened is the command for a factor, rounded up to whole tenths of a millimetre and kept in proportion.
func opened(l *pattern.Layout, factor float64) pattern.Command {
	r := l.Draft.Repeat
	a := math.Ceil(r.A*factor*10) / 10
	b := geometry.Snap(r.B * a / r.A)
	return pattern.Command{Name: "cell", Values: map[string]float64{"a": a, "b": b}}
}

// Shrink returns the command that makes every motif smaller about its own centre, by as little as serves, until no two
// copies run into each other or leave a bridge narrower than the sheet needs. ok is false when nothing is wrong between
// copies, or when half the size does not help.
func Shrink(l *pattern.Layout) (c pattern.Command, ok bool) {
	var p parting
	size := func(f float64) pattern.Command {
		return pattern.Command{Name: "size", Values: map[string]float64{"factor": f}}
	}
	if p.apart(l, none, nil) || !p.with(l, size(smallestSize)) {
		return c, false
	}
	low, high := smallestSize, 1.0
	for range openingSteps {
		if mid := (low + high) / 2; p.with(l, size(mid)) {
			low = mid
		} else {
			high = mid
		}
	}
	c = size(math.Floor(low*1000) / 1000)
	return c, p.with(l, c)
}

// with reports whether after the command all copies are apart.
func (p *parting) with(l *pattern.Layout, c pattern.Command) bool {
	next, err := carriedOut(l, c)
	return err == nil && p.apart(next, none, nil)
}

// carriedOut lays out what a command makes of a draft, with the outlines that are prepared already.
func carriedOut(l *pattern.Layout, c pattern.Command) (*pattern.Layout, error) {
	d, err := pattern.Apply(l.Draft, c)
	if err != nil {
		return nil, err
	}
	return pattern.NewLayout(d, l.Shapes)
}
