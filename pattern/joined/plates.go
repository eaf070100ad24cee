package joined

import (
	"errors"
	"fmt"
	"io"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/plates"
	"openwork/pattern/sheet/panel"
)

// Plate is the sheets of one colour, or of what ties leave bare of it: its parts are those of the whole, with the same
// joints and holes, and have the openings of the plate alone.
type Plate struct {
	Number int    `json:"number"`         // from 1: those of the paint's colours in their order, then those over ties
	Over   int    `json:"over,omitempty"` // the plate over whose ties it is laid; 0: it is a colour's own
	Swatch string `json:"swatch"`
	Name   string `json:"name"`
	Parts  []Part `json:"parts"`

	of *Joined
}

// title is the plate's name with what it opens.
func (p Plate) title() string {
	if p.Over > 0 {
		return fmt.Sprintf("%s, over the ties of plate %d", p.Name, p.Over)
	}
	return p.Name
}

// errOneColour is the refusal of plates where all openings have one colour.
var errOneColour = errors.New("plates are for several colours, and this panel has one: give motifs swatches of their " +
	"own in the step Paint, or join it as one sheet")

// overTies returns the plates that open where ties would show.
func overTies(l *pattern.Layout, o Options) (out []plates.Plate, err error) {
	all, err := plates.Of(l, plates.Options{OverTies: true, Lap: o.Lap}, nil)
	for _, p := range all {
		if p.Over > 0 {
			out = append(out, p)
		}
	}
	return out, err
}

// part makes the plates of a sheet that is divided.
func (j *Joined) part() error {
	d := j.l.Draft
	for colour, id := range d.PaintOf().Colours {
		open, err := panel.Openings(j.l.Only(colour))
		if err != nil {
			return err
		}
		if len(open) == 0 {
			continue
		}
		s, _ := d.Swatch(id)
		if err := j.addPlate(Plate{Swatch: s.ID, Name: s.Name}, open); err != nil {
			return err
		}
	}
	if len(j.Plates) < 2 {
		return errOneColour
	}

	for _, p := range j.over {
		err := j.addPlate(Plate{Over: p.Over, Swatch: p.Swatch, Name: p.Name}, p.Sheet.Openings)
		if err != nil {
			return fmt.Errorf("the plate over the ties of plate %d, %s: %w", p.Over, p.Name, err)
		}
	}

	for i := range j.Plates {
		p := &j.Plates[i]
		p.of.plate = fmt.Sprintf("plate %d of %d, %s", p.Number, len(j.Plates), p.title())
		p.of.plateNumber = p.Number
		if lacking := p.of.identify(); len(lacking) > 0 {
			j.Notes = append(j.Notes, fmt.Sprintf("Plate %d, %s: there is no room on %s for what it is known by, and "+
				"none on the bed for a tab; write it on with a pen.", p.Number, p.Name, parts(lacking)))
		}
		p.of.measure()
		p.Parts = p.of.Parts
	}
	return nil
}

// addPlate makes a plate's parts: those of the whole, each with the plate's openings that lie in it.
func (j *Joined) addPlate(p Plate, open []panel.Opening) error {
	one := *j
	one.Plates, one.Parts = nil, make([]Part, len(j.Parts))
	for i, whole := range j.Parts {
		one.Parts[i] = Part{Number: whole.Number, Holes: whole.Holes, outline: whole.outline, loose: whole.loose}
	}
	if err := one.distribute(open); err != nil {
		return err
	}
	p.Number, p.of = len(j.Plates)+1, &one
	j.Plates = append(j.Plates, p)
	return nil
}

// distribute gives each opening to the part that it lies in, and says what is wrong when one is not whole in one of
// them.
func (j *Joined) distribute(open []panel.Opening) error {
	shapes := make([]*geometry.Shape, len(j.Parts))
	for i, p := range j.Parts {
		shapes[i] = geometry.NewShape(p.outline)
	}
	whole := (j.sheet.Max[0] - j.sheet.Min[0]) * (j.sheet.Max[1] - j.sheet.Min[1])
	all := geometry.RectShape(j.sheet)
	for _, o := range open {
		in := o.Shape.Area()
		if o.Shape.InRect(j.sheet, o.Shift) != geometry.Within {
			in = geometry.OverlapArea(all, o.Shape, o.Shift)
		}
		found := 0
		for i := range j.Parts {
			if !shapes[i].Bound().Intersects(o.Bound()) {
				continue
			}
			if a := geometry.OverlapArea(shapes[i], o.Shape, o.Shift); a > areaSlack*whole || a > in/2 {
				if math.Abs(a-in) > areaSlack*whole {
					c := o.Bound().Center()
					return fmt.Errorf("the opening at (%.1f, %.1f) mm is not whole in one part, so the parts are not "+
						"handed over", c[0], c[1])
				}
				j.Parts[i].open = append(j.Parts[i].open, o)
				found++
			}
		}
		if found != 1 {
			c := o.Bound().Center()
			return fmt.Errorf("the opening at (%.1f, %.1f) mm lies in %d parts, so they are not handed over", c[0],
				c[1], found)
		}
	}
	return nil
}

// PlateSheet returns part k, from 0 on, of a plate as it is cut, in panel mm.
func (j *Joined) PlateSheet(p Plate, k int) cutplan.Sheet { return p.of.Sheet(k) }

// PlatePlan is Plan for part k of a plate.
func (j *Joined) PlatePlan(p Plate, k int, f cutfile.Format) (*cutplan.Plan, error) {
	return p.of.Plan(k, f)
}

// WritePlate is Write for part k of a plate.
func (j *Joined) WritePlate(p Plate, k int, w io.Writer, f cutfile.Format) (cutplan.Made, error) {
	return p.of.Write(k, w, f)
}

// measure sets the figures of the parts.
func (j *Joined) measure() {
	for i := range j.Parts {
		p := &j.Parts[i]
		b := p.cut.Bound()
		p.At, p.Width, p.Height, p.Openings = orb.Point(b.Min), b.Max[0]-b.Min[0], b.Max[1]-b.Min[1], len(p.open)
	}
}
