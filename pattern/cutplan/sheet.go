package cutplan

import (
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet/panel"
)

// Sheet is all that planning knows of a sheet: mm, y upward, in any frame.
type Sheet struct {
	Title     string
	Stock     string
	How       draft.How        // it is cut; empty: by laser
	Outline   orb.MultiPolygon // one polygon
	Field     orb.Bound        // furniture goes between this and the outline's box
	Panel     orb.Bound        // that the sheet is laid on: no registration lies across its edge; zero: not known
	Openings  []panel.Opening  // connected, apart from each other, ties taken off
	Others    []panel.Opening  // of sheets laid on the same panel: furniture keeps clear of these too
	Kerf      float64          // mm that the beam takes
	Thickness float64          // mm, which a file says; 0: not known
	Bridge    float64          // mm at least between what is cut
	Bed       draft.Bed        // what the machine takes, mm, either way round; a side of zero is not said

	// Part says that it is one of several sheets that a draft makes: it may have no opening, its registration holes are
	// Holes and none else, whatever the options say of their places, and its plan begins at (0, 0).
	Part    bool
	Holes   []orb.Point // middles
	Written []Written   // in place of the label: what the part is known by, at its places
}

// OfLayout returns the sheet of a layout, its openings united. It fails as panel.Openings does.
func OfLayout(l *pattern.Layout) (Sheet, error) {
	open, err := panel.Openings(l)
	d := l.Draft
	s := Sheet{Title: d.Title, Stock: d.Sheet.Stock, How: d.Sheet.How(),
		Outline:  geometry.RectOutline(d.SheetBound()),
		Field:    d.FieldBound(),
		Panel:    d.PanelBound(),
		Openings: open, Kerf: d.Sheet.KerfTaken(), Bridge: d.Sheet.Bridge,
		Thickness: d.Sheet.Thickness}
	if d.Sheet.Bed != nil {
		s.Bed = *d.Sheet.Bed
	}
	return s, err
}

// onBed reports whether a sheet of that size, in mm, fits the bed one way round or the other.
func (s Sheet) onBed(width, height float64) bool {
	fits := func(w, h float64) bool {
		return (s.Bed.Width == 0 || w <= s.Bed.Width+touch) && (s.Bed.Height == 0 || h <= s.Bed.Height+touch)
	}
	return fits(width, height) || fits(height, width)
}

// PartOf returns a part of what a draft makes, of the draft's stock and kerf; outline and openings are to be set.
func PartOf(d draft.Draft) Sheet {
	return Sheet{Stock: d.Sheet.Stock, How: d.Sheet.How(), Kerf: d.Sheet.KerfTaken(), Bridge: d.Sheet.Bridge,
		Thickness: d.Sheet.Thickness, Part: true}
}

// ForLayout plans the sheet of a layout. What New refuses at sight is refused before the openings are united.
func ForLayout(l *pattern.Layout, o Options, kind curve.Kind) (*Plan, error) {
	if _, err := o.filled(l.Draft.Sheet.Stock, l.Draft.Sheet.How()); err != nil {
		return nil, err
	}
	s, err := OfLayout(l)
	if err != nil {
		return nil, err
	}
	return New(s, o, kind)
}

// toOrigin returns the sheet with the lower left corner of its box at (0, 0).
func (s Sheet) toOrigin() Sheet {
	from := s.Outline.Bound().Min
	move := geometry.Translate(-from[0], -from[1])
	s.Outline = geometry.Transform(s.Outline, move)
	s.Field = orb.Bound{Min: move.Apply(s.Field.Min), Max: move.Apply(s.Field.Max)}
	if s.Panel != (orb.Bound{}) {
		s.Panel = orb.Bound{Min: move.Apply(s.Panel.Min), Max: move.Apply(s.Panel.Max)}
	}

	open := make([]panel.Opening, len(s.Openings))
	for i, o := range s.Openings {
		open[i] = panel.Opening{Shape: o.Shape, Shift: move.Apply(o.Shift)}
	}
	s.Openings = open

	var holes []orb.Point
	for _, h := range s.Holes {
		holes = append(holes, move.Apply(h))
	}
	s.Holes = holes

	written := slices.Clone(s.Written)
	for i, w := range written {
		written[i].Box = orb.Bound{Min: move.Apply(w.Box.Min), Max: move.Apply(w.Box.Max)}
	}
	s.Written = written
	return s
}

// AcrossEdge reports whether a box lies across the panel's edge, where nothing can be pricked: part of it over the
// panel, part beside it. A box that ends on the edge does not, and none does where the panel is not known.
func (s Sheet) AcrossEdge(r orb.Bound) bool {
	return s.Panel != (orb.Bound{}) && r.Min[0] < s.Panel.Max[0] && r.Max[0] > s.Panel.Min[0] &&
		r.Min[1] < s.Panel.Max[1] && r.Max[1] > s.Panel.Min[1] && !within(r, s.Panel)
}

// rectangular reports whether a polygon is a rectangle along the axes.
func rectangular(p orb.Polygon) bool {
	if len(p) != 1 || len(p[0]) != 5 {
		return false
	}
	for i, a := range p[0][:4] {
		if b := p[0][i+1]; a[0] != b[0] && a[1] != b[1] {
			return false
		}
	}
	return true
}

// onSheet reports whether a box lies in the sheet's outline with room around it.
func (b *build) onSheet(r orb.Bound, room float64) bool {
	return b.shape.Contains(r.Center()) && !geometry.Distance(b.shape, geometry.RectShape(r), orb.Point{}, room).Found
}
