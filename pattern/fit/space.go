package fit

import (
	"math"
	"math/rand/v2"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/symmetry"
)

// A configuration is a vector of mm and radians: the cell's sides (a, 0) and (b across, b up), the clearance that is
// kept, and for each motif the place of its body's middle and its turn.
const (
	sideA = iota
	acrossB
	upB
	clearance
	perField // what comes before the motifs
	perMotif = 3
	sides    = 3 // numbers that give the cell
)

// space says which configurations are looked at: base and every sum of the free directions. A group's operations keep
// their linear parts whatever the cell, and carry points by sums of its sides, so that copies move linearly with all
// unknowns but the turns.
type space struct {
	group   symmetry.Group
	columns [][2]orb.Point // of each operation, the two columns of its linear part in mm
	moves   [][2]float64   // of each operation, its translation in cell coordinates
	motifs  int
	base    []float64
	free    [][]float64  // directions, each scaled so that a unit moves what it moves by about 1 mm
	moved   [][]moved    // of each of free, the numbers that are not zero; see list
	apart   map[own]bool // what is not held against each other: a motif and itself
}

// own names an operation, moved on by cells, that gives a motif itself again.
type own struct{ motif, op, m, n int }

// newSpace returns the space of a group with nothing free yet.
func newSpace(g symmetry.Group, motifs int) *space {
	s := &space{group: g, motifs: motifs, apart: map[own]bool{}, base: make([]float64, perField+perMotif*motifs)}
	basis := unitCell(g).Basis()
	back, _ := basis.Inverse()
	for _, op := range g.Ops {
		m := basis.After(linearPart(op)).After(back)
		s.columns = append(s.columns, [2]orb.Point{{tidy(m.A), tidy(m.C)}, {tidy(m.B), tidy(m.D)}})
		s.moves = append(s.moves, [2]float64{op.T[0].Float(), op.T[1].Float()})
	}
	return s
}

// unitCell returns a cell of the group's system with sides of 1 mm, its angle a right one where it is free.
func unitCell(g symmetry.Group) symmetry.Cell {
	if g.System == symmetry.Hexagonal {
		return symmetry.Cell{A: 1, B: 1, Gamma: 120}
	}
	return symmetry.Cell{A: 1, B: 1, Gamma: 90}
}

func linearPart(op symmetry.Op) geometry.Map {
	w := op.W
	return geometry.Map{A: float64(w[0][0]), B: float64(w[0][1]), C: float64(w[1][0]), D: float64(w[1][1])}
}

// tidy returns v without the rounding of a number that is −1, −1/2, 0, 1/2 or 1.
func tidy(v float64) float64 {
	if h := math.Round(2*v) / 2; math.Abs(v-h) < 1e-12 {
		return h
	}
	return v
}

// moved is a number of a configuration that a free direction moves, and by how much.
type moved struct {
	index int
	by    float64
}

// list lists what the free directions move, once all are free.
func (s *space) list() {
	s.moved = nil
	for _, f := range s.free {
		var row []moved
		for i, v := range f {
			if v != 0 {
				row = append(row, moved{i, v})
			}
		}
		s.moved = append(s.moved, row)
	}
}

// let frees a direction given by pairs of index and value.
func (s *space) let(pairs ...float64) {
	d := make([]float64, len(s.base))
	for k := 0; k+1 < len(pairs); k += 2 {
		d[int(pairs[k])] = pairs[k+1]
	}
	s.free = append(s.free, d)
}

// place returns the index of a motif's first number.
func place(motif int) int { return perField + perMotif*motif }

// area returns the area of a configuration's cell in mm².
func area(y []float64) float64 { return y[sideA] * y[upB] }

// stray moves y along each free direction by up to size, either way. fixed are numbers that stay, with whatever goes
// along with them.
func (s *space) stray(y []float64, size float64, rng *rand.Rand, fixed ...int) {
	for _, d := range s.free {
		if slices.ContainsFunc(fixed, func(i int) bool { return d[i] != 0 }) {
			continue
		}
		amount := size * 2 * (rng.Float64() - 0.5)
		for i, v := range d {
			y[i] += amount * v
		}
	}
}

// apply adds to y the free directions in the amounts given.
func (s *space) apply(y, amounts, into []float64) []float64 {
	into = append(into[:0], y...)
	for k, v := range amounts {
		for i, d := range s.free[k] {
			into[i] += v * d
		}
	}
	return into
}

// freeCell frees what the group's system leaves free of the cell.
func (s *space) freeCell() {
	switch s.group.System {
	case symmetry.Oblique:
		s.let(sideA, 1)
		s.let(acrossB, 1)
		s.let(upB, 1)
	case symmetry.Rectangular:
		s.let(sideA, 1)
		s.let(upB, 1)
	case symmetry.Square:
		s.let(sideA, 1, upB, 1)
	case symmetry.Hexagonal:
		s.let(sideA, 1, acrossB, -0.5, upB, math.Sqrt(3)/2)
	}
}

// images calls with how far the middles of the copies of motif j lie from that of motif i, for all that may be the
// nearest.
func (s *space) images(y []float64, i, j int, each func(far float64)) {
	const around = 2
	at, of := place(i), place(j)
	for op, c := range s.columns {
		x := c[0][0]*y[of] + c[1][0]*y[of+1] + s.moves[op][0]*y[sideA] + s.moves[op][1]*y[acrossB] - y[at]
		up := c[0][1]*y[of] + c[1][1]*y[of+1] + s.moves[op][1]*y[upB] - y[at+1]
		n0 := -int(math.Round(up / y[upB]))
		m0 := -int(math.Round((x + float64(n0)*y[acrossB]) / y[sideA]))
		for m := m0 - around; m <= m0+around; m++ {
			for n := n0 - around; n <= n0+around; n++ {
				if i == j && (op == 0 && m == 0 && n == 0 || s.apart[own{i, op, m, n}]) {
					continue
				}
				dx := x + float64(m)*y[sideA] + float64(n)*y[acrossB]
				dy := up + float64(n)*y[upB]
				each(math.Sqrt(dx*dx + dy*dy))
			}
		}
	}
}
