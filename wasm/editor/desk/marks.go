package desk

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/sheet"
)

// Label is text on the canvas, in CSS px.
type Label struct {
	X     float64 `json:"x"`
	Y     float64 `json:"y"`
	Text  string  `json:"text"`
	Kind  string  `json:"kind"`  // "ruler-x", "ruler-y", "width" of a fault, "caution": of a warning, "note", "handle"
	Align string  `json:"align"` // "left", "center", "right"
	Emph  bool    `json:"emph,omitempty"`
}

// Mark is a fault drawn on the canvas, in CSS px.
type Mark struct {
	Kind    sheet.Kind
	Warning bool
	Current bool
	At      orb.Point
	A, B    orb.Point // the ends of a dimension line; equal when there is none
	Radius  float64   // of a ring
}

const (
	// fewMarks is how many places may carry a figure each; with more, one place of each fault does.
	fewMarks = 14
	// mostMarks bounds the places drawn; the nearest to the middle of the view are.
	mostMarks = 600
	ringPX    = 11.0
	// roomPX is how far apart marks are kept.
	roomPX = 46.0
)

// Marks returns the faults to draw and their figures.
func (k *Desk) Marks() ([]Mark, []Label) {
	if k.layout == nil {
		return nil, nil
	}
	groups := k.groups
	if k.InHand() {
		groups = group(k.liveProblems())
	}
	m := k.View.Map()
	window := k.View.Window().Pad(20 / k.View.Zoom)
	type spot struct {
		mark  Mark
		text  string
		group int
	}
	var spots []spot
	for i, g := range groups {
		for _, p := range g.places {
			if !window.Contains(p.At) || len(spots) >= mostMarks {
				continue
			}
			s := spot{mark: k.markOf(m.Apply, p), group: i}
			s.mark.Current = i == k.fault
			// From far off places lie closer together than their marks are large: some stand for all, the worst fault's
			// first, and those of the fault gone to whatever else is there.
			if room := math.Max(roomPX, 2.5*s.mark.Radius); slices.ContainsFunc(spots, func(o spot) bool {
				return (o.group == i || i != k.fault) && far(o.mark.At, s.mark.At) < room
			}) {
				continue
			}
			if p.Ends != nil && p.Kind != sheet.Island {
				s.text = k.measure(math.Abs(p.Measured))
			}
			spots = append(spots, s)
		}
	}
	var marks []Mark
	var labels []Label
	centre := m.Apply(k.View.Centre)
	nearest := make([]int, len(groups))
	for i := range nearest {
		nearest[i] = -1
	}
	for i, s := range spots {
		marks = append(marks, s.mark)
		if j := nearest[s.group]; j < 0 || far(s.mark.At, centre) < far(spots[j].mark.At, centre) {
			nearest[s.group] = i
		}
	}
	var placed []orb.Point
	label := func(s spot) {
		if s.text == "" {
			return
		}
		l := labelFor(s.mark, s.text)
		for _, p := range placed {
			if math.Abs(p[0]-l.X) < 64 && math.Abs(p[1]-l.Y) < 16 {
				return
			}
		}
		placed = append(placed, orb.Point{l.X, l.Y})
		labels = append(labels, l)
	}
	if k.fault >= 0 && k.fault < len(nearest) && nearest[k.fault] >= 0 {
		label(spots[nearest[k.fault]])
	}
	for _, i := range nearest {
		if i >= 0 {
			label(spots[i])
		}
	}
	if len(spots) <= fewMarks {
		for _, s := range spots {
			label(s)
		}
	}
	return marks, labels
}

func far(p, q orb.Point) float64 { return math.Hypot(p[0]-q[0], p[1]-q[1]) }

func (k *Desk) markOf(apply func(orb.Point) orb.Point, p sheet.Problem) Mark {
	out := Mark{Kind: p.Kind, Warning: p.Severity == sheet.Warning, At: apply(p.At)}
	out.A, out.B = out.At, out.At
	switch {
	case p.Kind == sheet.Island:
		out.Radius = math.Max(ringPX, math.Sqrt(p.Measured/math.Pi)*k.View.Zoom+6)
	case p.Kind == sheet.Overlap || p.Ends == nil:
		out.Radius = ringPX
	default:
		out.A, out.B = apply(p.Ends[0]), apply(p.Ends[1])
	}
	return out
}

// labelFor sets a figure beside its dimension line, on the side that leads to the right.
func labelFor(m Mark, text string) Label {
	x := math.Max(m.A[0], m.B[0]) + 12
	y := (m.A[1] + m.B[1]) / 2
	l := Label{X: x, Y: y, Text: text, Kind: "width", Align: "left", Emph: m.Current}
	if m.Warning {
		l.Kind = "caution"
	}
	return l
}

// Labels returns all text of the canvas: the rulers' figures and the faults'.
func (k *Desk) Labels() []Label {
	across, up := k.Rulers()
	out := []Label{}
	for _, t := range across {
		if t.Long {
			out = append(out, Label{X: t.At, Y: 10, Text: t.Text, Kind: "ruler-x", Align: "center"})
		}
	}
	for _, t := range up {
		if t.Long {
			out = append(out, Label{X: 12, Y: t.At, Text: t.Text, Kind: "ruler-y", Align: "center"})
		}
	}
	if k.pen != nil {
		return append(out, k.penLabels()...)
	}
	_, labels := k.Marks()
	out = append(out, labels...)
	if k.hand.deed == tying && k.tie >= 0 && k.tie < len(k.Draft().Ties) {
		out = append(out, Label{X: k.hand.last[0] + 16, Y: k.hand.last[1] - 14, Text: k.measure(k.tieState().Width), Kind: "handle", Align: "left"})
	}
	if k.InHand() && k.selected != "" {
		out = append(out, k.handLabel()...)
	}
	return out
}

// handLabel tells the figure that the hand is changing, beside the handle.
func (k *Desk) handLabel() []Label {
	i := k.Draft().Motif(k.selected)
	if i < 0 {
		return nil
	}
	m, h := k.Draft().Motifs[i], k.Handles()
	l := Label{X: h.Centre[0], Y: h.Centre[1] - h.Radius - 12, Kind: "handle", Align: "center"}
	switch k.hand.deed {
	case turning:
		l.Text = trim(m.Turn, 1) + "°"
	case scaling:
		l.Text = "× " + trim(m.Scale, 3)
	default:
		return nil
	}
	return []Label{l}
}

// Visible returns the copies to draw: those the edge rule keeps and the canvas shows.
func (k *Desk) Visible() []pattern.Copy {
	if k.layout == nil {
		return nil
	}
	return k.layout.CopiesIn(k.View.Window())
}
