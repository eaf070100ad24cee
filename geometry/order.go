package geometry

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"
)

// NearOrder returns the indexes of boxes in an order in which neighbours in the row are near each other in the plane,
// so that halves, quarters and so on of the row have small boxes. A few boxes keep their order.
func NearOrder(bounds []orb.Bound) []int {
	order := make([]int, len(bounds))
	for i := range order {
		order[i] = i
	}
	nearOrder(order, bounds)
	return order
}

// fewBoxes keep their order.
const fewBoxes = 4

// nearOrder halves the row at the median along the longer side, and goes on in either half.
func nearOrder(order []int, bounds []orb.Bound) {
	if len(order) <= fewBoxes {
		return
	}
	all := bounds[order[0]]
	for _, i := range order[1:] {
		all = all.Union(bounds[i])
	}
	axis := 0
	if all.Max[1]-all.Min[1] > all.Max[0]-all.Min[0] {
		axis = 1
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Compare(bounds[i].Min[axis]+bounds[i].Max[axis], bounds[j].Min[axis]+bounds[j].Max[axis])
	})
	half := len(order) / 2
	nearOrder(order[:half], bounds)
	nearOrder(order[half:], bounds)
}
