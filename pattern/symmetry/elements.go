package symmetry

import (
	"cmp"
	"slices"

	"openwork/geometry"
)

// Kind says what a symmetry element is.
type Kind string

// The three kinds of symmetry element a plane group has.
const (
	Turn   Kind = "turn"
	Mirror Kind = "mirror"
	Glide  Kind = "glide"
)

// Element is a mirror line, a glide line or a rotation point of a group, in cell coordinates: x along a, y along b, one
// cell long each. It stands for itself and for all its images under the translations of the conventional cell.
type Element struct {
	Kind  Kind
	Order int         // of a rotation point: 2, 3, 4 or 6, the highest there; 0 for lines
	At    [2]Fraction // the point, or a point of the line, in [0, 1)
	// of a line: its primitive lattice direction, the first number that is not 0 positive; 0, 0 for points
	Along [2]int
	// of a glide: the smallest translation along Along that goes with the reflection; 0, 0 otherwise
	Shift    [2]Fraction
	Class    int  // elements carried into each other by the group share it; from 0 within one kind and order
	OnMirror bool // of a rotation point: it lies on a mirror
}

// step is an operation with its translation in whole ticks, see fineness.
type step struct {
	w [2][2]int
	t [2]int
}

// mark is an element in ticks: a point at at, or the line of the points p with across(along, p) = offset.
type mark struct {
	kind   Kind
	order  int
	at     [2]int // of a turn only
	along  [2]int
	offset int
	shift  int // of a line: the translation along it is shift/unit · along
	class  int
}

// fineness returns how many ticks a cell's side is divided into, so that every element lies at whole ticks. A rotation
// point is a translation divided by det(1 − W), which is 1, 2, 3 or 4; a line's offset and a glide's shift are halves
// and quarters of one. Twelve times the common denominator of the translations serves all of these.
func (g Group) fineness() int {
	common := 1
	for _, op := range g.Ops {
		for _, t := range op.T {
			common *= t.Den / geometry.GCD(common, t.Den)
		}
	}
	return 12 * common
}

// Elements returns every symmetry element of one conventional cell, once modulo the cell's translations, computed from
// the operations: rotation points first, the highest order first, then mirrors, then glides. A line that is a mirror is
// not listed as a glide too. The order is always the same.
func (g Group) Elements() []Element {
	marks, unit := g.marks()
	out := make([]Element, len(marks))
	none := [2]Fraction{Frac(0, 1), Frac(0, 1)}
	for i, m := range marks {
		e := Element{Kind: m.kind, Order: m.order, Along: m.along, Shift: none, Class: m.class}
		switch {
		case m.kind == Turn:
			e.At = [2]Fraction{Frac(m.at[0], unit), Frac(m.at[1], unit)}
			e.OnMirror = slices.ContainsFunc(marks,
				func(l mark) bool { return l.kind == Mirror && l.holds(m.at, unit) })
		case m.along[0] == 0:
			e.At = [2]Fraction{Frac(-m.offset, unit).Mod1(), Frac(0, 1)}
		default:
			e.At = [2]Fraction{Frac(0, 1), Frac(m.offset, unit*m.along[0])}
		}
		if m.kind == Glide {
			e.Shift = [2]Fraction{Frac(m.shift*m.along[0], unit), Frac(m.shift*m.along[1], unit)}
		}
		out[i] = e
	}
	return out
}

// across returns the cross product u × p: for a primitive u it tells the lines along u apart, and takes every whole
// number on the lattice, so that lines are the same modulo the lattice when it is the same modulo one cell.
func across(u, p [2]int) int { return u[0]*p[1] - u[1]*p[0] }

// holds says whether a line, or one of its images under the cell's translations, goes through the point at.
func (m mark) holds(at [2]int, unit int) bool {
	return geometry.Mod(across(m.along, at)-m.offset, unit) == 0
}

// marks returns the group's elements in ticks, sorted and with their classes, and the ticks in a cell's side.
func (g Group) marks() ([]mark, int) {
	unit := g.fineness()
	steps := make([]step, len(g.Ops))
	out := make([]mark, 0, 32) // p6mm has 18
	for i, op := range g.Ops {
		s := step{w: op.W}
		for k, t := range op.T {
			s.t[k] = t.Num * (unit / t.Den)
		}
		steps[i] = s
		switch trace := s.w[0][0] + s.w[1][1]; {
		case op.Det() < 0:
			out = s.lines(out, unit)
		case trace < 2:
			out = s.points(out, unit, 2-trace)
		}
	}
	slices.SortFunc(out, compareMarks)
	classify(out, steps, unit)
	return out, unit
}

