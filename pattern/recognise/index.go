package recognise

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// index finds pieces by their centres modulo a lattice: the cell is divided into nx × ny parts, each as wide as
// looseSlack or wider, so that what is near a place lies in its part or in one of those around it.
type index struct {
	basis  basis
	nx, ny int
	parts  [][]int
}

func newIndex(b basis, pieces int) index {
	area := geometry.Cross(b.a, b.b)
	side := math.Ceil(math.Sqrt(float64(pieces)))
	across := func(other orb.Point) int {
		return int(max(1, min(side, math.Floor(area/math.Hypot(other[0], other[1])/looseSlack))))
	}
	ix := index{basis: b, nx: across(b.b), ny: across(b.a)}
	ix.parts = make([][]int, ix.nx*ix.ny)
	return ix
}

// part returns the part of the cell in which a place lies.
func (ix index) part(p orb.Point) (x, y int) {
	c := ix.basis.fraction(p)
	one := func(v float64, n int) int { return min(n-1, int((v-math.Floor(v))*float64(n))) }
	return one(c[0], ix.nx), one(c[1], ix.ny)
}

func (ix index) put(p orb.Point, i int) {
	x, y := ix.part(p)
	ix.parts[y*ix.nx+x] = append(ix.parts[y*ix.nx+x], i)
}

// each calls visit once for every piece put at a place within looseSlack of p, and for some others.
func (ix index) each(p orb.Point, visit func(i int)) {
	x, y := ix.part(p)
	around := func(v, n int) (from, to int) {
		if n < 3 {
			return 0, n - 1
		}
		return v - 1, v + 1
	}
	x0, x1 := around(x, ix.nx)
	y0, y1 := around(y, ix.ny)
	for v := y0; v <= y1; v++ {
		for u := x0; u <= x1; u++ {
			for _, i := range ix.parts[(v+ix.ny)%ix.ny*ix.nx+(u+ix.nx)%ix.nx] {
				visit(i)
			}
		}
	}
}
