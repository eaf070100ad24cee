package desk

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/pattern/symmetry"
)

// Sign is a symmetry element to draw, in CSS px: a line from A to B, or a rotation point at A.
type Sign struct {
	Kind    symmetry.Kind
	Order   int // of a rotation point
	A, B    orb.Point
	Current bool // the one that is spoken of
	element int
}

const (
	// signRoomPX is how long a cell's shorter side must be on the canvas, in CSS px, for the signs to cover the whole
	// field; in smaller cells they would hide it, and only the cell with the handles has them.
	signRoomPX = 72.0
	// signPX is how near a pointer must come to a sign to read it.
	signPX = 9.0
	// mostSigns bounds what is drawn.
	mostSigns = 4000
)

// Signs returns the mirrors, glides and rotation points to draw, none while they are switched off.
func (k *Desk) Signs() []Sign {
	l := k.layout
	if !k.signs || l == nil {
		return nil
	}
	toCanvas := k.View.Map().After(l.Draft.FieldMap())
	basis := l.Cell.Basis()
	at := func(x, y float64) orb.Point { return toCanvas.Apply(basis.Apply(orb.Point{x, y})) }
	small := math.Min(l.Cell.A, l.Cell.B)*k.View.Zoom < signRoomPX
	var out []Sign
	seen := map[[2]int]bool{}
	k.signCells(small, func(m, n int) bool {
		for i, e := range k.elements() {
			x, y := e.At[0].Float()+float64(m), e.At[1].Float()+float64(n)
			s := Sign{Kind: e.Kind, Order: e.Order, Current: i == k.sign, element: i}
			if e.Kind == symmetry.Turn {
				if small && (m != 0 || n != 0) {
					continue // the neighbours are gone through for their lines
				}
				s.A = at(x, y)
				s.B = s.A
				out = append(out, k.around(s, small, at, x-float64(m), y-float64(n))...)
				continue
			}
			// Translates along the line are the same line.
			line := [2]int{i, e.Along[0]*n - e.Along[1]*m}
			if seen[line] {
				continue
			}
			seen[line] = true
			p, q := at(x, y), at(x+float64(e.Along[0]), y+float64(e.Along[1]))
			var ok bool
			if s.A, s.B, ok = k.clipSign(p, q, small); ok {
				out = append(out, s)
			}
		}
		return len(out) < mostSigns
	})
	return out
}

// around returns a rotation point of the one cell that has signs together with its images on the cell's other sides.
func (k *Desk) around(s Sign, small bool, at func(x, y float64) orb.Point, x, y float64) []Sign {
	if !small {
		if b := k.signBound(false); b.Contains(s.A) {
			return []Sign{s}
		}
		return nil
	}
	out := []Sign{s}
	for _, v := range [][2]float64{{1, 0}, {0, 1}, {1, 1}} {
		if (v[0] == 1 && x != 0) || (v[1] == 1 && y != 0) {
			continue
		}
		t := s
		t.A = at(x+v[0], y+v[1])
		t.B = t.A
		out = append(out, t)
	}
	return out
}

// signCells calls do for the cells whose signs are drawn.
func (k *Desk) signCells(small bool, do func(m, n int) bool) {
	if small {
		for m := -1; m <= 1; m++ { // lines of the neighbours may cross the cell
			for n := -1; n <= 1; n++ {
				if !do(m, n) {
					return
				}
			}
		}
		return
	}
	l := k.layout
	back := l.Draft.FieldMap().Rigid()
	w, f := k.View.Window(), l.Draft.FieldBound()
	b := orb.Bound{Min: orb.Point{math.Max(w.Min[0], f.Min[0]), math.Max(w.Min[1], f.Min[1])},
		Max: orb.Point{math.Min(w.Max[0], f.Max[0]), math.Min(w.Max[1], f.Max[1])}}
	if b.Min[0] >= b.Max[0] || b.Min[1] >= b.Max[1] {
		return
	}
	field := orb.Bound{Min: back.Apply(b.Min), Max: back.Apply(b.Min)}
	for _, p := range []orb.Point{b.Max, {b.Min[0], b.Max[1]}, {b.Max[0], b.Min[1]}} {
		field = field.Extend(back.Apply(p))
	}
	cell := orb.Bound{}.Extend(l.A).Extend(l.B).Extend(l.Lattice(1, 1))
	l.Cells(field, cell, do)
}

// signBound is where signs are drawn, in CSS px: the field as far as it is seen.
func (k *Desk) signBound(small bool) orb.Bound {
	m := k.View.Map()
	f := k.Draft().FieldBound()
	if small {
		h := k.Handles()
		return orb.Bound{Min: h.Origin, Max: h.Origin}.Extend(h.A).Extend(h.B).Extend(h.Far)
	}
	b := orb.Bound{Min: m.Apply(f.Min), Max: m.Apply(f.Min)}.Extend(m.Apply(f.Max))
	b.Min = orb.Point{math.Max(b.Min[0], RulerLeft), math.Max(b.Min[1], RulerTop)}
	b.Max = orb.Point{math.Min(b.Max[0], k.View.Width), math.Min(b.Max[1], k.View.Height)}
	return b
}

