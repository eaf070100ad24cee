package desk

import (
	"math"

	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/say"
)

// signOf returns how a problem or a weak strip is drawn.
func signOf(p sheet.Problem) sheet.Sign {
	if p.Kind == say.WeakKind {
		return sheet.SignBars
	}
	return sheet.SignOf(p)
}

// small reports whether a sign is a small one, with a leader to its word.
func small(s sheet.Sign) bool {
	return s == sheet.SignBead || s == sheet.SignLozenge || s == sheet.SignTwin || s == sheet.SignBars
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
