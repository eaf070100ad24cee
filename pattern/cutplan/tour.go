package cutplan

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// stop is a place on the way: where it is entered, where it is left, and its box.
type stop struct {
	in, out orb.Point
	box     orb.Bound
}

// tour returns an order of the stops with a short way from a place through all of them: the nearest next, then improved
// by turning parts of it round (2-opt) among near neighbours until nothing is gained, within a bound on the work. With
// apart > 0 no two boxes in a row lie nearer than that, as far as it goes. The same stops give the same order.
func tour(stops []stop, from orb.Point, apart float64) []int {
	if len(stops) == 0 {
		return nil
	}
	t := &tourist{stops: stops, from: from, apart: apart}
	t.grid()
	t.greedy()
	t.improve()
	return t.way
}

type tourist struct {
	stops []stop
	from  orb.Point
	apart float64
	way   []int

	size       float64 // of the grid's squares
	min        orb.Point
	cols, rows int
	cells      [][]int
	looks      int // stops that the search for near ones has looked at
}

// may reports whether stop j may follow stop i.
func (t *tourist) may(i, j int) bool {
	return t.apart == 0 || gapOf(t.stops[i].box, t.stops[j].box) >= t.apart
}

// grid sorts the stops' entries into squares that hold about two each.
func (t *tourist) grid() {
	b := orb.Bound{Min: t.stops[0].in, Max: t.stops[0].in}
	for _, s := range t.stops {
		b = b.Extend(s.in)
	}
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	t.min = b.Min
	t.size = max(math.Sqrt(w*h*2/float64(len(t.stops))), max(w, h)/1000, 1e-3)
	t.cols, t.rows = int(w/t.size)+1, int(h/t.size)+1
	t.cells = make([][]int, t.cols*t.rows)
	for i, s := range t.stops {
		c := t.cell(s.in)
		t.cells[c[1]*t.cols+c[0]] = append(t.cells[c[1]*t.cols+c[0]], i)
	}
}

func (t *tourist) cell(p orb.Point) [2]int {
	return [2]int{max(0, min(t.cols-1, int((p[0]-t.min[0])/t.size))),
		max(0, min(t.rows-1, int((p[1]-t.min[1])/t.size)))}
}

// nearest returns up to n stops whose entries are nearest to p among those that take accepts, nearest first. Once
// maxWork stops have been looked at in all it returns what it has: where hardly any is accepted, each search would go
// over all of them.
func (t *tourist) nearest(p orb.Point, n int, take func(int) bool) []int {
	c := t.cell(p)
	var found []int
	d := func(i int) float64 { return far(p, t.stops[i].in) }
	for r := 0; r <= max(t.cols, t.rows) && t.looks < maxWork; r++ {
		// All in squares further out are at least (r−1) squares away.
		if len(found) >= n && d(found[n-1]) <= float64(r-1)*t.size {
			break
		}
		for y := max(0, c[1]-r); y <= min(t.rows-1, c[1]+r); y++ {
			step := 1
			if y != c[1]-r && y != c[1]+r {
				step = 2 * r
			}
			for x := c[0] - r; x <= c[0]+r; x += max(step, 1) {
				if x < 0 || x >= t.cols {
					continue
				}
				t.looks += 1 + len(t.cells[y*t.cols+x])
				for _, i := range t.cells[y*t.cols+x] {
					if take(i) {
						found = append(found, i)
					}
				}
			}
		}
		slices.SortStableFunc(found, func(i, j int) int {
			switch a, b := d(i), d(j); {
			case a < b:
				return -1
			case a > b:
				return 1
			}
			return i - j
		})
		found = found[:min(len(found), n)]
	}
	return found
}

