package subgroups

import (
	"math/bits"

	"openwork/pattern/symmetry"
)

// ticks is how many parts a side of the primitive cell is divided into. Translations of the groups are halves, and
// those of their normalisers at most fourths and thirds: (1−W)·v is a half, and det(1−W) is 1, 2, 3 or 4 for a turn.
const ticks = 12

// maxOrder is the order of the largest point group.
const maxOrder = 12

type vector [2]int

func (v vector) plus(w vector) vector  { return vector{v[0] + w[0], v[1] + w[1]} }
func (v vector) minus(w vector) vector { return vector{v[0] - w[0], v[1] - w[1]} }
func (v vector) times(n int) vector    { return vector{n * v[0], n * v[1]} }

// matrix has the rows (m[0], m[1]) and (m[2], m[3]).
type matrix [4]int

var unit = matrix{1, 0, 0, 1}

func (m matrix) det() int { return m[0]*m[3] - m[1]*m[2] }

func (m matrix) of(v vector) vector { return vector{m[0]*v[0] + m[1]*v[1], m[2]*v[0] + m[3]*v[1]} }

func (m matrix) after(n matrix) matrix {
	return matrix{m[0]*n[0] + m[1]*n[2], m[0]*n[1] + m[1]*n[3], m[2]*n[0] + m[3]*n[2], m[2]*n[1] + m[3]*n[3]}
}

// inverse is for matrices of determinant ±1.
func (m matrix) inverse() matrix {
	d := m.det()
	return matrix{d * m[3], -d * m[1], -d * m[2], d * m[0]}
}

// crystal is a plane group over its primitive lattice, Z²: the matrices of its point group, the unit first, and with
// each the translation of one operation, in ticks.
type crystal struct {
	w   []matrix
	t   []vector
	mul [maxOrder][maxOrder]int // place of w[i]·w[j]
	inv [maxOrder]int
	// generators are places in w; between them they give all of it
	generators []int
	centred    bool
}

// newCrystal takes a centred cell's lattice from its basis (1/2, 1/2), (−1/2, 1/2).
func newCrystal(g symmetry.Group) *crystal {
	c := &crystal{centred: g.Centred}
	for _, op := range g.Ops[:g.Order] {
		w, t := c.primitive(op)
		c.w, c.t = append(c.w, w), append(c.t, t)
	}
	for i, u := range c.w {
		for j, v := range c.w {
			k := c.place(u.after(v))
			c.mul[i][j] = k
			if k == 0 {
				c.inv[i] = j
			}
		}
	}
	for _, p := range c.pointGroups() {
		if p.order() == len(c.w) {
			c.generators = p.generators
		}
	}
	return c
}

// primitive returns an operation's matrix over the primitive lattice, and its translation there in ticks.
func (c *crystal) primitive(op symmetry.Op) (matrix, vector) {
	w := matrix{op.W[0][0], op.W[0][1], op.W[1][0], op.W[1][1]}
	t := vector{op.T[0].Num * (ticks / op.T[0].Den), op.T[1].Num * (ticks / op.T[1].Den)}
	if !c.centred {
		return w, t
	}
	// The basis's columns are halves of (1, 1) and (−1, 1); to is its inverse.
	to, from := matrix{1, 1, -1, 1}, matrix{1, -1, 1, 1}
	w = to.after(w).after(from)
	return matrix{w[0] / 2, w[1] / 2, w[2] / 2, w[3] / 2}, to.of(t)
}

// place returns where a matrix stands in w; −1 when it is not of the point group.
func (c *crystal) place(m matrix) int {
	for i, w := range c.w {
		if w == m {
			return i
		}
	}
	return -1
}

// element is an operation: a place in the point group and its whole translation in ticks.
type element struct {
	p int
	t vector
}

// moved returns the operation at a place, moved on by a vector of whole cells.
func (c *crystal) moved(p int, v vector) element { return element{p, c.t[p].plus(v.times(ticks))} }

func (c *crystal) after(x, y element) element {
	return element{c.mul[x.p][y.p], x.t.plus(c.w[x.p].of(y.t))}
}

func (c *crystal) inverse(x element) element {
	p := c.inv[x.p]
	return element{p, c.w[p].of(x.t).times(-1)}
}

// pointGroup is a part of the point group that is a group itself.
type pointGroup struct {
	members    uint16 // a bit for each place in w
	generators []int  // two at most: none of the point groups of the plane, nor what is in them, needs more
}

func (p pointGroup) order() int { return bits.OnesCount16(p.members) }

// pointGroups returns all of them, each with as few generators as it needs.
func (c *crystal) pointGroups() []pointGroup {
	var out []pointGroup
	seen := map[uint16]bool{}
	add := func(generators ...int) {
		members := c.closure(generators)
		if !seen[members] {
			seen[members] = true
			out = append(out, pointGroup{members, generators})
		}
	}
	add()
	for i := range c.w {
		add(i)
	}
	for i := range c.w {
		for j := range i {
			add(j, i)
		}
	}
	return out
}

// closure returns the places that some places give by multiplication.
func (c *crystal) closure(generators []int) uint16 {
	members, found := uint16(1), []int{0}
	for i := 0; i < len(found); i++ {
		for _, g := range generators {
			if p := c.mul[g][found[i]]; members>>p&1 == 0 {
				members |= 1 << p
				found = append(found, p)
			}
		}
	}
	return members
}