// points adds the fixed points of a rotation and its translates; det is det(1 − W). A point that is there already keeps
// the higher order.
func (s step) points(out []mark, unit, det int) []mark {
	order := [5]int{1: 6, 2: 4, 3: 3, 4: 2}[det]
	// x = W·x + t + n gives x = adj(1 − W)·(t + n) / det, and n matters only modulo det.
	for n := range det * det {
		t := [2]int{s.t[0] + n/det*unit, s.t[1] + n%det*unit}
		at := [2]int{
			geometry.Mod(((1-s.w[1][1])*t[0]+s.w[0][1]*t[1])/det, unit),
			geometry.Mod((s.w[1][0]*t[0]+(1-s.w[0][0])*t[1])/det, unit),
		}
		i := slices.IndexFunc(out, func(m mark) bool { return m.order > 0 && m.at == at })
		if i < 0 {
			out = append(out, mark{kind: Turn, order: order, at: at})
		} else {
			out[i].order = max(out[i].order, order)
		}
	}
	return out
}

// lines adds the lines of a reflection or glide and of its translates. A line that is there already keeps the smaller
// translation, and is a mirror when that is nothing.
func (s step) lines(out []mark, unit int) []mark {
	u, k := s.direction()
	// A reflection W splits t into (t + W·t)/2 along the line and (t − W·t)/2 across it, which moves the line by half
	// of it: its offset is half of u × t. Both repeat when n changes by 4 cells.
	for n := range 16 {
		t := [2]int{s.t[0] + n/4*unit, s.t[1] + n%4*unit}
		offset := geometry.Mod(across(u, t)/2, unit)
		shift := geometry.Mod((t[k]+s.w[k][0]*t[0]+s.w[k][1]*t[1])/(2*u[k]), unit)
		i := slices.IndexFunc(out, func(m mark) bool { return m.offset == offset && m.along == u })
		if i < 0 {
			i = len(out)
			out = append(out, mark{kind: Glide, along: u, offset: offset, shift: shift})
		}
		out[i].shift = min(out[i].shift, shift)
		if out[i].shift == 0 {
			out[i].kind = Mirror
		}
	}
	return out
}

// direction returns the primitive direction that a reflection W keeps, and the place of a number in it that is not 0.
// Every column of 1 + W is a multiple of it, and they are not both 0.
func (s step) direction() (u [2]int, k int) {
	u = [2]int{1 + s.w[0][0], s.w[1][0]}
	if u == [2]int{} {
		u = [2]int{s.w[0][1], 1 + s.w[1][1]}
	}
	d := geometry.GCD(u[0], u[1])
	u, _ = upright([2]int{u[0] / d, u[1] / d})
	if u[0] == 0 {
		k = 1
	}
	return u, k
}

// upright returns u or −u, whichever has its first number that is not 0 positive, and the sign it took.
func upright(u [2]int) ([2]int, int) {
	if u[0] < 0 || (u[0] == 0 && u[1] < 0) {
		return [2]int{-u[0], -u[1]}, -1
	}
	return u, 1
}

// compareMarks sorts: turns, mirrors, glides; high orders first, short directions first, then by place.
func compareMarks(m, n mark) int {
	long := func(u [2]int) int { return max(u[0], -u[0]) + max(u[1], -u[1]) }
	if m.kind != n.kind {
		return cmp.Compare(n.kind, m.kind) // the words happen to be in the alphabet's order backwards
	}
	return cmp.Or(n.order-m.order, long(m.along)-long(n.along), n.along[0]-m.along[0], n.along[1]-m.along[1],
		m.at[0]-n.at[0], m.at[1]-n.at[1], m.offset-n.offset)
}

// classify numbers the classes of elements that the operations carry into each other, in the order they come; marks are
// sorted, so that those of one kind and order stand together.
func classify(marks []mark, steps []step, unit int) {
	done := make([]bool, len(marks))
	class := 0
	for i, m := range marks {
		if i > 0 && (m.kind != marks[i-1].kind || m.order != marks[i-1].order) {
			class = 0
		}
		if done[i] {
			continue
		}
		for _, s := range steps {
			image := s.carry(m, unit)
			j := slices.IndexFunc(marks, image.same)
			if j >= 0 { // always, in a group
				done[j], marks[j].class = true, class
			}
		}
		class++
	}
}

// same says whether two marks are the same point or line.
func (m mark) same(n mark) bool {
	return m.at == n.at && m.offset == n.offset && m.along == n.along && m.order == n.order
}

// carry returns the image of an element under an operation.
func (s step) carry(m mark, unit int) mark {
	apply := func(p, t [2]int) [2]int {
		return [2]int{s.w[0][0]*p[0] + s.w[0][1]*p[1] + t[0], s.w[1][0]*p[0] + s.w[1][1]*p[1] + t[1]}
	}
	if m.kind == Turn {
		m.at = apply(m.at, s.t)
		m.at = [2]int{geometry.Mod(m.at[0], unit), geometry.Mod(m.at[1], unit)}
		return m
	}
	// u × p = offset becomes W·u × (p − t) = det W · offset.
	u, sign := upright(apply(m.along, [2]int{}))
	det := s.w[0][0]*s.w[1][1] - s.w[0][1]*s.w[1][0]
	m.offset = geometry.Mod(sign*det*m.offset+across(u, s.t), unit)
	m.along = u
	return m
}