// greedy goes to the nearest stop that may follow, and fits in at the end where it costs least what could not.
func (t *tourist) greedy() {
	done := make([]bool, len(t.stops))
	at, last := t.from, -1
	for {
		next := t.nearest(at, 1, func(i int) bool { return !done[i] && (last < 0 || t.may(last, i)) })
		if len(next) == 0 {
			break
		}
		last = next[0]
		done[last] = true

		// What is done leaves its square, so that searching stays short.
		c := t.cell(t.stops[last].in)
		k := c[1]*t.cols + c[0]
		t.cells[k] = slices.DeleteFunc(t.cells[k], func(i int) bool { return i == last })
		at = t.stops[last].out
		t.way = append(t.way, last)
	}

	work := 0
	for i := range t.stops {
		if done[i] {
			continue
		}
		best, shortest := len(t.way), math.Inf(1)
		for k := 0; k <= len(t.way) && work < maxWork; k++ {
			work++
			if (k > 0 && !t.may(t.way[k-1], i)) || (k < len(t.way) && !t.may(i, t.way[k])) {
				continue
			}
			if d := t.detour(k, i); d < shortest {
				best, shortest = k, d
			}
		}
		t.way = slices.Insert(t.way, best, i)
	}
	t.grid()
}

// detour returns what it costs to put stop i before place k of the way.
func (t *tourist) detour(k, i int) float64 {
	at := t.from
	if k > 0 {
		at = t.stops[t.way[k-1]].out
	}
	s := t.stops[i]
	if k == len(t.way) {
		return far(at, s.in)
	}
	next := t.stops[t.way[k]].in
	return far(at, s.in) + far(s.out, next) - far(at, next)
}

// improve turns parts of the way round as long as it gets shorter.
func (t *tourist) improve() {
	n := len(t.way)
	place := make([]int, n)
	// Costs of the links up to each place, going forward and going back.
	forth, back := make([]float64, n), make([]float64, n)
	update := func(from int) {
		for k := max(from, 0); k < n; k++ {
			place[t.way[k]] = k
			if k > 0 {
				a, b := t.stops[t.way[k-1]], t.stops[t.way[k]]
				forth[k] = forth[k-1] + far(a.out, b.in)
				back[k] = back[k-1] + far(b.out, a.in)
			}
		}
	}

	update(0)
	t.looks = 0
	near := make([][]int, n)
	for i := range near {
		near[i] = t.nearest(t.stops[i].out, neighbours, func(j int) bool { return j != i && t.may(i, j) })
	}
	leave := func(k int) orb.Point { // the place before place k is left from here
		if k == 0 {
			return t.from
		}
		return t.stops[t.way[k-1]].out
	}
	work := 0
	for range maxRounds {
		better := false
		for i := 0; i < n && work < maxWork; i++ {
			// The part from i to j turned round: before it then comes way[j], after it way[i].
			turn := func(i, j int) bool {
				a, b := t.way[i], t.way[j]
				if i > 0 && !t.may(t.way[i-1], b) || j+1 < n && !t.may(a, t.way[j+1]) {
					return false
				}
				was := far(leave(i), t.stops[a].in) + forth[j] - forth[i]
				is := far(leave(i), t.stops[b].in) + back[j] - back[i]
				if j+1 < n {
					was += far(t.stops[b].out, t.stops[t.way[j+1]].in)
					is += far(t.stops[a].out, t.stops[t.way[j+1]].in)
				}
				if is > was-gain {
					return false
				}
				slices.Reverse(t.way[i : j+1])
				update(i)
				work += n - i
				return true
			}

			// A new link from the place before i to a neighbour of it further on, or from i to a neighbour before it.
			var from []int
			if i > 0 {
				from = near[t.way[i-1]]
			}
			for _, c := range from {
				if j := place[c]; j > i && turn(i, j) {
					better = true
					break
				}
			}
			for _, c := range near[t.way[i]] {
				if j := place[c]; j > i+1 && turn(i, j-1) {
					better = true
					break
				}
			}
			work += 2 * neighbours
			if i+1 < n && turn(i, n-1) {
				better = true
			}
		}
		if !better || work >= maxWork {
			return
		}
	}
}
