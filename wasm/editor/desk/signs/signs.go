// Package signs shows the mirrors, glides and rotation points of the field, and reads them.
package signs

import (
	"errors"
	"math"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
	"openwork/wasm/editor/desk/view"
)

// Sign is a symmetry element to draw, in CSS px: a line from A to B, or a rotation point at A.
type Sign struct {
	Kind    symmetry.Kind
	Order   int // of a rotation point
	A, B    orb.Point
	Current bool // the one that is read
	Element int
}

// Desk is what the signs are shown on.
type Desk interface {
	Draft() draft.Draft
	Layout() *pattern.Layout
	Touch()
}

// Signs are the symmetry elements as they are shown.
type Signs struct {
	On      bool // they are shown
	Current int  // the element that is read, −1 for none
	desk    Desk
	view    *view.View
	of      string
	list    []symmetry.Element // of the group with that symbol
}

// New returns the signs, hidden.
func New(d Desk, v *view.View) *Signs { return &Signs{desk: d, view: v, Current: -1} }

var errNone = errors.New("this plane group has no mirror, glide or rotation point")

const (
	// signRoomPX is how long a cell's shorter side must be on the canvas, in CSS px, for the signs to cover the whole
	// field; in smaller cells they would hide it, and only the cell with the handles has them.
	signRoomPX = 72.0
	// maxSigns bounds what is drawn.
	maxSigns = 4000
)

// Shown returns the mirrors, glides and rotation points to draw, none while they are switched off.
func (all *Signs) Shown() []Sign {
	l := all.desk.Layout()
	if !all.On || l == nil {
		return nil
	}

	toCanvas := all.view.Map().After(l.Draft.FieldMap())
	basis := l.Cell.Basis()
	at := func(x, y float64) orb.Point { return toCanvas.Apply(basis.Apply(orb.Point{x, y})) }
	small := math.Min(l.Cell.A, l.Cell.B)*all.view.Zoom < signRoomPX
	var out []Sign
	seen := map[[2]int]bool{}
	all.cells(small, func(m, n int) bool {
		for i, e := range all.Elements() {
			x, y := e.At[0].Float()+float64(m), e.At[1].Float()+float64(n)
			s := Sign{Kind: e.Kind, Order: e.Order, Current: i == all.Current, Element: i}
			if e.Kind == symmetry.Turn {
				if small && (m != 0 || n != 0) {
					continue // the neighbours are gone through for their lines
				}
				s.A = at(x, y)
				s.B = s.A
				out = append(out, all.around(s, small, at, x-float64(m), y-float64(n))...)
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
			if s.A, s.B, ok = all.clip(p, q, small); ok {
				out = append(out, s)
			}
		}
		return len(out) < maxSigns
	})
	return out
}

// around returns a rotation point of the one cell that has signs together with its images on the cell's other sides.
func (all *Signs) around(s Sign, small bool, at func(x, y float64) orb.Point, x, y float64) []Sign {
	if !small {
		if b := all.Bound(); b.Contains(s.A) {
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

// Elements returns the group's elements, kept while the group stays.
func (all *Signs) Elements() []symmetry.Element {
	g := all.desk.Layout().Group
	if all.of != g.Symbol {
		all.of, all.list = g.Symbol, g.Elements()
	}
	return all.list
}

// Unit returns the corners, in CSS px, of the asymmetric unit of the cell with the handles, nil while signs are off.
func (all *Signs) Unit() []orb.Point {
	l := all.desk.Layout()
	if !all.On || l == nil {
		return nil
	}
	m := all.view.Map().After(l.Draft.FieldMap()).After(l.Cell.Basis())
	var out []orb.Point
	for _, p := range l.Group.AsymmetricUnit() {
		out = append(out, m.Apply(orb.Point{p[0].Float(), p[1].Float()}))
	}
	return out
}

// at returns the element whose sign lies under a canvas point, points before lines; −1 when there is none.
func (all *Signs) at(p orb.Point, reach float64) int {
	best, nearest := -1, reach
	for _, points := range []bool{true, false} {
		for _, s := range all.Shown() {
			if (s.Kind == symmetry.Turn) != points {
				continue
			}
			if d := view.FromSegment(p, s.A, s.B); d < nearest {
				best, nearest = s.Element, d
			}
		}
		if best >= 0 {
			break
		}
	}
	return best
}

// read makes an element the one that is read; −1 for none.
func (all *Signs) read(element int) {
	if element != all.Current {
		all.Current = element
		all.desk.Touch()
	}
}

// Switch shows or hides the signs.
func (all *Signs) Switch() { all.On, all.Current = !all.On, -1 }

// Hover reads the sign under the pointer.
func (all *Signs) Hover(e view.Event) {
	if all.On {
		all.read(all.at(e.At, e.SignReach()))
	}
}

// Next goes through the kinds of elements, one for each class, and shows the signs if they were hidden.
func (all *Signs) Next() error {
	if all.desk.Layout() == nil {
		return errNone
	}

	all.On = true
	list := all.Elements()
	if len(list) == 0 {
		return errNone
	}

	for i := all.Current + 1; ; i++ {
		if i >= len(list) {
			i = 0
		}
		e := list[i]
		first := true
		for _, f := range list[:i] {
			first = first && (f.Kind != e.Kind || f.Order != e.Order || f.Class != e.Class)
		}
		if first {
			all.read(i)
			return nil
		}
	}
}

// Text is the sentence about the element that is read.
func (all *Signs) Text() string {
	if !all.On || all.desk.Layout() == nil {
		return ""
	}
	list := all.Elements()
	switch {
	case len(list) == 0:
		return all.desk.Layout().Group.Symbol + " has no mirror, glide or rotation point: it repeats by moving only."
	case all.Current >= 0 && all.Current < len(list):
		return list[all.Current].Sentence()
	}
	return "The tinted part is all there is to draw; the rest is its images. " +
		"Point at a sign to read what it does, or press E for the next."
}
