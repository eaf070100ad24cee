package joined

import (
	"math"

	"github.com/paulmach/orb"
)

// band is where a joint may run: across a strip from its left side to its right, between two heights, best at one.
type band struct {
	left, right      line // upward
	low, high, wants float64
	inside           strip
}

// strip is the part of the sheet between two lines.
type strip struct{ left, right line }

// holds reports whether a point lies between the lines: to the right of the one and to the left of the other, by the
// crossings of the level line through it.
func (s strip) holds(p orb.Point) bool {
	return odd(s.left, p) && !odd(s.right, p)
}

// odd reports whether a line is crossed an odd number of times on the level way from far left to p.
func odd(l line, p orb.Point) bool {
	in := false
	for i := 0; i+1 < len(l); i++ {
		a, b := l[i], l[i+1]
		if (a[1] > p[1]) != (b[1] > p[1]) && a[0]+(p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) < p[0] {
			in = !in
		}
	}
	return in
}

// straight returns the level line nearest to where the joint is wanted that keeps clear of the openings.
func (b band) straight(r *room, clearance float64) (line, bool) {
	for n := 0; ; n++ {
		off := float64(n) * lineStep
		if b.wants-off < b.low && b.wants+off > b.high {
			return nil, false
		}
		for _, y := range []float64{b.wants + off, b.wants - off} {
			if y < b.low || y > b.high {
				continue
			}
			_, x0, ok := b.left.crossings(y)
			x1, _, too := b.right.crossings(y)
			if ok && too && x1 > x0+same {
				p, q := orb.Point{x0, y}, orb.Point{x1, y}
				if r.along(p, q, clearance) >= clearance {
					return line{p, q}, true
				}
			}
		}
	}
}

// way returns a line across the band that keeps clear of the openings: the shortest way over a grid, and of that as few
// corners as can be seen from each other. A way through gaps narrower than the grid sees is not found.
func (b band) way(r *room, clearance float64) (line, bool) {
	step := math.Max(minStep, clearance/stepsToClear)
	box := orb.Bound{Min: b.left[0], Max: b.left[0]}
	for _, l := range []line{b.left, b.right} {
		for _, p := range l {
			box = box.Extend(p)
		}
	}
	g := &grid{b: b, r: r, clear: clearance + step/3, step: step, min: orb.Point{box.Min[0] + step/2, b.low}}
	g.cols = int((box.Max[0]-box.Min[0])/step) + 1
	g.rows = int((b.high-b.low)/step) + 1
	if g.cols*g.rows > maxNodes || g.rows < 2 {
		return nil, false
	}
	nodes := g.search()
	if nodes == nil {
		return nil, false
	}
	p, _, _ := b.left.nearest(nodes[0])
	q, _, _ := b.right.nearest(nodes[len(nodes)-1])
	all := append(append(line{p}, nodes...), q)
	return b.seen(r, all, clearance)
}

// seen leaves out what need not be gone round; false when the way does not keep clear after all.
func (b band) seen(r *room, all line, clearance float64) (line, bool) {
	sees := func(i, j int) bool {
		p, q := all[i], all[j]
		if p[1] < b.low || p[1] > b.high || q[1] < b.low || q[1] > b.high {
			return false
		}
		return r.along(p, q, clearance) >= clearance && b.inside.sees(p, q)
	}
	out := line{all[0]}
	for at := 0; at < len(all)-1; {
		// Twice as far as long as it can be seen, then back by halves.
		next, reach := at+1, 2
		if !sees(at, next) {
			return nil, false
		}
		for at+reach < len(all) && sees(at, at+reach) {
			next = at + reach
			reach *= 2
		}
		for lo, hi := next, min(at+reach, len(all)); hi-lo > 1; {
			if mid := (lo + hi) / 2; sees(at, mid) {
				lo, next = mid, mid
			} else {
				hi = mid
			}
		}
		at = next
		out = append(out, all[at])
	}
	return out, true
}

// sees reports whether the segment between two points of the strip stays in it; either end may lie on a side.
func (s strip) sees(p, q orb.Point) bool {
	for _, l := range []line{s.left, s.right} {
		for i := 0; i+1 < len(l); i++ {
			if crosses(p, q, l[i], l[i+1]) {
				return false
			}
		}
	}
	return s.holds(orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2})
}

// crosses reports whether two segments meet away from the ends of the first.
func crosses(p, q, a, b orb.Point) bool {
	side := func(u, v, w orb.Point) float64 { return (v[0]-u[0])*(w[1]-u[1]) - (v[1]-u[1])*(w[0]-u[0]) }
	d := side(a, b, p) - side(a, b, q)
	if d == 0 {
		return false
	}
	t := side(a, b, p) / d
	n := math.Hypot(q[0]-p[0], q[1]-p[1])
	if t*n <= same || (1-t)*n <= same {
		return false
	}
	x := orb.Point{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])}
	u := (x[0]-a[0])*(b[0]-a[0]) + (x[1]-a[1])*(b[1]-a[1])
	m := (b[0]-a[0])*(b[0]-a[0]) + (b[1]-a[1])*(b[1]-a[1])
	return u >= 0 && u <= m
}
