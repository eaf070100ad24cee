package cutfile

import (
	"fmt"
	"io"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/sheet/panel"
)

// Sheet is a sheet that a draft's stock is cut to, other than the draft's own: a stepping sheet, or one of joined sheets. All
// in mm of the file's own frame, y upward.
type Sheet struct {
	Title    string
	Outline  orb.MultiPolygon // one polygon
	Openings []panel.Opening  // connected, apart from each other
	Field    orb.Bound        // furniture goes between this and the outline's box
	Holes    []orb.Point      // middles of the registration holes
}

// BuildSheet makes the job of such a sheet with the kerf and the stock of a draft, as Build does for the draft's own. Holes are
// where the sheet has them, whatever the options say of that, and none when it has none.
func BuildSheet(d pattern.Draft, s Sheet, o Options, kind curve.Kind) (*Job, error) {
	if len(s.Outline) != 1 || len(s.Outline[0]) == 0 {
		return nil, fmt.Errorf("a sheet to cut is one piece; this one is %d", len(s.Outline))
	}
	// The rectangle round the outline stands for the panel, whose lower left corner is the origin.
	box := s.Outline.Bound()
	d.Title = s.Title
	d.Panel = pattern.Panel{Width: box.Max[0] - box.Min[0], Height: box.Max[1] - box.Min[1]}
	d.Sheet.Width, d.Sheet.Height = 0, 0
	o.Holes.At = []orb.Point{}
	for _, h := range s.Holes {
		o.Holes.At = append(o.Holes.At, orb.Point{h[0] - box.Min[0], h[1] - box.Min[1]})
	}
	if len(s.Holes) == 0 {
		o.Holes.Diameter = 0
	}
	move := geometry.Translate(-box.Min[0], -box.Min[1])
	field := orb.Bound{Min: move.Apply(s.Field.Min), Max: move.Apply(s.Field.Max)}
	b, err := newBuild(&pattern.Layout{Draft: d}, o, kind)
	if err != nil {
		return nil, err
	}
	b.field = field
	b.open = []panel.Opening{} // none are looked for
	for _, p := range s.Openings {
		b.open = append(b.open, panel.Opening{Shape: p.Shape, Shift: move.Apply(p.Shift)})
	}
	if outline := geometry.Transform(s.Outline, move); !rectangular(outline[0]) {
		b.part = geometry.NewShape(outline)
		b.made.SheetArea = geometry.Area(outline)
	}
	return b.run()
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

// inPart reports whether a box lies in the sheet's outline with room around it.
func (b *build) inPart(r orb.Bound, room float64) bool {
	return b.part.Contains(r.Center()) && !geometry.Distance(b.part, geometry.RectShape(r), orb.Point{}, room).Found
}

// WriteSheet writes the cut file of such a sheet, read back and compared as Write does.
func WriteSheet(d pattern.Draft, s Sheet, w io.Writer, f Format, o Options) (Made, error) {
	kind := curve.Cubic
	if f == FormatDXF {
		kind = curve.Arc
	}
	j, err := BuildSheet(d, s, o, kind)
	if err != nil {
		return Made{}, err
	}
	return handOver(j, w, f, o)
}
