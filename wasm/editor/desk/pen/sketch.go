package pen

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry/pen"
	"openwork/pattern/sheet"
)

// Sketch is the drawing as the canvas shows it, in mm; Map takes it to CSS px.
type Sketch struct {
	Outline orb.MultiPolygon // as it stands, or as it would be
	Broken  bool             // it cannot be so
	Chosen  []orb.Point      // the chosen stretch, as a line
	Nodes   []Knot
	Lines   [][]orb.Point // in hand: the stroke, or the line of points, and their images
	Cut     bool          // what is in hand is cut away
	Mirror  bool
	Axis    float64
	Grid    float64 // mm between the lines of the squares, and Strong of the stronger ones
	Strong  float64
}

// Knot is a point to draw: a corner is square. The first point of a line that is set is Ringed: pressing it closes
// the line.
type Knot struct {
	At                    orb.Point
	Round, Chosen, Ringed bool
}

// Sketch returns what is drawn; ok is false when the panel is shown. idle reports that nothing is pressed.
func (m *Mode) Sketch(idle bool) (s Sketch, ok bool) {
	d := m.d
	if d == nil {
		return Sketch{}, false
	}

	s = Sketch{Outline: d.outline, Broken: d.trialText != "", Cut: d.use == Cut, Mirror: d.half, Axis: d.axis}
	s.Grid, s.Strong = m.squares()
	shape := d.shape
	if d.trial != nil {
		shape = d.trial
		s.Outline = shape.Outline()
	}
	if d.way == Move {
		for i, r := range shape.Rings() {
			for j, v := range r.Nodes {
				chosen := d.chosen && i == d.ring && m.inStretch(j)
				s.Nodes = append(s.Nodes, Knot{At: v.At, Round: v.Round, Chosen: chosen})
			}
		}
		if d.chosen && d.sel.From != d.sel.To {
			s.Chosen = shape.Rings()[d.ring].Stretch(d.sel)
		}
	}

	lines := [][]orb.Point{}
	if len(d.stroke) > 0 {
		lines = append(lines, d.stroke)
	}
	if len(d.line) > 0 {
		points := d.line
		if d.hovering && idle {
			points = append(points[:len(points):len(points)], pen.Point{At: d.hover, Round: d.round})
		}
		lines = append(lines, pen.Line(pen.Through(points, false), false))
		for i, p := range d.line {
			s.Nodes = append(s.Nodes, Knot{At: p.At, Round: p.Round, Chosen: i == len(d.line)-1, Ringed: i == 0})
		}
	}

	for _, l := range lines {
		s.Lines = append(s.Lines, l)
		if d.half {
			image := make([]orb.Point, len(l))
			for i, p := range l {
				image[i] = d.image(p)
			}
			s.Lines = append(s.Lines, image)
		}
	}
	return s, true
}

// minSquarePX is the smallest distance between the lines of the squares, in px.
const minSquarePX = 9.0

// squares returns how wide the squares under a drawing are, in mm: 1, 5 or 10 times a power of ten, ten of which make a
// strong one; in inches an eighth, a quarter, a half, and whole ones.
func (m *Mode) squares() (fine, strong float64) {
	need := minSquarePX / m.view.Zoom
	if m.desk.Unit().Inches {
		for _, s := range []float64{0.125, 0.25, 0.5, 1} {
			if s*sheet.MMPerInch >= need {
				return s * sheet.MMPerInch, sheet.MMPerInch * max(1, s*4)
			}
		}
		return sheet.MMPerInch * 12, sheet.MMPerInch * 120
	}

	p := math.Pow(10, math.Ceil(math.Log10(need)))
	if p/2 >= need {
		return p / 2, p * 5
	}
	return p, p * 10
}
