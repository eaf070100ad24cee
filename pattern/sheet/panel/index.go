package panel

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
)

// leftToRight are boxes in the order of their left sides, and whose they are.
type leftToRight struct {
	of     []int
	bounds []orb.Bound
	widest float64
}

// byPlace orders boxes by their left sides.
func byPlace(bounds []orb.Bound) leftToRight {
	n := len(bounds)
	o := leftToRight{of: make([]int, n), bounds: make([]orb.Bound, n)}
	for i, b := range bounds {
		o.of[i] = i
		o.widest = math.Max(o.widest, b.Max[0]-b.Min[0])
	}
	sort.SliceStable(o.of, func(x, y int) bool { return bounds[o.of[x]].Min[0] < bounds[o.of[y]].Min[0] })
	for k, i := range o.of {
		o.bounds[k] = bounds[i]
	}
	return o
}

// meeting calls do for every box that meets the window, from left to right, until it returns false; then it reports
// false.
func (o *leftToRight) meeting(window orb.Bound, do func(i int, b orb.Bound) bool) bool {
	left := window.Min[0] - o.widest
	first := sort.Search(len(o.of), func(k int) bool { return o.bounds[k].Min[0] >= left })
	for k := first; k < len(o.of) && o.bounds[k].Min[0] <= window.Max[0]; k++ {
		if b := o.bounds[k]; b.Intersects(window) && !do(o.of[k], b) {
			return false
		}
	}
	return true
}

// boxWithin reports whether box b lies in box w.
func boxWithin(b, w orb.Bound) bool {
	return b.Min[0] >= w.Min[0] && b.Max[0] <= w.Max[0] && b.Min[1] >= w.Min[1] && b.Max[1] <= w.Max[1]
}
