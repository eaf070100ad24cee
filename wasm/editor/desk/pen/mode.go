// Package pen is the pointer's mode in which a silhouette is drawn, in its own frame: freehand, point by point, or by
// moving the points of its outline.
package pen

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/pen"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/view"
)

// What the pointer does while a silhouette is drawn.
const (
	Free   = "free"   // draws freehand
	Points = "points" // sets points
	Move   = "move"   // moves points, bends pieces
)

// What becomes of a closed line.
const (
	Add     = "add"     // it is joined to the silhouette
	Cut     = "cut"     // it is cut away from it
	Instead = "instead" // it takes its place
)

const (
	// jitterPX is what a mouse and a pen are off by in CSS px, fingerJitterPX what a finger is.
	jitterPX, fingerJitterPX = 1.5, 3.0
	// freshMM is the part of the plane shown, in mm, when a new silhouette is begun.
	freshMM = 140.0
	// defaultWithin in mm is how far a stretch is smoothed or simplified when nobody has said.
	defaultWithin = 0.5
	// maxKnown bounds how many outlines' points are remembered.
	maxKnown = 60
)

var (
	ErrNotOpen = errors.New("no silhouette is open for drawing; open one in step 1 first")
	errNoPoint = errors.New("no point is chosen; press one, or press n")
)

// drawing is a silhouette open for drawing, in its own frame.
type drawing struct {
	id, made string // the silhouette; made remembers one that was begun here, through undoing and redoing
	outline  orb.MultiPolygon
	shape    pen.Shape

	way, use string
	half     bool    // a half is drawn, and its image in the mirror with it
	axis     float64 // of that mirror, mm
	round    bool    // points are set round
	within   float64 // mm, of smoothing and simplifying

	chosen bool // a stretch of a ring is
	ring   int  // of shape.Rings
	sel    pen.Stretch
	spot   float64 // where on the piece sel.From it was pressed, as a parameter

	stroke    []orb.Point // in hand, mm
	jitter    float64     // of it
	line      []pen.Point // being set
	taken     []pen.Point // points of the line that were undone, the last first
	hover     orb.Point   // where the pointer is, mm
	hovering  bool
	trial     pen.Shape // what is under the hand, nil when nothing is
	trialText string    // why that cannot be

	trialFaults, lineFaults []Fault // of what is under the hand, and of the line in hand

	was view.View // to go back to
}

// Desk is what a drawing is done on: the open draft, and the entry of its history that is being made.
type Desk interface {
	Draft() draft.Draft
	Begin()
	Step(c pattern.Command) error
	Commit(newest bool) error
	Abandon(dragged bool)
	Hold(repeat bool)
	EndNudge()
	LayOutAgain(inHand bool)
	PlaceNew(c *pattern.Command, outline orb.MultiPolygon)
	HoldNear(p orb.Point)
	FreshName(name string) string
	Demonstrates() bool
	ClearFor(name string)
	Touch()   // the page and the canvas show it anew
	Redrawn() // the canvas does
	Say(tone, text string)
	Unit() sheet.Unit
	Alone(id string) []sheet.Problem // what a check says of a silhouette by itself
	Scale(id string) float64         // how large it is cut
}

// Mode is the pointer's mode while a silhouette is drawn.
type Mode struct {
	desk    Desk
	view    *view.View
	known   map[*orb.Point]pen.Shape // the points that outlines were made of, by an outline's first point
	d       *drawing                 // nil when none is open
	gesture gesture
	blank   bool // it was begun on nothing
}

// gesture is what the pointer has in hand.
type gesture int

const (
	idle     gesture = iota
	resting          // pressed, with nothing of the drawing in hand
	stroking         // a line is drawn freehand
	setting          // a point of a line is set
	closing          // the first point of a line is pressed again
	nudging          // points of an outline are moved
	bending          // a piece of an outline is bent
)

// New returns the mode with nothing open.
func New(d Desk, v *view.View) *Mode {
	return &Mode{desk: d, view: v, known: map[*orb.Point]pen.Shape{}}
}

// IsOpen reports whether a silhouette is open for drawing.
func (m *Mode) IsOpen() bool { return m.d != nil }

// Sketching reports whether a line is in hand or being set.
func (m *Mode) Sketching() bool { return m.d != nil && (len(m.d.stroke) > 0 || len(m.d.line) > 0) }

// Forget drops what is open, without closing a line.
func (m *Mode) Forget() { m.d, m.gesture = nil, idle }

// ID returns the silhouette's id, empty for a new one that has no outline yet.
func (m *Mode) ID() string { return m.d.id }

