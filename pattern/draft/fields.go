package draft

import (
	"slices"
	"strings"

	"openwork/geometry"
)

// A field is a number of an object under the name that commands and the page's inputs give it: the member's key, x and
// y for its one Point or, as in fromX, with the member's key before it for one of several, and for what an Optional
// Record holds the record's key before it, as in bedWidth.
func (o *Object) fields(owner any, create bool, f func(name string, v *float64)) {
	for _, m := range o.Members {
		if m.Type == Record {
			if m.Of.numbers() {
				m.recordFields(owner, create, f)
			}
			continue
		}
		if m.Type == List {
			continue
		}
		switch v := m.at(owner).(type) {
		case *float64:
			f(m.Key, v)
		case *[2]float64:
			x, y := "x", "y"
			if o.points() > 1 {
				x, y = m.Key+"X", m.Key+"Y"
			}
			f(x, &v[0])
			f(y, &v[1])
		}
	}
}

// numbers reports whether the object has Numbers of its own.
func (o *Object) numbers() bool {
	return slices.ContainsFunc(o.Members, func(m *Member) bool { return m.Type == Number })
}

// points counts the object's Points.
func (o *Object) points() int {
	n := 0
	for _, m := range o.Members {
		if m.Type == Point {
			n++
		}
	}
	return n
}

func (m *Member) recordFields(owner any, create bool, f func(name string, v *float64)) {
	v := m.at(owner)
	if v == nil && !create {
		v = m.none
	} else if v == nil {
		v = m.add(owner)
	}
	m.Of.fields(v, create, func(name string, v *float64) {
		f(m.Key+strings.ToUpper(name[:1])+name[1:], v)
	})
}

// Values returns an object's fields by name, and its texts by key, as the page shows them. What a missing Record would
// hold is zero.
func (o *Object) Values(owner any) map[string]any {
	out := map[string]any{}
	o.fields(owner, false, func(name string, v *float64) { out[name] = *v })
	for _, m := range o.Members {
		if m.Type == Text || m.Type == Choice || m.Type == Group {
			out[m.Key] = *m.at(owner).(*string)
		}
	}
	return out
}

// Set gives an object's fields the values of their names, on the draft's grid, and leaves the others alone. An Optional
// Record of nothing but zeros is missing afterwards.
func (o *Object) Set(owner any, values map[string]float64) {
	o.fields(owner, true, func(name string, v *float64) {
		if to, ok := values[name]; ok {
			*v = geometry.Snap(to)
		}
	})
	for _, m := range o.Members {
		if m.Type == Record && m.Optional && m.Of.numbers() && m.zero(owner) {
			m.drop(owner)
		}
	}
}

// zero reports whether an Optional Record holds nothing but zeros.
func (m *Member) zero(owner any) bool {
	v, zero := m.at(owner), true
	if v == nil {
		return false
	}
	m.Of.fields(v, false, func(_ string, v *float64) { zero = zero && *v == 0 })
	return zero
}

// Shown is how the page shows a field.
type Shown struct{ Words, Unit string }

// Fields returns how the page shows an object's fields, by name. The words of a Point are those of x and y, with a
// comma between.
func (o *Object) Fields() map[string]Shown {
	out := map[string]Shown{}
	for _, m := range o.Members {
		switch m.Type {
		case Number:
			out[m.Key] = Shown{m.Words, m.Unit}
		case Point:
			x, y, _ := strings.Cut(m.Words, ", ")
			out["x"], out["y"] = Shown{x, m.Unit}, Shown{y, m.Unit}
		case Record:
			for name, s := range m.Of.Fields() {
				out[m.Key+strings.ToUpper(name[:1])+name[1:]] = s
			}
		}
	}
	return out
}
