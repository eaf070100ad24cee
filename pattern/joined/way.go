package joined

import (
	"container/heap"
	"math"

	"github.com/paulmach/orb"
)

// line is a polyline, mm.
type line []orb.Point

// band is where a joint may run: across a strip from its left side to its right, between two heights, best at one.
type band struct {
	left, right      line // upward
	low, high, wants float64
	inside           strip
}

// strip is the part of the sheet between two lines.
type strip struct{ left, right line }

// holds reports whether a point lies between the lines: to the right of the one and to the left of the other, by the crossings
// of the level line through it.
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

// crossings returns where the level line at y meets a line, the least and the greatest x.
func (l line) crossings(y float64) (least, most float64, ok bool) {
	least, most = math.Inf(1), math.Inf(-1)
	for i := 0; i+1 < len(l); i++ {
		a, b := l[i], l[i+1]
		if math.Min(a[1], b[1]) > y || math.Max(a[1], b[1]) < y {
			continue
		}
		xs := []float64{a[0], b[0]}
		if a[1] != b[1] {
			xs = []float64{a[0] + (y-a[1])/(b[1]-a[1])*(b[0]-a[0])}
		}
		for _, x := range xs {
			least, most, ok = math.Min(least, x), math.Max(most, x), true
		}
	}
	return least, most, ok
}

// nearest returns the point of a line nearest to p, how far along the line it is, and how far from p.
func (l line) nearest(p orb.Point) (at orb.Point, along, d float64) {
	d = math.Inf(1)
	run := 0.0
	for i := 0; i+1 < len(l); i++ {
		a, b := l[i], l[i+1]
		ux, uy := b[0]-a[0], b[1]-a[1]
		n := math.Hypot(ux, uy)
		if n == 0 {
			continue
		}
		t := math.Max(0, math.Min(1, ((p[0]-a[0])*ux+(p[1]-a[1])*uy)/(n*n)))
		q := orb.Point{a[0] + t*ux, a[1] + t*uy}
		if e := math.Hypot(p[0]-q[0], p[1]-q[1]); e < d {
			at, along, d = q, run+t*n, e
		}
		run += n
	}
	return at, along, d
}

func (l line) length() float64 {
	sum := 0.0
	for i := 0; i+1 < len(l); i++ {
		sum += math.Hypot(l[i+1][0]-l[i][0], l[i+1][1]-l[i][1])
	}
	return sum
}

// between returns the stretch from one length along the line to a greater one.
func (l line) between(from, to float64) line {
	var out line
	put := func(p orb.Point) {
		if n := len(out); n == 0 || math.Hypot(out[n-1][0]-p[0], out[n-1][1]-p[1]) > same {
			out = append(out, p)
		}
	}
	put(l.at(from))
	run := 0.0
	for i := 0; i+1 < len(l); i++ {
		run += math.Hypot(l[i+1][0]-l[i][0], l[i+1][1]-l[i][1])
		if run > from+same && run < to-same {
			put(l[i+1])
		}
	}
	put(l.at(to))
	return out
}

// at returns the point so many mm along the line.
func (l line) at(along float64) orb.Point {
	for i := 0; i+1 < len(l); i++ {
		a, b := l[i], l[i+1]
		n := math.Hypot(b[0]-a[0], b[1]-a[1])
		if along <= n && n > 0 {
			t := math.Max(0, along/n)
			return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
		}
		along -= n
	}
	return l[len(l)-1]
}

func (l line) swapped() line {
	var out line
	for _, p := range l {
		out = append(out, orb.Point{p[1], p[0]})
	}
	return out
}

// straight returns the level line nearest to where the joint is wanted that keeps clear of the openings.
func (b band) straight(r *room, clear float64) (line, bool) {
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
				if r.along(p, q, clear) >= clear {
					return line{p, q}, true
				}
			}
		}
	}
}

