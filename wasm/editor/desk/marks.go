package desk

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/say"
	"openwork/wasm/editor/desk/view"
)

// Mark is a fault or a warning drawn on the canvas, in CSS px.
type Mark struct {
	Sign    sheet.Sign
	Warning bool
	Current bool
	At      orb.Point
	A, B    orb.Point // the ends of a dimension line, or of the width of a strip; equal when there is none
	Radius  float64   // of a ring, a bead or a lozenge
}

const (
	// maxFigures is how many places may carry a figure each; with more, one place of each fault does.
	maxFigures = 14
	// maxMarks bounds the places drawn: those of the worst faults first.
	maxMarks = 600
	ringPX   = 11.0
	beadPX   = 3.5
	// roomPX is how far apart marks are kept.
	roomPX = 46.0
)

// spot is a mark, its word, and the fault that it belongs to.
type spot struct {
	mark  Mark
	text  string
	group int
}

// Marks returns the faults and warnings to draw, and their words.
func (s *Session) Marks() ([]Mark, []view.Label) {
	if s.layout == nil {
		return nil, nil
	}

	groups, current := s.shown(), s.fault
	if s.following() {
		current = -1
	}

	spots := s.spots(groups, current)

	marks := make([]Mark, len(spots))
	centre := s.view.Map().Apply(s.view.Centre)
	nearest := make([]int, len(groups)) // the spot of each fault that is nearest to the middle
	for i := range nearest {
		nearest[i] = -1
	}

	for i, one := range spots {
		marks[i] = one.mark
		j := nearest[one.group]
		if j < 0 || geometry.PointDistance(one.mark.At, centre) < geometry.PointDistance(spots[j].mark.At, centre) {
			nearest[one.group] = i
		}
	}

	// The fault gone to has its word first, then one place of each, then every place of a fault where they are few.
	var order []int
	if current >= 0 && current < len(nearest) {
		order = append(order, nearest[current])
	}

	order = append(order, nearest...)
	if len(spots) <= maxFigures {
		for i, one := range spots {
			if !one.mark.Warning {
				order = append(order, i)
			}
		}
	}
	return marks, labelled(spots, order)
}

// spots returns what is drawn in the window, no two closer than their marks are large. From far off some places stand
// for all: those of the worst fault first, and of the fault gone to every one, whatever else is there.
func (s *Session) spots(groups []say.Fault, current int) []spot {
	m := s.view.Map()
	window := s.view.Window().Pad(20 / s.view.Zoom)
	var spots []spot
	near := newCrowd(roomPX)
	for i, g := range groups {
		for _, p := range g.Places {
			if len(spots) >= maxMarks {
				return spots
			}
			if !window.Contains(p.At) {
				continue
			}
			one := spot{mark: s.markOf(m.Apply, p), group: i}
			if one.mark.Sign == sheet.SignNone {
				continue
			}
			one.mark.Current = i == current
			at, room := one.mark.At, math.Max(roomPX, 2.5*one.mark.Radius)
			if near.any(at[0], at[1], room, func(o int) bool {
				return (spots[o].group == i || i != current) && geometry.PointDistance(spots[o].mark.At, at) < room
			}) {
				continue
			}
			one.text = s.words().Label(p)
			near.add(at[0], at[1], len(spots))
			spots = append(spots, one)
		}
	}
	return spots
}

// A word takes up to wordWide × wordHigh CSS px.
const wordWide, wordHigh = 64, 16

// over reports whether two words would stand on each other.
func over(a, b view.Label) bool { return math.Abs(a.X-b.X) < wordWide && math.Abs(a.Y-b.Y) < wordHigh }

// labelled returns the words of spots in an order, those left out that would stand on another.
func labelled(spots []spot, order []int) []view.Label {
	var out []view.Label
	done := make([]bool, len(spots))
	for _, i := range order {
		if i < 0 || done[i] || spots[i].text == "" {
			continue
		}
		done[i] = true
		l := labelFor(spots[i].mark, spots[i].text)
		if !slices.ContainsFunc(out, func(o view.Label) bool { return over(o, l) }) {
			out = append(out, l)
		}
	}
	return out
}

func (s *Session) markOf(apply func(orb.Point) orb.Point, p sheet.Problem) Mark {
	out := Mark{Sign: signOf(p), Warning: p.Severity == sheet.Warning, At: apply(p.At)}
	out.A, out.B = out.At, out.At
	if p.Ends != nil {
		out.A, out.B = apply(p.Ends[0]), apply(p.Ends[1])
	}

	switch out.Sign {
	case sheet.SignDoubleRing:
		out.Radius = math.Max(ringPX, math.Sqrt(p.Measured/math.Pi)*s.view.Zoom+6)
	case sheet.SignRing, sheet.SignCrossed, sheet.SignBroken:
		out.Radius = ringPX
	case sheet.SignBead, sheet.SignLozenge, sheet.SignTwin, sheet.SignBars:
		out.Radius = beadPX
	}
	return out
}

// labelFor sets a word beside its sign, to the right: beside a dimension line, or a little above a small sign, with a
// line that leads to it.
func labelFor(m Mark, text string) view.Label {
	l := view.Label{X: math.Max(m.A[0], m.B[0]) + 12, Y: (m.A[1] + m.B[1]) / 2, Text: text,
		Kind: "width", Align: "left", Emph: m.Current}
	if m.Warning {
		l.Kind = "caution"
	}
	if small(m.Sign) {
		l.X, l.Y = m.At[0]+15, m.At[1]-13
		l.Leader, l.Reach = &[2]float64{m.At[0], m.At[1]}, m.Radius+1.5
	} else if m.Radius > 0 {
		l.X, l.Y = m.At[0]+m.Radius+5, m.At[1]
	}
	return l
}

// Labels returns all text of the canvas: the rulers' figures and the faults'.
func (k *Desk) Labels() []view.Label {
	across, up := k.View.Rulers(k.Session.Inches)
	out := []view.Label{}
	for _, t := range across {
		if t.Long {
			out = append(out, view.Label{X: t.At, Y: 10, Text: t.Text, Kind: "ruler-x", Align: "center"})
		}
	}

	for _, t := range up {
		if t.Long {
			out = append(out, view.Label{X: 12, Y: t.At, Text: t.Text, Kind: "ruler-y", Align: "center"})
		}
	}
	if k.pen.IsOpen() {
		return append(append(out, k.drawnLabels()...), k.pen.Labels()...)
	}

	_, labels := k.Session.Marks()
	out = append(out, labels...)
	out = append(out, k.Session.gapLabels()...)
	out = append(out, k.ties.Labels()...)
	return append(out, k.copies.Labels()...)
}

// Visible returns the copies to draw: those the edge rule keeps and the canvas shows.
func (s *Session) Visible() []pattern.Copy {
	if s.layout == nil {
		return nil
	}
	return s.layout.CopiesIn(s.view.Window())
}
