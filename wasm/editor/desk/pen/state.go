package pen

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/wasm/editor/desk/view"
)

// State is what the page shows of the drawing. Numbers are mm in the silhouette's own frame; nil where there is nothing
// to show.
type State struct {
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

// State returns what the page shows of the drawing.
func (m *Mode) State() State {
	d := m.d
	if d == nil {
		return State{}
	}

	to := m.view.Map()
	s := State{Open: true, ID: d.id, Way: d.way, Use: d.use, Half: d.half, Round: d.round, Wrong: d.trialText,
		Chosen: d.chosen, Axis: d.axis, Within: d.within, Set: len(d.line), Map: [3]float64{m.view.Zoom, to.X, to.Y}}
	if o, ok := m.desk.Draft().Silhouette(d.id); ok {
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
	s.Text = m.text()
	return s
}

// text says what to do next.
func (m *Mode) text() string {
	d := m.d
	what := map[string]string{
		Add: "is joined to the silhouette", Cut: "is cut away", Instead: "takes the outline’s place",
	}[d.use]
	if d.id == "" {
		what = "becomes the silhouette"
	}

	switch {
	case d.way == Free && d.half:
		return "Draw one half from the dashed line back to it. What you go round " + what + "."
	case d.way == Free:
		return "Press and draw round a shape; it closes itself. What you go round " + what + "."
	case d.way == Points && len(d.line) == 0:
		return "Press where the first point goes. What the line goes round " + what + "."
	case d.way == Points && d.half:
		return "Set the next point; one on the dashed line, or Enter, ends the half."
	case d.way == Points:
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
		return fmt.Sprintf("Point %d of %d, %s. Shift and a second point take the stretch between them.",
			d.sel.From+1, n, kind)
	}
	count := (d.sel.To-d.sel.From+n)%n + 1
	return fmt.Sprintf("A stretch of %d points, from %d to %d of %d.", count, d.sel.From+1, d.sel.To+1, n)
}

// Labels are the figures of the drawing: the place of a point under the hand.
func (m *Mode) Labels() []view.Label {
	d := m.d
	var at orb.Point
	switch {
	case m.gesture == nudging && d.trial != nil:
		at = d.trial.Rings()[d.ring].Nodes[d.sel.From].At
	case m.gesture == setting && len(d.line) > 0:
		at = d.line[len(d.line)-1].At
	default:
		return nil
	}
	p := m.view.Map().Apply(at)
	text := m.desk.Unit().Length(at[0]) + ", " + m.desk.Unit().Length(at[1])
	return []view.Label{{X: p[0] + 16, Y: p[1] - 16, Text: text, Kind: "handle", Align: "left"}}
}
