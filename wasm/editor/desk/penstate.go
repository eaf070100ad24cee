package desk

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
)

// penState is what the page shows of the drawing. Numbers are mm in the silhouette's own frame; nil where there is nothing
// to show.
type penState struct {
	Open   bool       `json:"open"`
	ID     string     `json:"id"` // empty for a new silhouette that has no outline yet
	Name   string     `json:"name"`
	Way    string     `json:"way"`
	Use    string     `json:"use"`
	Half   bool       `json:"half"`
	Round  bool       `json:"round"`
	Text   string     `json:"text"`   // what to do next
	Wrong  string     `json:"wrong"`  // why what is under the hand cannot be
	Chosen bool       `json:"chosen"` // points are
	Piece  bool       `json:"piece"`  // and they are more than one
	Line   *float64   `json:"line"`   // which outline or hole, point and last point of the stretch, from one
	Point  *float64   `json:"point"`
	To     *float64   `json:"to"`
	X      *float64   `json:"x"`
	Y      *float64   `json:"y"`
	Axis   float64    `json:"axis"`
	Within float64    `json:"within"`
	Lines  int        `json:"lines"`
	Points int        `json:"points"` // of the outline that is chosen
	Set    int        `json:"set"`    // points of a line that is not closed
	Map    [3]float64 `json:"map"`    // CSS px to the mm, and where (0, 0) lies on the canvas
}

func (k *Desk) penState() penState {
	d := k.pen
	if d == nil {
		return penState{}
	}
	m := k.View.Map()
	s := penState{Open: true, ID: d.id, Way: d.way, Use: d.use, Half: d.half, Round: d.round, Wrong: d.trialText, Chosen: d.chosen,
		Axis: d.axis, Within: d.within, Set: len(d.line), Map: [3]float64{k.View.Zoom, m.X, m.Y}}
	if o, ok := k.Draft().Silhouette(d.id); ok {
		s.Name = o.Name
	}
	number := func(v float64) *float64 { return &v }
	rings := d.shape.Rings()
	s.Lines = len(rings)
	if d.chosen && d.ring < len(rings) {
		r := rings[d.ring]
		at := r.Nodes[d.sel.From].At
		s.Points = len(r.Nodes)
		s.Piece = d.sel.From != d.sel.To
		s.Line, s.Point, s.To = number(float64(d.ring+1)), number(float64(d.sel.From+1)), number(float64(d.sel.To+1))
		s.X, s.Y = number(geometry.Snap(at[0])), number(geometry.Snap(at[1]))
	} else if n := len(d.line); n > 0 {
		s.X, s.Y = number(d.line[n-1].At[0]), number(d.line[n-1].At[1])
	}
	s.Text = k.penText()
	return s
}

// penText says what to do next.
func (k *Desk) penText() string {
	d := k.pen
	what := map[string]string{penAdd: "is joined to the silhouette", penCut: "is cut away", penInstead: "takes the outline’s place"}[d.use]
	if d.id == "" {
		what = "becomes the silhouette"
	}
	switch {
	case d.way == penFree && d.half:
		return "Draw one half from the dashed line back to it. What you go round " + what + "."
	case d.way == penFree:
		return "Press and draw round a shape; it closes itself. What you go round " + what + "."
	case d.way == penPoints && len(d.line) == 0:
		return "Press where the first point goes. What the line goes round " + what + "."
	case d.way == penPoints && d.half:
		return "Set the next point; one on the dashed line, or Enter, ends the half."
	case d.way == penPoints:
		return "Set the next point; press the first again, or Enter, to close the line."
	case len(d.shape) == 0:
		return "There is no outline yet: draw one freehand or point by point."
	case !d.chosen:
		if d.half {
			return "Press a point to take it up, or the line between two to bend it; the image goes with it."
		}
		return "Press a point to take it up, or the line between two to bend it."
	}
	n := len(d.shape.Rings()[d.ring].Nodes)
	if d.sel.From == d.sel.To {
		v := d.shape.Rings()[d.ring].Nodes[d.sel.From]
		kind := "a corner"
		if v.Round {
			kind = "round"
		}
		return fmt.Sprintf("Point %d of %d, %s. Shift and a second point take the stretch between them.", d.sel.From+1, n, kind)
	}
	count := (d.sel.To-d.sel.From+n)%n + 1
	return fmt.Sprintf("A stretch of %d points, from %d to %d of %d.", count, d.sel.From+1, d.sel.To+1, n)
}

// penLabels are the figures of the drawing: the place of a point under the hand.
func (k *Desk) penLabels() []Label {
	d := k.pen
	var at orb.Point
	switch {
	case k.hand.deed == nudgingPoints && d.trial != nil:
		at = d.trial.Rings()[d.ring].Nodes[d.sel.From].At
	case k.hand.deed == setting && len(d.line) > 0:
		at = d.line[len(d.line)-1].At
	default:
		return nil
	}
	p := k.View.Map().Apply(at)
	return []Label{{X: p[0] + 16, Y: p[1] - 16, Text: k.length(at[0]) + ", " + k.length(at[1]), Kind: "handle", Align: "left"}}
}

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

// Knot is a point to draw: a corner is square. The first point of a line that is set is Ringed: pressing it closes the line.
type Knot struct {
	At                    orb.Point
	Round, Chosen, Ringed bool
}

// Sketch returns what is drawn; ok is false when the panel is shown.
func (k *Desk) Sketch() (s Sketch, ok bool) {
	d := k.pen
	if d == nil {
		return Sketch{}, false
	}
	s = Sketch{Outline: d.outline, Broken: d.trialText != "", Cut: d.use == penCut, Mirror: d.half, Axis: d.axis}
	s.Grid, s.Strong = k.squares()
	shape := d.shape
	if d.trial != nil {
		shape = d.trial
		s.Outline = shape.Outline()
	}
	if d.way == penMove {
		for i, r := range shape.Rings() {
			for j, v := range r.Nodes {
				s.Nodes = append(s.Nodes, Knot{At: v.At, Round: v.Round, Chosen: d.chosen && i == d.ring && k.inStretch(j)})
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
		if d.hovering && k.hand.deed == idle {
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

// leastSquarePX is how far apart the lines of the squares are at least, in px.
const leastSquarePX = 9.0

// squares returns how wide the squares under a drawing are, in mm: 1, 5 or 10 times a power of ten, ten of which make a
// strong one; in inches an eighth, a quarter, a half, and whole ones.
func (k *Desk) squares() (fine, strong float64) {
	need := leastSquarePX / k.View.Zoom
	if k.Inches {
		for _, s := range []float64{0.125, 0.25, 0.5, 1} {
			if s*mmPerInch >= need {
				return s * mmPerInch, mmPerInch * max(1, s*4)
			}
		}
		return mmPerInch * 12, mmPerInch * 120
	}
	p := math.Pow(10, math.Ceil(math.Log10(need)))
	if p/2 >= need {
		return p / 2, p * 5
	}
	return p, p * 10
}
