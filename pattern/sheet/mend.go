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

// smallestSize is the least factor by which motifs are made smaller in a mend; below it the pattern is another.
const smallestSize = 0.5

// Shrink returns the command that makes every motif smaller about its own centre, by as little as serves, until no two
// copies run into each other or leave a bridge narrower than the sheet needs. ok is false when nothing is wrong between
// copies, or when half the size does not help.
func Shrink(l *pattern.Layout) (c pattern.Command, ok bool) {
	size := func(f float64) pattern.Command {
		return pattern.Command{Name: "size", Values: map[string]float64{"factor": f}}
	}
	if clears(l, 1) || !clearsWith(l, size(smallestSize)) {
		return c, false
	}
	low, high := smallestSize, 1.0
	for range openingSteps {
		if mid := (low + high) / 2; clearsWith(l, size(mid)) {
			low = mid
		} else {
			high = mid
		}
	}
	c = size(math.Floor(low*1000) / 1000)
	return c, clearsWith(l, c)
}

const (
	// moveWays is how many directions a motif is moved in, to look for the shortest way to clear.
	moveWays = 16
	// mostMoves bounds the places tried: a fraction of a second.
	mostMoves = 500
)

// MoveApart returns the command that moves one of the two motifs that are nearest to each other, by as little as serves,
// until no two copies run into each other or leave a bridge narrower than the sheet needs. It looks in moveWays
// directions, no further than half a cell. ok is false when nothing is wrong between copies or no place was found.
func MoveApart(l *pattern.Layout) (c pattern.Command, ok bool) {
	live := Check(l, nil)
	var worst Meeting
	switch {
	case len(live.Overlaps) > 0:
		worst = live.Overlaps[0]
		for _, m := range live.Overlaps {
			if m.Area > worst.Area {
				worst = m
			}
		}
	case len(live.Bridges) > 0:
		worst = live.Bridges[0]
	default:
		return c, false
	}
	far := math.Min(math.Hypot(l.A[0], l.A[1]), math.Hypot(l.B[0], l.B[1])) / 2
	best, tried := far, 0
	motifs := []int{worst.Motif}
	if worst.Other != worst.Motif {
		motifs = append(motifs, worst.Other)
	}
	for _, i := range motifs {
		m := l.Draft.Motifs[i]
		for way := range moveWays {
			s, k := math.Sincos(2 * math.Pi * float64(way) / moveWays)
			to := func(d float64) pattern.Command {
				return pattern.Command{Name: "place", ID: m.ID, Values: map[string]float64{
					"x": math.Round((m.At[0]+d*k)*10) / 10, "y": math.Round((m.At[1]+d*s)*10) / 10}}
			}
			low, high := 0.0, l.Draft.Sheet.Bridge/2
			for high < best && tried < mostMoves && !clearsWith(l, to(high)) {
				low, high, tried = high, high*1.6, tried+1
			}
			if high >= best || tried >= mostMoves {
				continue
			}
			for high-low > 0.1 && tried < mostMoves {
				tried++
				if mid := (low + high) / 2; clearsWith(l, to(mid)) {
					high = mid
				} else {
					low = mid
				}
			}
			if clearsWith(l, to(high)) {
				best, c, ok = high, to(high), true
			}
		}
	}
	return c, ok
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
