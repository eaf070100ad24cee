package recognise

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// line is a mirror or a glide line of one reflection, modulo the lattice.
type line struct {
	glide bool
	at    orb.Point // a point of it, in cell coordinates from the group's origin
}

// cosets are lattice vectors that stand for all classes modulo (1 − w)·lattice, for every w there is.
var cosets = func() (out [][2]int) {
	for x := range 3 {
		for y := range 3 {
			out = append(out, [2]int{x, y})
		}
	}
	return out
}()

// lines returns the lines of operation i, whose matrix w mirrors, with all lattice vectors added. The translation s
// splits into (1+w)·s/2 along the line, a multiple of half the shortest lattice vector e along it, and (1−w)·s/2 across
// it; the line passes through half of that.
func (g group) lines(i int) []line {
	w, n := g.ops[i], len(g.ops)
	e := primitive(unit.plus(w))
	var out []line
	seen := map[int]bool{}
	for _, v := range cosets {
		s := [2]int{g.k[i][0] + n*v[0], g.k[i][1] + n*v[1]} // n-th parts
		across := unit.minus(w).apply(s)
		// What e leaves alone tells parallel lines apart; lattice vectors change it by whole cells.
		place := geometry.Mod(e[0]*across[1]-e[1]*across[0], 4*n)
		if seen[place] {
			continue
		}
		seen[place] = true
		along := unit.plus(w).apply(s) // a multiple of e
		times := (along[0]*e[0] + along[1]*e[1]) / (e[0]*e[0] + e[1]*e[1])
		q := 1 / float64(4*n)
		out = append(out, line{glide: geometry.Mod(times, 2*n) != 0,
			at: orb.Point{q * float64(across[0]), q * float64(across[1])}})
	}
	return out
}

// elements returns all elements of the group, each once modulo the lattice: rotation points by falling order, mirrors,
// glides.
func (g group) elements() []Element {
	out := g.points()
	for i, w := range g.ops {
		if w.det() > 0 {
			continue
		}
		e := primitive(unit.plus(w))
		v := g.basis.at(orb.Point{float64(e[0]), float64(e[1])})
		l := math.Hypot(v[0], v[1])
		v = times(1/l, v)
		if v[1] < 0 || (v[1] == 0 && v[0] < 0) {
			v = times(-1, v)
		}
		for _, s := range g.lines(i) {
			x := Element{Kind: MirrorLine, At: g.inCell(s.at), Along: geometry.Add(v, orb.Point{})}
			if s.glide {
				x.Kind, x.Shift = GlideLine, l/2
			}
			out = append(out, x)
		}
	}

	rank := map[string]int{TurnPoint: 0, MirrorLine: 1, GlideLine: 2}
	slices.SortStableFunc(out, func(a, b Element) int {
		return cmp.Or(rank[a.Kind]-rank[b.Kind], b.Order-a.Order)
	})
	return out
}

// points returns the rotation points. That of x' = w·x + s is the x with (1−w)·x = s; the determinant of 1−w is at most
// four, so all coordinates are twelfths of n-th parts.
func (g group) points() []Element {
	n := len(g.ops)
	order := map[[2]int]int{}
	var places [][2]int
	for i, w := range g.ops {
		if w.det() < 0 || w == unit {
			continue
		}
		m := unit.minus(w)
		inverse := matrix{m[3], -m[1], -m[2], m[0]} // times the determinant
		for _, v := range cosets {
			x := inverse.apply([2]int{g.k[i][0] + n*v[0], g.k[i][1] + n*v[1]})
			f := 12 / m.det()
			at := [2]int{geometry.Mod(f*x[0], 12*n), geometry.Mod(f*x[1], 12*n)}
			if order[at] == 0 {
				places = append(places, at)
			}
			order[at] = max(order[at], orderOf(w))
		}
	}

	out := make([]Element, 0, len(places))
	for _, p := range places {
		q := 1 / float64(12*n)
		out = append(out, Element{Kind: TurnPoint, Order: order[p],
			At: g.inCell(orb.Point{q * float64(p[0]), q * float64(p[1])})})
	}
	return out
}

// inCell returns the place in field mm of cell coordinates from the group's origin, brought into the primitive cell.
func (g group) inCell(x orb.Point) orb.Point {
	x = geometry.Add(x, g.origin)
	for i, v := range x {
		if v -= math.Floor(v); v < fractionSlack || v > 1-fractionSlack {
			v = 0
		}
		x[i] = v
	}
	return geometry.Add(g.basis.at(x), orb.Point{})
}
