package simplify

import (
	"math"

	"openwork/geometry"

	"github.com/paulmach/orb"
)

// corner is a corner of the answer, in steps of geometry.Grid, so that crossings can be told exactly.
type corner struct {
	x, y  int64
	span  int  // the edge that begins here draws this span
	stays bool // it is a point shared with another place
}

// point returns the corner in mm.
func (c corner) point() orb.Point {
	perUnit := math.Round(1 / geometry.Grid)
	return orb.Point{float64(c.x) / perUnit, float64(c.y) / perUnit}
}

// draw writes the answer as the spans now have it, corners that fall together on the grid once.
func (f *fit) draw() {
	f.drawn = f.drawn[:0]
	f.place()
	for k, s := range f.spans {
		f.add(f.joins[k], k, f.stays(s.i))
		if s.level > 0 {
			f.chords(s, func(i int) { f.add(f.p[i], k, f.stays(i)) })
		}
	}
	f.closeDrawn()
}

// add appends a corner to the answer.
func (f *fit) add(v orb.Point, k int, stays bool) {
	perUnit := math.Round(1 / geometry.Grid)
	c := corner{int64(math.Round(v[0] * perUnit)), int64(math.Round(v[1] * perUnit)), k, stays}
	if n := len(f.drawn); n > 0 && same(f.drawn[n-1], c) {
		f.drawn[n-1].span = k
		f.drawn[n-1].stays = f.drawn[n-1].stays || stays
		return
	}
	f.drawn = append(f.drawn, c)
}

// closeDrawn takes corners off the end that are the first again.
func (f *fit) closeDrawn() {
	for n := len(f.drawn); n > 1 && same(f.drawn[0], f.drawn[n-1]); n-- {
		f.drawn = f.drawn[:n-1]
	}
}

// chords calls yield with the points between the ends of a refined span that its chords need, in order: by the rule of
// D. Douglas, T. Peucker, The Canadian Cartographer 10 (1973), or all.
func (f *fit) chords(s span, yield func(i int)) {
	n := f.steps(s.i, s.j)
	tolerance := math.Ldexp(f.o.Tolerance, -s.level)
	stack := [][2]int{{0, n}}
	for len(stack) > 0 { // ends: an entry is replaced by two shorter ones, or by none
		lo, hi := stack[len(stack)-1][0], stack[len(stack)-1][1]
		stack = stack[:len(stack)-1]
		at, worst := -1, tolerance
		if s.level >= finest && hi-lo > 1 {
			at = lo + 1
		} else {
			a, b := f.p[f.step(s.i, lo)], f.p[f.step(s.i, hi%len(f.p))]
			for k := lo + 1; k < hi; k++ {
				if d := toSegment(f.p[f.step(s.i, k)], a, b); d > worst {
					at, worst = k, d
				}
			}
		}
		if at >= 0 {
			stack = append(stack, [2]int{at, hi}, [2]int{lo, at})
		} else if hi < n {
			yield(f.step(s.i, hi))
		}
	}
}
