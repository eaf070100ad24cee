package pattern

import "openwork/geometry"

// ColourCells returns after how many cells along a and b the colours of all copies repeat, 1 at the least: what
// ColourOf says is the same for a copy moved on by them. Where copies are coloured by hand it may be many.
func (l *Layout) ColourCells() [2]int {
	cells := [2]int{1, 1}
	if l.palette == nil {
		return cells
	}
	for k, period := range l.palette.period {
		cells[k] = period
		if l.palette.hand != nil {
			block := l.palette.paint.ByHand.Cells[k]
			cells[k] = period / geometry.GCD(period, block) * block
		}
	}
	return cells
}
