package desk

import (
	"math"

	"openwork/pattern/sheet"
)

// FaultSign is how a fault or a warning is drawn at its place. Each has a form of its own, so that none is told from another by
// colour alone: only what is a width too small between two edges has a dimension line.
type FaultSign string

// The signs.
const (
	SignDimension  FaultSign = "dimension"   // a line across the width, arrows at both ends: a bridge, an opening, the way to the edge
	SignRing       FaultSign = "ring"        // an overlap, which is hatched as well
	SignDoubleRing FaultSign = "double ring" // an island
	SignCrossed    FaultSign = "crossed"     // a ring with a cross in it: an opening too narrow as a whole
	SignBroken     FaultSign = "broken"      // a ring of dashes: what could not be measured
	SignBead       FaultSign = "bead"        // a small circle: a tail of an opening
	SignLozenge    FaultSign = "lozenge"     // a small square on its corner: a tongue of sheet
	SignTwin       FaultSign = "twin"        // two small circles one in the other: a motif on another's copies
	SignBars       FaultSign = "bars"        // two short strokes along a weak strip
	signNone       FaultSign = "none"        // nothing at one place: it is about the whole sheet
)

// faultSigns are the signs of faults by kind, warningSigns of warnings.
var (
	faultSigns = map[sheet.Kind]FaultSign{
		sheet.Empty: signNone, sheet.Overlap: SignRing, sheet.Island: SignDoubleRing, sheet.Bridge: SignDimension,
		sheet.Unclear: SignBroken, sheet.Opening: SignDimension, sheet.Edge: SignDimension, sheet.Size: signNone, sheet.Tip: SignLozenge,
	}
	warningSigns = map[sheet.Kind]FaultSign{
		sheet.Empty: signNone, sheet.Overlap: SignTwin, sheet.Island: SignDoubleRing, sheet.Bridge: SignDimension,
		sheet.Unclear: SignBroken, sheet.Opening: SignBead, sheet.Edge: SignDimension, sheet.Size: signNone, sheet.Tip: SignLozenge,
		weakKind: SignBars,
	}
)

// signOf returns how a problem is drawn. Where a dimension line would have no ends there is a ring.
func signOf(p sheet.Problem) FaultSign {
	sign := faultSigns[p.Kind]
	if p.Severity == sheet.Warning {
		sign = warningSigns[p.Kind]
	}
	if sign == SignDimension && (p.Ends == nil || p.Kind == sheet.Opening && p.Measured == 0) {
		return SignCrossed
	}
	return sign
}

// small reports whether a sign is a small one, with a leader to its word.
func (s FaultSign) small() bool {
	return s == SignBead || s == SignLozenge || s == SignTwin || s == SignBars
}

// signWord is the word beside a sign. A bare figure is a bridge's; whatever else is measured is named.
func (k *Desk) signWord(p sheet.Problem) string {
	w := k.words()
	switch {
	case p.Kind == weakKind:
		return "long strip " + w.Measure(p.Measured)
	case p.Kind == sheet.Overlap && p.Severity == sheet.Warning:
		return "twice"
	case p.Kind == sheet.Unclear:
		return "not measured"
	case p.Kind == sheet.Tip:
		return "tongue " + w.Below(p.Measured, p.Required)
	case p.Kind == sheet.Opening && p.Severity == sheet.Warning:
		return "tail " + w.Below(p.Measured, p.Required)
	case p.Kind == sheet.Opening && p.Measured == 0:
		return "too narrow"
	case p.Kind == sheet.Opening:
		return "opening " + w.Below(p.Measured, p.Required)
	case p.Kind == sheet.Edge && p.Measured < 0:
		return w.Measure(-p.Measured) + " over the edge"
	case p.Kind == sheet.Edge:
		return w.Below(p.Measured, p.Required) + " to the edge"
	case p.Kind == sheet.Bridge && p.Measured == 0:
		return "touching"
	case p.Kind == sheet.Bridge:
		return w.Below(p.Measured, p.Required)
	}
	return ""
}

// crowd keeps points by squares of a side, so that those near another are found without looking at all.
type crowd struct {
	side float64
	in   map[[2]int][]int
}

func newCrowd(side float64) *crowd { return &crowd{side, map[[2]int][]int{}} }

func (c *crowd) square(x, y float64) [2]int {
	return [2]int{int(math.Floor(x / c.side)), int(math.Floor(y / c.side))}
}

func (c *crowd) add(x, y float64, i int) {
	q := c.square(x, y)
	c.in[q] = append(c.in[q], i)
}

// any reports whether one of the points in the squares that a disc meets satisfies the condition.
func (c *crowd) any(x, y, radius float64, is func(int) bool) bool {
	low, high := c.square(x-radius, y-radius), c.square(x+radius, y+radius)
	if (high[0]-low[0]+1)*(high[1]-low[1]+1) > len(c.in) { // a wide disc: fewer squares are taken than it meets
		for _, all := range c.in {
			for _, i := range all {
				if is(i) {
					return true
				}
			}
		}
		return false
	}
	for qx := low[0]; qx <= high[0]; qx++ {
		for qy := low[1]; qy <= high[1]; qy++ {
			for _, i := range c.in[[2]int{qx, qy}] {
				if is(i) {
					return true
				}
			}
		}
	}
	return false
}