// clipSign cuts the line through p and q to where signs are drawn: the cell's parallelogram, or the field.
func (k *Desk) clipSign(p, q orb.Point, small bool) (a, b orb.Point, ok bool) {
	var corners []orb.Point
	if small {
		h := k.Handles()
		corners = []orb.Point{h.Origin, h.A, h.Far, h.B}
	} else {
		r := k.signBound(false)
		if r.Min[0] >= r.Max[0] || r.Min[1] >= r.Max[1] {
			return p, q, false
		}
		corners = []orb.Point{r.Min, {r.Max[0], r.Min[1]}, r.Max, {r.Min[0], r.Max[1]}}
	}
	d := orb.Point{q[0] - p[0], q[1] - p[1]}
	lo, hi := math.Inf(-1), math.Inf(1)
	turn := 0.0
	for i := range corners {
		u, v := corners[i], corners[(i+1)%4]
		turn += u[0]*v[1] - u[1]*v[0]
	}
	for i := range corners {
		u, v := corners[i], corners[(i+1)%4]
		nx, ny := -(v[1] - u[1]), v[0]-u[0] // points inward when the corners run with turn > 0
		if turn < 0 {
			nx, ny = -nx, -ny
		}
		side, rate := (p[0]-u[0])*nx+(p[1]-u[1])*ny, d[0]*nx+d[1]*ny
		slack := 1e-6 * math.Hypot(nx, ny) // a line along the edge belongs to it
		switch {
		case math.Abs(rate) < 1e-9*math.Hypot(nx, ny):
			if side < -slack {
				return p, q, false
			}
		case rate > 0:
			lo = math.Max(lo, -side/rate)
		default:
			hi = math.Min(hi, -side/rate)
		}
	}
	if !(hi-lo > 1e-6) || math.IsInf(hi-lo, 0) {
		return p, q, false
	}
	return orb.Point{p[0] + lo*d[0], p[1] + lo*d[1]}, orb.Point{p[0] + hi*d[0], p[1] + hi*d[1]}, true
}

// elements returns the group's elements, kept while the group stays.
func (k *Desk) elements() []symmetry.Element {
	g := k.layout.Group
	if k.elementsOf != g.Symbol {
		k.elementsOf, k.elementList = g.Symbol, g.Elements()
	}
	return k.elementList
}

// Unit returns the corners, in CSS px, of the asymmetric unit of the cell with the handles, nil while signs are off.
func (k *Desk) Unit() []orb.Point {
	l := k.layout
	if !k.signs || l == nil {
		return nil
	}
	m := k.View.Map().After(l.Draft.FieldMap()).After(l.Cell.Basis())
	var out []orb.Point
	for _, p := range l.Group.AsymmetricUnit() {
		out = append(out, m.Apply(orb.Point{p[0].Float(), p[1].Float()}))
	}
	return out
}

// signAt returns the element whose sign lies under a canvas point, points before lines; −1 when there is none.
func (k *Desk) signAt(p orb.Point, reach float64) int {
	best, nearest := -1, reach
	for _, points := range []bool{true, false} {
		for _, s := range k.Signs() {
			if (s.Kind == symmetry.Turn) != points {
				continue
			}
			if d := fromSegment(p, s.A, s.B); d < nearest {
				best, nearest = s.element, d
			}
		}
		if best >= 0 {
			break
		}
	}
	return best
}

func fromSegment(p, a, b orb.Point) float64 {
	dx, dy := b[0]-a[0], b[1]-a[1]
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = clamp(((p[0]-a[0])*dx+(p[1]-a[1])*dy)/l, 0, 1)
	}
	return math.Hypot(p[0]-a[0]-t*dx, p[1]-a[1]-t*dy)
}

// speakOf makes an element the one that is spoken of; −1 for none.
func (k *Desk) speakOf(element int) {
	if element != k.sign {
		k.sign = element
		k.Changed, k.Redraw = true, true
	}
}

// switchSigns shows or hides the signs.
func (k *Desk) switchSigns() error {
	k.signs, k.sign = !k.signs, -1
	return nil
}

// nextSign goes through the kinds of elements, one for each class, and shows the signs if they were hidden.
func (k *Desk) nextSign() error {
	if k.layout == nil {
		return errNoSigns
	}
	k.signs = true
	list := k.elements()
	if len(list) == 0 {
		return errNoSigns
	}
	for i := k.sign + 1; ; i++ {
		if i >= len(list) {
			i = 0
		}
		e := list[i]
		first := true
		for _, f := range list[:i] {
			first = first && (f.Kind != e.Kind || f.Order != e.Order || f.Class != e.Class)
		}
		if first {
			k.speakOf(i)
			return nil
		}
	}
}

// signText is the sentence about the element that is spoken of.
func (k *Desk) signText() string {
	if !k.signs || k.layout == nil {
		return ""
	}
	list := k.elements()
	switch {
	case len(list) == 0:
		return k.layout.Group.Symbol + " has no mirror, glide or rotation point: it repeats by moving only."
	case k.sign >= 0 && k.sign < len(list):
		return list[k.sign].Sentence()
	}
	return "The tinted part is all there is to draw; the rest is its images. Point at a sign to read what it does, or press E for the next."
}
