package subgroups

import "math/bits"

// lattice is a sublattice of Z² with the basis (across, up), (0, high), 0 ≤ up < high: each has one such basis, its
// Hermite normal form. Its index is across·high.
type lattice struct{ across, up, high int16 }

// reduced returns the vector of the class of v modulo the lattice that lies in [0, across) × [0, high).
func (l lattice) reduced(v vector) vector {
	n := floorDiv(v[0], int(l.across))
	v[0] -= n * int(l.across)
	v[1] -= n * int(l.up)
	v[1] -= floorDiv(v[1], int(l.high)) * int(l.high)
	return v
}

func (l lattice) index() int { return int(l.across) * int(l.high) }

func (l lattice) has(v vector) bool { return l.reduced(v) == vector{} }

func (l lattice) basis() (u, v vector) {
	return vector{int(l.across), int(l.up)}, vector{0, int(l.high)}
}

// image returns the lattice that a matrix of determinant ±1 makes of this one.
func (l lattice) image(m matrix) lattice {
	u, v := l.basis()
	u, v = m.of(u), m.of(v)
	for v[0] != 0 { // Euclid on the first numbers
		u, v = v, u.minus(v.times(u[0]/v[0]))
	}
	if u[0] < 0 {
		u = u.times(-1)
	}
	high := max(v[1], -v[1])
	return lattice{int16(u[0]), int16(u[1] - floorDiv(u[1], high)*high), int16(high)}
}

func floorDiv(a, n int) int {
	q := a / n
	if a%n < 0 {
		q--
	}
	return q
}

// subgroup is a subgroup of finite index: the operations of the crystal whose place p is a member and whose translation
// is the crystal's own, t[p], and shift[p], and a vector of the lattice. Shifts are reduced, and those of places that
// are no members nothing, so that equal subgroups are equal values.
type subgroup struct {
	lattice lattice
	members uint16
	shift   [maxOrder][2]int8
}

func (h *subgroup) order() int               { return bits.OnesCount16(h.members) }
func (h *subgroup) contains(p int) bool      { return h.members>>p&1 == 1 }
func (h *subgroup) shiftOf(p int) vector     { return vector{int(h.shift[p][0]), int(h.shift[p][1])} }
func (h *subgroup) setShift(p int, v vector) { h.shift[p] = [2]int8{int8(v[0]), int8(v[1])} }

// has says whether a subgroup holds an operation of the crystal.
func (c *crystal) has(h *subgroup, x element) bool {
	return h.contains(x.p) && h.lattice.has(whole(x.t.minus(c.t[x.p])).minus(h.shiftOf(x.p)))
}

// whole returns a vector of whole cells given in ticks.
func whole(v vector) vector { return vector{v[0] / ticks, v[1] / ticks} }

// subgroups returns all subgroups of index k: for each part of the point group, of index i there, the sublattices of
// index k/i that it keeps, with each way to give its generators translations modulo the sublattice that fit together.
func (c *crystal) subgroups(k int) []subgroup {
	var out []subgroup
	for _, part := range c.pointGroups() {
		i := len(c.w) / part.order()
		if k%i != 0 {
			continue
		}
		for _, l := range sublattices(k / i) {
			if c.keeps(part, l) {
				out = c.extensions(out, part, l)
			}
		}
	}
	return out
}

// sublattices returns those of index n.
func sublattices(n int) []lattice {
	var out []lattice
	for across := 1; across <= n; across++ {
		if n%across != 0 {
			continue
		}
		for up := range n / across {
			out = append(out, lattice{int16(across), int16(up), int16(n / across)})
		}
	}
	return out
}

// keeps says whether a part of the point group carries a lattice to itself.
func (c *crystal) keeps(part pointGroup, l lattice) bool {
	u, v := l.basis()
	for _, p := range part.generators {
		if !l.has(c.w[p].of(u)) || !l.has(c.w[p].of(v)) {
			return false
		}
	}
	return true
}

// extensions adds the subgroups with the given point group and lattice.
func (c *crystal) extensions(out []subgroup, part pointGroup, l lattice) []subgroup {
	classes := l.index()
	ways := 1
	for range part.generators {
		ways *= classes
	}
	for way := range ways {
		// The digits of way say which class each generator's translation is moved on by.
		var chosen [2]vector // for each generator
		for i := range part.generators {
			n := way % classes
			way /= classes
			chosen[i] = vector{n / int(l.high), n % int(l.high)}
		}
		if h, ok := c.extension(part, l, chosen); ok {
			out = append(out, h)
		}
	}
	return out
}

// extension returns the subgroup that the lattice and the generators, moved on by the chosen vectors, give; false when
// they give more translations than the lattice has. What the generators make of each member, from the left, must be the
// member that is due: then the set is closed.
func (c *crystal) extension(part pointGroup, l lattice, chosen [2]vector) (subgroup, bool) {
	h := subgroup{lattice: l, members: 1}
	found := [maxOrder]int{} // found[0] is the unit
	count := 1
	for i := 0; i < count; i++ {
		p := found[i]
		for j, g := range part.generators {
			x := c.after(c.moved(g, chosen[j]), c.moved(p, h.shiftOf(p)))
			s := l.reduced(whole(x.t.minus(c.t[x.p])))
			if !h.contains(x.p) {
				h.members |= 1 << x.p
				h.setShift(x.p, s)
				found[count] = x.p
				count++
			} else if h.shiftOf(x.p) != s {
				return h, false
			}
		}
	}
	return h, true
}
