package pen

import (
	"errors"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
	"openwork/pattern"
)

// Sync follows the draft: what is drawn is always its silhouette as it stands there. gone reports that it was thrown
// away.
func (m *Mode) Sync() (gone bool, err error) {
	d := m.d
	if d == nil {
		return false, nil
	}
	if d.id == "" {
		d.id = d.made
	}

	s, ok := m.desk.Draft().Silhouette(d.id)
	if !ok {
		if d.id != d.made {
			d.line = nil
			return true, nil
		}
		d.id, d.outline, d.shape, d.chosen = "", nil, nil, false
		return false, nil
	}
	if len(d.outline) == len(s.Outline) && len(d.outline) > 0 && &d.outline[0] == &s.Outline[0] {
		return false, nil
	}

	shape, known := m.known[&s.Outline[0][0][0]]
	if !known {
		if shape, err = pen.Read(s.Outline, d.shape.Rings()...); err != nil {
			return false, err
		}
		m.remember(s.Outline, shape)
	}

	d.outline, d.shape, d.trial = s.Outline, shape, nil
	rings := shape.Rings()
	if d.chosen && (d.ring >= len(rings) || max(d.sel.From, d.sel.To) >= len(rings[d.ring].Nodes)) {
		d.chosen = false
	}
	return false, nil
}

// remember keeps the points that an outline was made of, so that undoing brings them back too.
func (m *Mode) remember(mp orb.MultiPolygon, shape pen.Shape) {
	if m.known == nil || len(m.known) >= maxKnown {
		m.known = map[*orb.Point]pen.Shape{}
	}
	m.known[&mp[0][0][0]] = shape
}

// putShape makes a shape the silhouette's outline, as one entry of the history; a new silhouette is placed in the cell.
func (m *Mode) putShape(shape pen.Shape) error {
	d := m.d
	outline := shape.Outline()
	if err := pen.Check(outline); err != nil {
		return err
	}

	m.desk.EndNudge()
	m.LetGo(0)
	m.desk.Begin()
	fresh := d.id == ""
	err := m.tryShape(shape, outline)
	if err == nil {
		err = m.desk.Commit(fresh)
	}
	if err != nil {
		m.desk.Abandon(true)
		_, restored := m.Sync()
		m.sayError(restored)
		return err
	}
	d.trial, d.taken = nil, nil
	return nil
}

// tryShape applies a shape inside the open gesture, and remembers its points.
func (m *Mode) tryShape(shape pen.Shape, outline orb.MultiPolygon) error {
	d := m.d
	c := pattern.Command{Name: "redraw", ID: d.id, Outline: outline}
	if d.id == "" {
		name := m.desk.FreshName("Drawn")
		if m.desk.Demonstrates() { // a first drawing of one's own takes its place
			m.desk.ClearFor(name)
			m.desk.Say("note", "Your drawing has taken the demonstration's place. Undo brings that back.")
		}
		c = pattern.Command{Name: "draw", Text: name, Outline: outline}
		m.desk.PlaceNew(&c, outline)
		// The drawing keeps its place on the plane, so that what lies under it stays there: the motif makes up for it.
		centre := geometry.Centroid(outline)
		c.Values["x"] -= centre[0]
		c.Values["y"] -= centre[1]
	}
	if err := m.desk.Step(c); err != nil {
		return err
	}
	if d.id == "" {
		s := m.desk.Draft().Silhouettes
		d.id = s[len(s)-1].ID
		d.made = d.id
	}
	if s, ok := m.desk.Draft().Silhouette(d.id); ok {
		m.remember(s.Outline, shape)
		d.outline, d.shape = s.Outline, shape
	}
	return nil
}

// useLines does with closed lines what was chosen: joins them, cuts them away, or puts them in the silhouette's place.
func (m *Mode) useLines(lines ...pen.Ring) error {
	d := m.d
	var shape pen.Shape
	var err error
	switch {
	case d.use == Cut && len(d.shape) == 0:
		return errors.New("there is nothing to cut away from yet; draw the silhouette first")
	case d.use == Cut:
		shape, err = d.shape.CutAway(lines...)
	case d.use == Instead:
		shape, err = pen.Shape(nil).Joined(lines...)
	default:
		shape, err = d.shape.Joined(lines...)
	}
	if err != nil {
		return err
	}
	d.chosen = false
	return m.putShape(shape)
}