// Shape returns the points of what is drawn.
func (m *Mode) Shape() pen.Shape { return m.d.shape }

// Line returns the points of the line that is set and not closed.
func (m *Mode) Line() []pen.Point { return m.d.line }

// Undone returns the points of the line that Redo would bring back.
func (m *Mode) Undone() []pen.Point {
	if m.d == nil || m.d.way != Points {
		return nil
	}
	return m.d.taken
}

// Chosen returns what chooses again the points that are chosen now, as long as the drawing is the same.
func (m *Mode) Chosen() func() {
	if m.d == nil {
		return func() {}
	}
	was := *m.d
	return func() {
		d := m.d
		if d == nil || d.id != was.id || len(d.outline) != len(was.outline) {
			return
		}
		d.chosen, d.ring, d.sel, d.spot, d.taken = was.chosen, was.ring, was.sel, was.spot, was.taken
	}
}

// ForgetUndone lets go of the points that were taken back.
func (m *Mode) ForgetUndone() { m.d.taken = nil }

// IsWay reports whether a word names what the pointer does.
func IsWay(word string) bool { return slices.Contains([]string{Free, Points, Move}, word) }

// Set is what the page sets by name while a silhouette is drawn: a word or a number in mm.
func (m *Mode) Set(name, word string, v float64) error {
	if m.d == nil {
		return ErrNotOpen
	}

	d := m.d
	if !(math.Abs(v) <= geometry.MaxCoordinate) {
		return fmt.Errorf("a drawing reaches up to %.0f mm from its origin; give a number no larger than that",
			float64(geometry.MaxCoordinate))
	}

	switch name {
	case "way":
		return m.setWay(word)
	case "use":
		if !slices.Contains([]string{Add, Cut, Instead}, word) {
			return fmt.Errorf("what a line goes round is used to %s, %s or stand %s, not to %.40q",
				Add, Cut, Instead, word)
		}
		d.use = word
	case "half":
		d.half = !d.half
	case "round":
		d.round = word == "round"
	case "axis":
		d.axis = geometry.Snap(v)
	case "within":
		if !(v > 0 && v <= 50) {
			return errors.New("smoothing goes from a hundredth of a millimetre to 50 mm; 0.5 is usual")
		}
		d.within = v
	case "line", "point", "to":
		return m.choosePoint(name, int(v))
	case "x", "y":
		return m.setPoint(name, v)
	default:
		return fmt.Errorf("there is nothing called %.40q to set", name)
	}
	return nil
}

// setWay chooses what the pointer does; a line of points is closed before another way is taken.
func (m *Mode) setWay(word string) error {
	if !IsWay(word) {
		return fmt.Errorf("a drawing is done in the way %s, %s or %s, not %.40q", Free, Points, Move, word)
	}

	m.Drop(0)
	if word != Points {
		if err := m.closeLine(); err != nil {
			return err
		}
	}

	d := m.d
	d.way, d.chosen, d.hovering = word, d.chosen && word == Move, false
	return nil
}

// Open opens a silhouette for drawing, or a new one for an empty id.
func (m *Mode) Open(id string) error {
	d := &drawing{id: id, way: Free, use: Add, within: defaultWithin, was: *m.view}
	if id != "" {
		d.way = Move
	}

	m.d = d
	if _, err := m.Sync(); err != nil {
		m.d = nil
		return err
	}
	if len(d.shape) > 0 {
		d.axis = geometry.Snap(d.outline.Bound().Center()[0])
	}

	m.Fit()
	m.desk.Touch()
	return nil
}

// Leave goes back to the panel; a line that is not closed is closed if it can be.
func (m *Mode) Leave() {
	if err := m.closeLine(); err != nil {
		m.desk.Say("error", pattern.Sentence(err.Error()))
	}
	was := m.d.was
	m.Forget()
	m.view.Zoom, m.view.Centre, m.view.Whole = was.Zoom, was.Centre, was.Whole
	if m.view.Whole {
		m.view.Fit(m.desk.Draft().PanelBound())
	}
	m.desk.HoldNear(m.view.Centre)
	m.desk.Touch()
}

// Fit shows the whole of what is drawn.
func (m *Mode) Fit() { m.view.Fit(m.bound()) }

// bound is what is shown of the plane when a silhouette is opened.
func (m *Mode) bound() orb.Bound {
	if b := m.d.outline.Bound(); len(m.d.outline) > 0 {
		return b.Pad(0.12 * max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]))
	}
	return orb.Bound{Min: orb.Point{-freshMM / 2, -freshMM / 2}, Max: orb.Point{freshMM / 2, freshMM / 2}}
}
