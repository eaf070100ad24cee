package cutplan

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// ground is a sheet in small squares, those taken by openings, the sheet's edge and furniture among them: it says fast
// where there may be room. What it says is held against the outlines themselves.
type ground struct {
	min        orb.Point
	size       float64 // mm of a square
	cols, rows int
	taken      []bool
	sums       []int32 // of taken squares below and to the left, one row and column more
}

// ground returns the sheet's squares.
func (b *build) ground() *ground {
	w, h := b.box.Max[0]-b.box.Min[0], b.box.Max[1]-b.box.Min[1]
	g := &ground{min: b.box.Min, size: math.Max(minSquare, math.Sqrt(w*h/maxSquares))}
	g.cols, g.rows = int(math.Ceil(w/g.size)), int(math.Ceil(h/g.size))
	g.taken = make([]bool, g.cols*g.rows)
	var rings []orb.Ring
	for _, o := range b.Openings {
		rings = append(rings, geometry.Rings(geometry.Transform(o.Shape.Outline(),
			geometry.Translate(o.Shift[0], o.Shift[1])))...)
	}
	g.fill(rings, true)
	edge := geometry.Rings(b.Outline)
	g.fill(edge, false)
	for _, r := range slices.Concat(rings, edge) {
		g.stamp(r, clearance+g.size/2)
	}
	for _, t := range b.taken {
		g.block(t.Pad(clearance))
	}
	g.add()
	return g
}

// fill takes the squares whose middles lie inside rings, even–odd, or outside them.
func (g *ground) fill(rings []orb.Ring, inside bool) {
	crossed := make([][]float64, g.rows)
	for _, r := range rings {
		for i := 1; i < len(r); i++ {
			p, q := r[i-1], r[i]
			if p[1] > q[1] {
				p, q = q, p
			}
			// rows whose middle line the edge crosses
			from := int(math.Ceil((p[1]-g.min[1])/g.size - 0.5))
			to := int(math.Ceil((q[1]-g.min[1])/g.size - 0.5))
			for j := max(0, from); j < min(g.rows, to); j++ {
				y := g.min[1] + (float64(j)+0.5)*g.size
				crossed[j] = append(crossed[j], p[0]+(y-p[1])/(q[1]-p[1])*(q[0]-p[0]))
			}
		}
	}
	for j, xs := range crossed {
		slices.Sort(xs)
		at, in := 0, false
		for i := range g.cols {
			x := g.min[0] + (float64(i)+0.5)*g.size
			for at < len(xs) && xs[at] <= x {
				at, in = at+1, !in
			}
			if in == inside {
				g.taken[j*g.cols+i] = true
			}
		}
	}
}

// stamp takes the squares whose middles lie within a reach of a ring.
func (g *ground) stamp(r orb.Ring, reach float64) {
	for i := 1; i < len(r); i++ {
		n := max(1, int(math.Ceil(2*far(r[i-1], r[i])/g.size)))
		for k := range n {
			p := geometry.Add(r[i-1], geometry.Times(geometry.Sub(r[i], r[i-1]), float64(k)/float64(n)))
			x, y := (p[0]-g.min[0])/g.size-0.5, (p[1]-g.min[1])/g.size-0.5
			s := reach / g.size
			for j := max(0, int(math.Ceil(y-s))); j <= min(g.rows-1, int(y+s)); j++ {
				w := math.Sqrt(s*s - (float64(j)-y)*(float64(j)-y))
				for i := max(0, int(math.Ceil(x-w))); i <= min(g.cols-1, int(math.Floor(x+w))); i++ {
					g.taken[j*g.cols+i] = true
				}
			}
		}
	}
}

// block takes the squares whose middles lie in a box; add is called afterwards.
func (g *ground) block(r orb.Bound) {
	for j := range g.rows {
		y := g.min[1] + (float64(j)+0.5)*g.size
		if y < r.Min[1] || y > r.Max[1] {
			continue
		}
		for i := range g.cols {
			if x := g.min[0] + (float64(i)+0.5)*g.size; x >= r.Min[0] && x <= r.Max[0] {
				g.taken[j*g.cols+i] = true
			}
		}
	}
}

// add adds the taken squares up.
func (g *ground) add() {
	wide := g.cols + 1
	if g.sums == nil {
		g.sums = make([]int32, wide*(g.rows+1))
	}
	for j := range g.rows {
		row := int32(0)
		for i := range g.cols {
			if g.taken[j*g.cols+i] {
				row++
			}
			g.sums[(j+1)*wide+i+1] = g.sums[j*wide+i+1] + row
		}
	}
}

// free calls visit with the middles of boxes of a size, in squares that are not taken, whose middles lie in a window.
func (g *ground) free(wide, high float64, window orb.Bound, visit func(orb.Point)) {
	nx, ny := max(1, int(math.Ceil(wide/g.size))), max(1, int(math.Ceil(high/g.size)))
	row := g.cols + 1
	index := func(v float64, most int) int { return max(0, min(most, int(v))) }
	x0, y0 := float64(nx)/2, float64(ny)/2
	for j := index((window.Min[1]-g.min[1])/g.size-y0, g.rows); j+ny <= g.rows &&
		(float64(j)+y0)*g.size+g.min[1] <= window.Max[1]; j++ {
		for i := index((window.Min[0]-g.min[0])/g.size-x0, g.cols); i+nx <= g.cols &&
			(float64(i)+x0)*g.size+g.min[0] <= window.Max[0]; i++ {
			if g.sums[(j+ny)*row+i+nx]-g.sums[j*row+i+nx]-g.sums[(j+ny)*row+i]+g.sums[j*row+i] == 0 {
				visit(orb.Point{g.min[0] + (float64(i)+x0)*g.size, g.min[1] + (float64(j)+y0)*g.size})
			}
		}
	}
}