// way returns a line across the band that keeps clear of the openings: the shortest way over a grid, and of that as few
// corners as can be seen from each other. A way through gaps narrower than the grid sees is not found.
func (b band) way(r *room, clear float64) (line, bool) {
	step := math.Max(leastStep, clear/stepsToClear)
	box := orb.Bound{Min: b.left[0], Max: b.left[0]}
	for _, l := range []line{b.left, b.right} {
		for _, p := range l {
			box = box.Extend(p)
		}
	}
	g := &grid{b: b, r: r, clear: clear + step/3, step: step, min: orb.Point{box.Min[0] + step/2, b.low}}
	g.cols = int((box.Max[0]-box.Min[0])/step) + 1
	g.rows = int((b.high-b.low)/step) + 1
	if g.cols*g.rows > mostNodes || g.rows < 2 {
		return nil, false
	}
	nodes := g.search()
	if nodes == nil {
		return nil, false
	}
	p, _, _ := b.left.nearest(nodes[0])
	q, _, _ := b.right.nearest(nodes[len(nodes)-1])
	all := append(append(line{p}, nodes...), q)
	return b.seen(r, all, clear)
}

// seen leaves out what need not be gone round; false when the way does not keep clear after all.
func (b band) seen(r *room, all line, clear float64) (line, bool) {
	sees := func(i, j int) bool {
		p, q := all[i], all[j]
		if p[1] < b.low || p[1] > b.high || q[1] < b.low || q[1] > b.high {
			return false
		}
		return r.along(p, q, clear) >= clear && b.inside.sees(p, q)
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

// grid is what a way is looked for on.
type grid struct {
	b           band
	r           *room
	clear, step float64
	min         orb.Point
	cols, rows  int
	open        []int8 // of each node: 1 free, −1 not, 0 not asked yet
	cost        []float32
	from        []int32
}

func (g *grid) point(k int) orb.Point {
	return orb.Point{g.min[0] + float64(k%g.cols)*g.step, g.min[1] + float64(k/g.cols)*g.step}
}

func (g *grid) free(k int) bool {
	if g.open[k] == 0 {
		p := g.point(k)
		g.open[k] = -1
		if g.b.inside.holds(p) && g.r.at(p, g.clear) >= g.clear {
			g.open[k] = 1
		}
	}
	return g.open[k] > 0
}

// search returns the nodes of the cheapest way from the left side to the right (Dijkstra).
func (g *grid) search() line {
	n := g.cols * g.rows
	g.open, g.cost, g.from = make([]int8, n), make([]float32, n), make([]int32, n)
	for k := range g.cost {
		g.cost[k] = math.MaxFloat32
	}
	q := &queue{}
	starts, ends := g.beside(g.b.left), g.beside(g.b.right)
	for k := range n {
		if starts[k] && g.free(k) {
			g.cost[k], g.from[k] = 0, -1
			heap.Push(q, item{0, int32(k)})
		}
	}
	for q.Len() > 0 {
		it := heap.Pop(q).(item)
		k := int(it.node)
		if it.cost > g.cost[k] {
			continue
		}
		if ends[k] {
			var out line
			for ; k >= 0; k = int(g.from[k]) {
				out = append(line{g.point(k)}, out...)
			}
			return out
		}
		i, j := k%g.cols, k/g.cols
		for _, d := range [8][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}, {1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
			x, y := i+d[0], j+d[1]
			if x < 0 || y < 0 || x >= g.cols || y >= g.rows || !g.free(y*g.cols+x) {
				continue
			}
			off := math.Abs(g.min[1]+float64(y)*g.step-g.b.wants) / math.Max(g.b.high-g.b.low, g.step)
			c := it.cost + float32(g.step*math.Hypot(float64(d[0]), float64(d[1]))*(1+stray*off))
			if to := y*g.cols + x; c < g.cost[to] {
				g.cost[to], g.from[to] = c, int32(k)
				heap.Push(q, item{c, int32(to)})
			}
		}
	}
	return nil
}

// beside returns which nodes lie within a step or so of a line.
func (g *grid) beside(l line) []bool {
	out := make([]bool, g.cols*g.rows)
	all := l.length()
	for along := 0.0; along < all+g.step; along += g.step / 2 {
		p := l.at(min(along, all))
		x, y := int(math.Round((p[0]-g.min[0])/g.step)), int(math.Round((p[1]-g.min[1])/g.step))
		for i := max(0, x-1); i <= min(g.cols-1, x+1); i++ {
			for j := max(0, y-1); j <= min(g.rows-1, y+1); j++ {
				out[j*g.cols+i] = true
			}
		}
	}
	return out
}

// item is a node on the queue, and queue the cheapest first.
type item struct {
	cost float32
	node int32
}

type queue []item

func (q queue) Len() int           { return len(q) }
func (q queue) Less(i, j int) bool { return q[i].cost < q[j].cost }
func (q queue) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)        { *q = append(*q, x.(item)) }
func (q *queue) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}
