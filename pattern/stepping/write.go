package stepping

import (
	"fmt"
	"io"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/sheet/panel"
)

// Sheet returns the stepping sheet as it is cut, in mm from its lower left corner, with the openings of all colours.
func (s *Stepping) Sheet() cutplan.Sheet { return s.sheetOf(nil) }

// SheetOf is Sheet for one of the plates: with its openings alone, and all holes.
func (s *Stepping) SheetOf(p Plate) cutplan.Sheet {
	out := s.sheetOf(&p)
	out.Title = fmt.Sprintf("%s, plate %d of %d: %s, stepping sheet", s.l.Draft.Title, p.Number, len(s.Plates), p.Name)
	return out
}

// sheetOf is Sheet with the openings of one plate alone, the others beside them; of nil with all.
func (s *Stepping) sheetOf(p *Plate) cutplan.Sheet {
	sh := s.sheet
	m := sh.toSheet()
	linear := geometry.Map{A: m.A, B: m.B, C: m.C, D: m.D}
	shapes := map[int]*geometry.Shape{}
	out := cutplan.PartOf(s.l.Draft)
	out.Title = s.l.Draft.Title + ", stepping sheet"
	out.Outline = geometry.RectOutline(orb.Bound{Max: orb.Point{s.Width, s.Height}})
	out.Field = moved(sh.box, orb.Point{-sh.rect.Min[0], -sh.rect.Min[1]})
	for _, t := range sh.slots {
		shape := shapes[t.kind]
		if shape == nil {
			if shape = sh.f.kinds[t.kind].shape; sh.frame != geometry.Identity {
				shape = shape.Place(linear, nil)
			}
			shapes[t.kind] = shape
		}
		o := panel.Opening{Shape: shape, Shift: m.Apply(sh.at(t))}
		if p != nil && sh.f.kinds[t.kind].colour != p.colour {
			out.Others = append(out.Others, o)
		} else {
			out.Openings = append(out.Openings, o)
		}
	}
	for _, h := range append(s.Holes[:len(s.Holes):len(s.Holes)], s.More...) {
		out.Holes = append(out.Holes, h)
	}
	return out
}

// Write writes the stepping sheet's cut file, its registration holes cut, after it has been read back and compared.
func (s *Stepping) Write(w io.Writer, f cutfile.Format) (cutplan.Made, error) {
	p, err := s.Plan(f)
	if err != nil {
		return cutplan.Made{}, err
	}
	return cutfile.WritePlan(p, w, f)
}

// Plan returns what is cut, in the curves of a format.
func (s *Stepping) Plan(f cutfile.Format) (*cutplan.Plan, error) { return s.planOf(s.Sheet(), f) }

func (s *Stepping) planOf(sheet cutplan.Sheet, f cutfile.Format) (*cutplan.Plan, error) {
	o := s.o.Cut
	o.Holes = cutplan.Holes{Diameter: s.Diameter, Layer: cutplan.Cut}
	return cutplan.New(sheet, o, f.Curves())
}

// PlatePlan is Plan for one of the plates.
func (s *Stepping) PlatePlan(p Plate, f cutfile.Format) (*cutplan.Plan, error) {
	return s.planOf(s.SheetOf(p), f)
}

// WritePlate is Write for one of the plates.
func (s *Stepping) WritePlate(p Plate, w io.Writer, f cutfile.Format) (cutplan.Made, error) {
	plan, err := s.PlatePlan(p, f)
	if err != nil {
		return cutplan.Made{}, err
	}
	return cutfile.WritePlan(plan, w, f)
}
