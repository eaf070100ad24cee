package pen

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
	"openwork/pattern"
	"openwork/wasm/editor/desk/view"
)

// Down begins what the pointer does while a silhouette is drawn; it reports whether something of the drawing is in
// hand.
func (m *Mode) Down(e view.Event) bool {
	m.gesture = m.begin(e)
	m.blank = m.gesture == resting && e.Mods&(view.PanKey|view.Shift) == 0
	return m.Holding()
}

// Holding reports whether something of the drawing is in hand.
func (m *Mode) Holding() bool { return m.gesture > resting }

func (m *Mode) begin(e view.Event) gesture {
	d := m.d
	m.view.Whole = false // the drawing stays where it is while it is drawn
	at := m.view.Panel(e.At[0], e.At[1])
	if e.Mods&view.PanKey != 0 {
		return resting
	}

	switch d.way {
	case Free:
		d.jitter = jitterPX / m.view.Zoom
		if e.Touch {
			d.jitter = fingerJitterPX / m.view.Zoom
		}
		d.stroke, d.lineFaults = []orb.Point{at}, nil
		return stroking
	case Points:
		return m.downPoint(e, at)
	}

	reach := e.Reach() / m.view.Zoom
	if ring, node, ok := m.nodeAt(at, reach); ok {
		switch {
		case e.Mods&view.Shift != 0 && d.chosen && ring == d.ring:
			d.sel.To = node
			return resting // a press alone
		case !d.chosen || ring != d.ring || !m.inStretch(node):
			d.ring, d.sel, d.chosen = ring, pen.Stretch{From: node, To: node}, true
		}
		d.hover = at
		return nudging
	}
	if ring, piece, t, ok := m.pieceAt(at, reach); ok {
		n := len(d.shape.Rings()[ring].Nodes)
		d.ring, d.sel, d.spot, d.chosen = ring, pen.Stretch{From: piece, To: (piece + 1) % n}, t, true
		return bending
	}
	return resting
}

// downPoint sets the next point of the line, or closes it when the first is pressed again.
func (m *Mode) downPoint(e view.Event, at orb.Point) gesture {
	d := m.d
	reach := e.Reach()
	if n := len(d.line); n > 1 && geometry.PointDistance(m.view.Map().Apply(d.line[0].At), e.At) < reach {
		return closing // when it is let go of, so that a second finger may come
	}
	d.line, d.taken = append(d.line, pen.Point{At: m.onMirror(at, reach), Round: d.round}), nil
	m.watchLine(d.line)
	return setting
}

// onMirror draws a place onto the mirror while a half is set and it lies near there.
func (m *Mode) onMirror(at orb.Point, reach float64) orb.Point {
	if d := m.d; d.half && math.Abs(at[0]-d.axis)*m.view.Zoom < reach {
		at[0] = d.axis
	}
	return orb.Point{geometry.Snap(at[0]), geometry.Snap(at[1])}
}

func (m *Mode) inStretch(node int) bool {
	d := m.d
	n := len(d.shape.Rings()[d.ring].Nodes)
	span := (d.sel.To - d.sel.From + n) % n
	return (node-d.sel.From+n)%n <= span
}

// nodeAt returns the node nearest to a place, within reach mm.
func (m *Mode) nodeAt(at orb.Point, reach float64) (ring, node int, ok bool) {
	for i, r := range m.d.shape.Rings() {
		for j, v := range r.Nodes {
			if e := geometry.PointDistance(v.At, at); e < reach {
				ring, node, reach, ok = i, j, e, true
			}
		}
	}
	return ring, node, ok
}

// pieceAt returns the piece nearest to a place, within reach mm.
func (m *Mode) pieceAt(at orb.Point, reach float64) (ring, piece int, t float64, ok bool) {
	for i, r := range m.d.shape.Rings() {
		if p, u, e := r.Nearest(at); e < reach {
			ring, piece, t, reach, ok = i, p, u, e, true
		}
	}
	return ring, piece, t, ok
}

