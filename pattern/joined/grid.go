package joined

import (
	"container/heap"
	"math"

	"github.com/paulmach/orb"
)

// grid is what a way is looked for on.
type grid struct {
	b           band
	r           *room
	clear, step float64
	min         orb.Point
	cols, rows  int
	open        []int8 // of each node: 2 free, 1 clear of the openings, −1 neither, 0 not asked yet
	cost        []float32
	from        []int32
}

func (g *grid) point(k int) orb.Point {
	return orb.Point{g.min[0] + float64(k%g.cols)*g.step, g.min[1] + float64(k/g.cols)*g.step}
}

// free reports whether a node lies in the strip, clear of the openings. How far a node is from them tells the same of
// the nodes around it, as far as it is from the clearance asked for.
func (g *grid) free(k int) bool {
	if g.open[k] == 0 {
		p := g.point(k)
		off := g.r.at(p, g.clear+look*g.step) - g.clear
		is := int8(-1)
		if off >= 0 {
			is = 1
		}
		g.open[k] = is
		n := int(math.Abs(off)/g.step - same)
		x, y := k%g.cols, k/g.cols
		for j := max(0, y-n); j <= min(g.rows-1, y+n); j++ {
			w := int(math.Sqrt(float64(n*n - (j-y)*(j-y))))
			for i := max(0, x-w); i <= min(g.cols-1, x+w); i++ {
				if at := j*g.cols + i; g.open[at] == 0 {
					g.open[at] = is
				}
			}
		}
	}

	if g.open[k] == 1 { // not yet held against the strip's sides
		g.open[k] = -1
		if g.b.inside.holds(g.point(k)) {
			g.open[k] = 2
		}
	}
	return g.open[k] == 2
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
