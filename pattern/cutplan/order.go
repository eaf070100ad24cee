package cutplan

import (
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
)

// sweep calls visit for every pair of boxes nearer than reach, i < j in no special order.
func sweep(boxes []orb.Bound, reach float64, visit func(i, j int)) {
	order := make([]int, len(boxes))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(x, y int) bool { return boxes[order[x]].Min[0] < boxes[order[y]].Min[0] })
	for x, i := range order {
		for _, j := range order[x+1:] {
			if boxes[j].Min[0] > boxes[i].Max[0]+reach {
				break
			}
			if boxes[j].Min[1] <= boxes[i].Max[1]+reach && boxes[i].Min[1] <= boxes[j].Max[1]+reach {
				visit(min(i, j), max(i, j))
			}
		}
	}
}

// order sets the plan's contours in the order of cutting: marks, then what lies inside before what surrounds it, by a
// short way, and the sheet's outline last.
func (b *build) order() {
	b.nest()
	var stops []stop
	var runs [][]int // contours of each stop
	start := b.box.Min
	var way []int
	if b.apart > 0 {
		// What lies deepest first, all over the sheet: what surrounds it comes when the sheet has cooled.
		levels := b.levels()
		for _, level := range levels {
			stops = stops[:0]
			for _, i := range level {
				p := b.cuts[i].at()
				stops = append(stops, stop{p, p, b.boxOf(b.cuts[i])})
			}
			for _, k := range tour(stops, start, b.apart) {
				way = append(way, level[k])
				start = stops[k].out
			}
		}
	} else {
		for _, run := range b.clusters() {
			runs = append(runs, run)
			stops = append(stops, stop{in: b.cuts[run[0]].at(), out: b.cuts[run[len(run)-1]].at()})
		}
		for _, k := range tour(stops, start, 0) {
			way = append(way, runs[k]...)
		}
	}

	b.plan.Contours = append(b.plan.Contours, b.marks...)
	at := len(b.plan.Contours)
	for _, i := range way {
		b.plan.Contours = append(b.plan.Contours, b.cuts[i])
	}
	b.plan.Contours = append(b.plan.Contours, b.rim...)
	b.starts(b.plan.Contours[at:], b.box.Min)
}

// nest finds for each opening the smallest one that surrounds it, by standing in one of its holes.
func (b *build) nest() {
	boxes := make([]orb.Bound, len(b.units))
	holes := false
	for i, u := range b.units {
		boxes[i] = u.box
		holes = holes || u.last-u.first > u.outers
	}
	if !holes {
		return
	}
	area := func(i int) float64 {
		return (boxes[i].Max[0] - boxes[i].Min[0]) * (boxes[i].Max[1] - boxes[i].Min[1])
	}
	flat := map[int]orb.Ring{}
	try := func(i, j int) { // whether i stands in a hole of j
		if !within(boxes[i], boxes[j]) || b.units[i].within >= 0 && area(b.units[i].within) <= area(j) {
			return
		}
		p := b.cuts[b.units[i].last-1].at()
		u := b.units[j]
		for k := u.first; k < u.last-u.outers; k++ {
			if !b.boxOf(b.cuts[k]).Contains(p) {
				continue
			}
			if flat[k] == nil {
				flat[k] = b.cuts[k].Path.Under(b.cuts[k].Map).Flatten(b.o.Tolerance)
			}
			if geometry.InRing(flat[k], p) {
				b.units[i].within = j
				return
			}
		}
	}
	sweep(boxes, 0, func(i, j int) { try(i, j); try(j, i) })
}

// depth returns how many openings surround one; the chain of them grows in area, so it ends.
func (b *build) depth(u int) int {
	n := 0
	for u = b.units[u].within; u >= 0 && n <= len(b.units); u = b.units[u].within {
		n++
	}
	return n
}

// clusters returns the contours that are cut in one go, each a list in order: an opening, before it what lies inside
// it.
func (b *build) clusters() [][]int {
	byDepth := make([]int, len(b.units))
	depths := make([]int, len(b.units))
	for i := range b.units {
		byDepth[i], depths[i] = i, b.depth(i)
	}
	slices.SortStableFunc(byDepth, func(x, y int) int { return depths[y] - depths[x] })
	inner := make([][]int, len(b.units))
	var out [][]int
	for _, i := range byDepth {
		u := b.units[i]
		run := inner[i]
		for k := u.first; k < u.last; k++ {
			run = append(run, k)
		}
		if u.within < 0 {
			out = append(out, run)
		} else {
			inner[u.within] = append(inner[u.within], run...)
		}
	}

	// Back to the order they came in, so that the same draft gives the same file.
	slices.SortStableFunc(out, func(x, y []int) int { return x[len(x)-1] - y[len(y)-1] })
	return out
}

// levels returns the contours by how deep they lie, the deepest first: the outer rings of an opening at its own depth,
// its holes one deeper.
func (b *build) levels() [][]int {
	var out [][]int
	put := func(level, k int) {
		for len(out) <= level {
			out = append(out, nil)
		}
		out[level] = append(out[level], k)
	}
	for i, u := range b.units {
		d := 2 * b.depth(i)
		for k := u.first; k < u.last; k++ {
			if k < u.last-u.outers {
				put(d+1, k)
			} else {
				put(d, k)
			}
		}
	}
	slices.Reverse(out)
	return out
}

// starts moves the contours' starts to those of their corners that lie best on the way.
func (b *build) starts(cs []Contour, from orb.Point) {
	for range 2 {
		at := from
		for i := range cs {
			c := &cs[i]
			best, nearest := c.Start, math.Inf(1)
			if c.Path.Closed() {
				for _, s := range b.startsOf(c.Path) {
					t := *c
					t.Start = s
					p := t.at()
					d := far(at, p)
					if i+1 < len(cs) {
						d += far(p, cs[i+1].at())
					}
					if d < nearest {
						best, nearest = s, d
					}
				}
			}
			c.Start = best
			at = c.at()
		}
	}
}

// startsOf returns the path's places to start, found once for all contours that share it.
func (b *build) startsOf(p *curve.Path) []int {
	s, ok := b.begin[p]
	if !ok {
		if b.begin == nil {
			b.begin = map[*curve.Path][]int{}
		}
		s = p.Starts()
		b.begin[p] = s
	}
	return s
}

func far(p, q orb.Point) float64 { return math.Hypot(q[0]-p[0], q[1]-p[1]) }

// gapOf returns the distance of two boxes, 0 when they meet.
func gapOf(a, b orb.Bound) float64 {
	return math.Hypot(max(0, a.Min[0]-b.Max[0], b.Min[0]-a.Max[0]), max(0, a.Min[1]-b.Max[1], b.Min[1]-a.Max[1]))
}
