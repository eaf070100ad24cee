package view

import (
	"math"

	"github.com/paulmach/orb"
)

// Modifiers held while a pointer or a key acts.
const (
	Shift   = 1
	Control = 2
	Alt     = 4
	PanKey  = 8 // middle button, or the space bar held
)

const (
	// Slop is how far a pointer goes, in px, before a press becomes a drag.
	Slop = 3.0
	// MousePX and FingerPX are how near a mouse and a finger must come to a handle: targets are 44 px or more across.
	MousePX, FingerPX = 14.0, 24.0
	// signPX is how near a mouse must come to a small sign to read it.
	signPX = 9.0
)

// Event is what a pointer does on the canvas, in CSS px.
type Event struct {
	At     orb.Point
	From   orb.Point // where it was pressed
	Travel float64   // how far from there it has been
	Mods   int
	Touch  bool // it is a finger
}

// Dragged reports whether the press has become a drag.
func (e Event) Dragged() bool { return e.Travel >= Slop }

// Reach is how near the pointer must come to a handle.
func (e Event) Reach() float64 {
	if e.Touch {
		return FingerPX
	}
	return MousePX
}

// SignReach is how near it must come to a small sign.
func (e Event) SignReach() float64 {
	if e.Touch {
		return FingerPX / 2
	}
	return signPX
}

// Step is how far a key goes: a whole step, ten with Shift, a tenth with Alt.
func Step(mods int) float64 {
	switch {
	case mods&Shift != 0:
		return 10
	case mods&Alt != 0:
		return 0.1
	}
	return 1
}

// Steps of the keys.
const (
	NudgeMM = 1.0
	PanPX   = 60.0
)

// Arrow returns the direction of an arrow key, y up; ok is false for another key.
func Arrow(key string) (direction orb.Point, ok bool) {
	switch key {
	case "ArrowLeft":
		return orb.Point{-1, 0}, true
	case "ArrowRight":
		return orb.Point{1, 0}, true
	case "ArrowUp":
		return orb.Point{0, 1}, true
	case "ArrowDown":
		return orb.Point{0, -1}, true
	}
	return direction, false
}

// Label is text on the canvas, in CSS px.
type Label struct {
	_ [0]func() // no comparison: its code would be linked

	X     float64 `json:"x"`
	Y     float64 `json:"y"`
	Text  string  `json:"text"`
	Kind  string  `json:"kind"`  // "ruler-x", "ruler-y", "width" of a fault, "caution": of a warning, "note", "handle"
	Align string  `json:"align"` // "left", "center", "right"
	Emph  bool    `json:"emph,omitempty"`
	// Leader is the sign that a word belongs to, where a line leads from it to the word; Reach is how far from there
	// the line begins.
	Leader *[2]float64 `json:"leader,omitempty"`
	Reach  float64     `json:"reach,omitempty"`
}

// FromSegment returns how far p is from the segment from a to b.
func FromSegment(p, a, b orb.Point) float64 {
	dx, dy := b[0]-a[0], b[1]-a[1]
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = Clamp(((p[0]-a[0])*dx+(p[1]-a[1])*dy)/l, 0, 1)
	}
	return math.Hypot(p[0]-a[0]-t*dx, p[1]-a[1]-t*dy)
}