// Move goes on with what is in hand.
func (m *Mode) Move(e view.Event) {
	d := m.d
	at := m.view.Panel(e.At[0], e.At[1])
	m.desk.Redrawn()
	switch m.gesture {
	case stroking:
		if last := d.stroke[len(d.stroke)-1]; geometry.PointDistance(last, at)*m.view.Zoom >= 0.5 {
			d.stroke = append(d.stroke, at)
			told := len(d.lineFaults)
			if m.watchStroke(); told != len(d.lineFaults) {
				m.desk.Touch()
			}
		}
	case setting:
		if n := len(d.line); n > 0 && e.Dragged() {
			d.line[n-1].At = m.onMirror(at, view.MousePX/2)
			told := len(d.lineFaults)
			if m.watchLine(d.line); told != len(d.lineFaults) {
				m.desk.Touch()
			}
		}
	case nudging:
		if e.Dragged() {
			m.tryOut(m.movedBy(geometry.Sub(at, d.hover)))
		}
	case bending:
		if e.Dragged() {
			m.tryOut(m.bentTo(at))
		}
	}
}

// tryOut shows a shape under the hand, and whether it can be.
func (m *Mode) tryOut(s pen.Shape) {
	d := m.d
	was, told, outline := d.trialText, len(d.trialFaults), s.Outline()
	d.trial, d.trialText = s, ""
	if err := pen.Check(outline); err != nil {
		d.trialText = pattern.Sentence(err.Error())
	}
	if m.watchTrial(s, outline); was != d.trialText || told != len(d.trialFaults) {
		m.desk.Touch()
	}
}

// Up lets go of what is in hand and makes something of it; a press on nothing lets go of the chosen points.
func (m *Mode) Up(e view.Event) {
	d, g := m.d, m.gesture
	m.gesture = idle
	if m.blank && !e.Dragged() {
		d.chosen = false
	}

	m.desk.Touch()
	switch g {
	case stroking:
		stroke := d.stroke
		d.stroke = nil
		if !e.Dragged() {
			return
		}
		m.sayError(m.useStroke(stroke))
	case closing:
		m.sayError(m.closeLine())
	case setting:
		if n := len(d.line); d.half && n > 1 && d.line[n-1].At[0] == d.axis {
			m.sayError(m.closeLine())
		}
	case nudging, bending:
		if d.trial == nil {
			return
		}
		shape := d.trial
		d.trial, d.trialText = nil, ""
		if err := m.putShape(shape); err != nil {
			m.sayError(fmt.Errorf("%w; it is as it was before", err))
		}
	}
}

// sayError shows the person why something could not be.
func (m *Mode) sayError(err error) {
	if err != nil {
		m.desk.Say("error", pattern.Sentence(err.Error()))
	}
}

// Hover follows the pointer while nothing is pressed.
func (m *Mode) Hover(e view.Event) {
	m.d.hovering = m.d.way == Points
	m.follow(e)
}

// HoverEnd is called when the pointer leaves the canvas.
func (m *Mode) HoverEnd(e view.Event) {
	m.d.hovering = false
	m.follow(e)
}

func (m *Mode) follow(e view.Event) {
	if d := m.d; d.hovering || len(d.line) > 0 {
		d.hover = m.onMirror(m.view.Panel(e.At[0], e.At[1]), view.MousePX/2)
		if n := len(d.line); n > 0 && d.hovering {
			told := len(d.lineFaults)
			m.watchLine(append(d.line[:n:n], pen.Point{At: d.hover, Round: d.round}))
			if told != len(d.lineFaults) {
				m.desk.Touch()
			}
		}
		m.desk.Redrawn()
	}
}

// Cursor is the cursor's name.
func (m *Mode) Cursor(e view.Event) string {
	if m.d.way != Move {
		return "crosshair"
	}
	at, reach := m.view.Panel(e.At[0], e.At[1]), e.Reach()/m.view.Zoom
	if _, _, ok := m.nodeAt(at, reach); ok {
		return "pointer"
	}
	if _, _, _, ok := m.pieceAt(at, reach); ok {
		return "grab"
	}
	return "default"
}

// Drop puts back what the pointer has in hand.
func (m *Mode) Drop(float64) {
	g := m.gesture
	m.gesture = idle
	if m.d == nil || g <= resting {
		return
	}
	d := m.d
	d.stroke, d.trial, d.trialText = nil, nil, ""
	if g == setting && len(d.line) > 0 {
		d.line = d.line[:len(d.line)-1]
	}
	m.desk.Touch()
}

// LetGo ends what is in hand before something else changes the draft: a point that is set stays, a stroke or a trial,
// which is nothing yet, goes.
func (m *Mode) LetGo(travel float64) {
	if m.gesture == setting {
		m.gesture = idle
	}
	m.Drop(travel)
}
