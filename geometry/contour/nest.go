package contour

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
)

// crossing is a point where a ring crosses a row of samples.
type crossing struct {
	row, x float64
	ring   int
	rising bool // from low to high with growing x
}

// Nest returns for each ring the index of the smallest one around it, or −1. The rings are some or all of those that
// one Walk gave, in their own grid units; where one is missing, all inside it must be missing too. Outer rings lie in
// holes or in nothing, holes in outer rings.
//
// On the row where a ring is lowest, at its left end there, the next crossing to the left belongs to what is around it
// or to a neighbour within the same. Time grows as n log n with the number of points.
func Nest(rings []orb.Ring) []int {
	var all []crossing
	first := make([]crossing, len(rings))
	outer := make([]bool, len(rings))
	for k, r := range rings {
		f := crossing{row: math.Inf(1), ring: k}
		for i, p := range r {
			if i == len(r)-1 || p[1] != math.Floor(p[1]) || p[0] == math.Floor(p[0]) {
				continue
			}

			// A line passes a row downward where values rise. The next point tells which way; it lies below or above,
			// as a square's line has its two ends on different sides.
			c := crossing{p[1], p[0], k, r[i+1][1] < p[1]}
			all = append(all, c)
			if c.before(f) {
				f = c
			}
		}
		first[k] = f
		outer[k] = f.rising
	}

	sort.Slice(all, func(i, j int) bool { return all[i].before(all[j]) })
	order := make([]int, len(rings))
	for k := range order {
		order[k] = k
	}
	sort.Slice(order, func(i, j int) bool { return first[order[i]].before(first[order[j]]) })

	parent := make([]int, len(rings))
	for _, k := range order {
		parent[k] = -1
		at := sort.Search(len(all), func(i int) bool { return !all[i].before(first[k]) }) - 1
		if at < 0 || all[at].row != first[k].row {
			continue
		}
		if near := all[at].ring; outer[near] != outer[k] {
			parent[k] = near
		} else {
			parent[k] = parent[near]
		}
	}
	return parent
}

func (c crossing) before(d crossing) bool {
	return c.row < d.row || c.row == d.row && c.x < d.x
}
