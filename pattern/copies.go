package pattern

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// Copy is one image of a motif on the panel.
type Copy struct {
	Motif int
	Op    int             // index of the operation in the group
	Cell  [2]int          // cells moved along a and b after the operation
	Map   geometry.Map    // silhouette's frame → panel mm
	Place geometry.Place  // with respect to the field: Within, or Across its edge
	Cut   bool            // by the line of a subject's room
	Image *geometry.Shape // turned and scaled as it lies on the panel, shared between cells
	Shift orb.Point       // moves Image to this copy's place, panel mm
	// Colour is the number of its colour in the paint's list; −1 where the paint has no colours.
	Colour int
}

// Shape returns the copy's own outline, placed on the panel.
func (c Copy) Shape() *geometry.Shape {
	return c.Image.Place(geometry.Translate(c.Shift[0], c.Shift[1]), nil)
}

// Bound returns the copy's box, in panel mm.
func (c Copy) Bound() orb.Bound {
	b := c.Image.Bound()
	return orb.Bound{Min: geometry.Add(b.Min, c.Shift), Max: geometry.Add(b.Max, c.Shift)}
}

// Copies returns every copy that the edge rule and the subjects' rooms keep, by motif, operation and cell. It fails
// when there would be more than MaxCopies.
func (l *Layout) Copies() ([]Copy, error) {
	d := l.Draft
	field := d.FieldBound()
	area := (field.Max[0] - field.Min[0]) * (field.Max[1] - field.Min[1])
	if estimate := area / l.Cell.Area() * float64(l.InCell()); d.Field.Edge == draft.Crop && estimate > 2*MaxCopies {
		return nil, tooMany(estimate)
	}
	out, whole := l.gather(field)
	if !whole {
		return nil, tooMany(math.Max(area/l.Cell.Area()*float64(l.InCell()), MaxCopies+1))
	}
	return out, nil
}

// CopiesIn returns the copies kept by the edge rule and the subjects' rooms whose boxes meet a window, in panel mm;
// no more than MaxCopies.
func (l *Layout) CopiesIn(window orb.Bound) []Copy {
	field := l.Draft.FieldBound()
	if l.Draft.Field.Edge == draft.Crop || l.Draft.Field.Edge == draft.Whole {
		window.Min = orb.Point{math.Max(window.Min[0], field.Min[0]), math.Max(window.Min[1], field.Min[1])}
		window.Max = orb.Point{math.Min(window.Max[0], field.Max[0]), math.Min(window.Max[1], field.Max[1])}
		if window.Min[0] >= window.Max[0] || window.Min[1] >= window.Max[1] {
			return nil
		}
	}
	out, _ := l.gather(window)
	return out
}

// gather returns the copies kept by the edge rule whose boxes meet the window; false when it stopped at a limit.
func (l *Layout) gather(window orb.Bound) (out []Copy, whole bool) {
	d := l.Draft
	field, toPanel := d.FieldBound(), d.FieldMap()
	inField := boundOf(window, toPanel.Rigid())
	trials := 0
	for _, o := range l.Orbits {
		for _, i := range o.Images {
			onPanel := l.turnedToPanel(i)
			base := toPanel.After(l.maps[i.Op]).After(o.Place)
			whole := l.Cells(inField, i.Bound(), func(m, n int) bool {
				if trials++; trials > maxTrials {
					return false
				}
				v := l.Lattice(m, n)
				shift := toPanel.Apply(geometry.Add(i.At, v))
				place := onPanel.InRect(field, shift)
				if place == geometry.Outside || (place == geometry.Across && d.Field.Edge == draft.Whole) {
					return true
				}
				kept, cut := l.inRooms(onPanel, shift)
				if !kept {
					return true
				}
				at := toPanel.Vector(v)
				c := Copy{Motif: o.Motif, Op: i.Op, Cell: [2]int{m, n}, Map: base.Moved(at[0], at[1]), Place: place,
					Cut: cut, Image: onPanel, Shift: shift, Colour: l.ColourOf(o.Motif, i.Op, m, n)}
				if l.only != nil && c.Colour != *l.only {
					return true
				}
				out = append(out, c)
				return len(out) <= MaxCopies
			})
			if !whole {
				return out, false
			}
		}
	}
	return out, true
}

// Overfull reports whether a draft that differs from the layout's in its cell, its field and the places of its motifs
// alone would need so many places to be tried that Copies would give up. It is quick, and sure to be true only where
// the boxes of the copies are what is tried: it allows for twice as many.
func (l *Layout) Overfull(d draft.Draft) bool {
	field := d.FieldBound()
	w, h := field.Max[0]-field.Min[0], field.Max[1]-field.Min[1]
	trials, crowd := 0.0, 0.0
	for i, m := range d.Motifs {
		if i >= len(l.Orbits) || l.Orbits[i].SameAs >= 0 {
			continue
		}
		b := l.Orbits[i].Bare.Bound()
		size := m.Scale * math.Hypot(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])
		each := float64(len(l.maps)) / d.Repeat.Cell().Area()
		trials += (w + size) * (h + size) * each
		crowd += size * size * each
	}
	return trials > 2*maxTrials || crowd > maxCrowd/2 // ties make a silhouette no larger than twice that
}

// tooMany is the refusal of a panel that would need more copies than there may be.
func tooMany(estimate float64) error {
	return &draft.PlaceError{Place: "repeat", Text: fmt.Sprintf(
		"the panel would need about %.0f copies, and the limit is %d; make the cell larger or the panel smaller",
		estimate, MaxCopies)}
}

// boundOf returns the box of a rectangle's image.
func boundOf(r orb.Bound, m geometry.Map) orb.Bound {
	out := orb.Bound{Min: m.Apply(r.Min), Max: m.Apply(r.Min)}
	for _, p := range []orb.Point{{r.Max[0], r.Min[1]}, r.Max, {r.Min[0], r.Max[1]}} {
		out = out.Extend(m.Apply(p))
	}
	return out
}

// PlaceOf says where an image moved by the lattice vector v, in field mm, lies with respect to the field's edge.
func (l *Layout) PlaceOf(i Image, v orb.Point) geometry.Place {
	toPanel := l.Draft.FieldMap()
	return l.turnedToPanel(i).InRect(l.Draft.FieldBound(), toPanel.Apply(geometry.Add(i.At, v)))
}

// turnedToPanel returns an image's shape turned as the field is.
func (l *Layout) turnedToPanel(i Image) *geometry.Shape {
	if l.Draft.Field.Turn == 0 {
		return i.Shape
	}
	return l.Shapes.turned(i.Shape, l.Draft.FieldMap())
}
