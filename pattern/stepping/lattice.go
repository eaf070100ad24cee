package stepping

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// cell is a lattice vector in whole cells.
type cell [2]int

func (c cell) plus(d cell) cell  { return cell{c[0] + d[0], c[1] + d[1]} }
func (c cell) minus(d cell) cell { return cell{c[0] - d[0], c[1] - d[1]} }
func (c cell) times(n int) cell  { return cell{c[0] * n, c[1] * n} }

// lattice is a basis of translations, mm.
type lattice struct{ p, q orb.Point }

// at returns a lattice vector in mm.
func (l lattice) at(c cell) orb.Point {
	x, y := float64(c[0]), float64(c[1])
	return orb.Point{x*l.p[0] + y*l.q[0], x*l.p[1] + y*l.q[1]}
}

// of returns the coordinates of a vector in cells.
func (l lattice) of(v orb.Point) (x, y float64) {
	det := l.p[0]*l.q[1] - l.p[1]*l.q[0]
	return (v[0]*l.q[1] - v[1]*l.q[0]) / det, (l.p[0]*v[1] - l.p[1]*v[0]) / det
}

// whole returns the lattice vector that v is; false when it is none.
func (l lattice) whole(v orb.Point) (cell, bool) {
	x, y := l.of(v)
	i, j := math.Round(x), math.Round(y)
	return cell{int(i), int(j)}, math.Abs(x-i) < latticeSlack && math.Abs(y-j) < latticeSlack
}

// meeting calls visit for every lattice vector that moves box so that it meets the window.
func (l lattice) meeting(window, box orb.Bound, visit func(cell)) {
	lo := orb.Point{window.Min[0] - box.Max[0], window.Min[1] - box.Max[1]}
	hi := orb.Point{window.Max[0] - box.Min[0], window.Max[1] - box.Min[1]}
	if lo[0] > hi[0] || lo[1] > hi[1] {
		return
	}
	x0, y0 := l.of(lo)
	b := orb.Bound{Min: orb.Point{x0, y0}, Max: orb.Point{x0, y0}}
	for _, c := range []orb.Point{hi, {lo[0], hi[1]}, {hi[0], lo[1]}} {
		x, y := l.of(c)
		b = b.Extend(orb.Point{x, y})
	}
	for j := int(math.Ceil(b.Min[1] - latticeSlack)); float64(j) <= b.Max[1]+latticeSlack; j++ {
		for i := int(math.Ceil(b.Min[0] - latticeSlack)); float64(i) <= b.Max[0]+latticeSlack; i++ {
			v := l.at(cell{i, j})
			if v[0] >= lo[0] && v[0] <= hi[0] && v[1] >= lo[1] && v[1] <= hi[1] {
				visit(cell{i, j})
			}
		}
	}
}

// turned returns the lattice under a map's linear part.
func (l lattice) turned(m geometry.Map) lattice {
	return lattice{m.Vector(l.p), m.Vector(l.q)}
}

// steps are the translations from one place of the sheet to the next: a sublattice, by a short basis in cells.
type steps struct {
	u, v    cell
	a, b, d int // a, b over 0, d: the same sublattice in triangular form
}

// newSteps returns the sublattice of two vectors, with its shortest basis.
func newSteps(l lattice, u, v cell) steps {
	length := func(c cell) float64 { p := l.at(c); return p[0]*p[0] + p[1]*p[1] }
	// Lagrange's reduction; each round shortens the longer vector, so it ends, and a hundred is far more than it takes.
	for range 100 {
		if length(u) > length(v) {
			u, v = v, u
		}
		p, q := l.at(u), l.at(v)
		n := int(math.Round((p[0]*q[0] + p[1]*q[1]) / length(u)))
		w := v.minus(u.times(n))
		if n == 0 || length(w) >= length(v)*(1-1e-12) {
			break
		}
		v = w
	}

	// u runs to the right and v to its left, for a map that reads as it lies.
	if p := l.at(u); p[0] < -1e-9 || math.Abs(p[0]) <= 1e-9 && p[1] < 0 {
		u = u.times(-1)
	}
	p, q := l.at(u), l.at(v)
	if p[0]*q[1]-p[1]*q[0] < 0 {
		v = v.times(-1)
	}
	s := steps{u: u, v: v}
	r, t := u, v
	for r[0] != 0 { // Euclid on the first numbers
		n := t[0] / r[0]
		r, t = t.minus(r.times(n)), r
	}
	if t[0] < 0 {
		t = t.times(-1)
	}
	s.a, s.b, s.d = t[0], t[1], max(r[1], -r[1])
	return s
}

// count returns how many cells the sublattice's cell holds.
func (s steps) count() int { return s.a * s.d }

// residue returns which of them a cell is.
func (s steps) residue(c cell) cell {
	n := floorDiv(c[0], s.a)
	c = c.minus(cell{s.a, s.b}.times(n))
	return cell{c[0], c[1] - s.d*floorDiv(c[1], s.d)}
}

// of returns a vector of the sublattice in steps along u and v.
func (s steps) of(c cell) cell {
	det := s.u[0]*s.v[1] - s.u[1]*s.v[0]
	return cell{(c[0]*s.v[1] - c[1]*s.v[0]) / det, (s.u[0]*c[1] - s.u[1]*c[0]) / det}
}

// to returns so many steps along u and v as cells.
func (s steps) to(c cell) cell { return s.u.times(c[0]).plus(s.v.times(c[1])) }

func floorDiv(a, b int) int {
	q := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		q--
	}
	return q
}

// sides returns a translation lattice of the layout and the cell's sides in it. In a centred group two copies in a cell
// are translates of each other, so that the lattice is twice as fine when every copy has such a fellow.
func sides(l *pattern.Layout) (fine lattice, a, b cell) {
	if l.Group.Centred {
		half := orb.Point{(l.A[0] + l.B[0]) / 2, (l.A[1] + l.B[1]) / 2}
		fine = lattice{half, orb.Point{(l.B[0] - l.A[0]) / 2, (l.B[1] - l.A[1]) / 2}}
		if fellows(l, fine) {
			return fine, cell{1, -1}, cell{1, 1}
		}
	}
	return lattice{l.A, l.B}, cell{1, 0}, cell{0, 1}
}

// fellows reports whether each image has exactly one other that the lattice's vectors between the cell's corners carry
// it to.
func fellows(l *pattern.Layout, fine lattice) bool {
	for _, o := range l.Orbits {
		for i, p := range o.Images {
			n := 0
			for j, q := range o.Images {
				if i == j || p.Shape != q.Shape {
					continue
				}
				if c, ok := fine.whole(orb.Point{q.At[0] - p.At[0], q.At[1] - p.At[1]}); ok && (c[0]+c[1])%2 != 0 {
					n++
				}
			}
			if n != 1 {
				return false
			}
		}
	}
	return true
}
