// Package view is how the panel lies on the canvas, and what a pointer does there.
package view

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// The strips along the top and the left of the canvas that hold the rulers, in CSS px.
const (
	RulerTop  = 28.0
	RulerLeft = 40.0
)

const (
	MinZoom, MaxZoom = 0.02, 200.0 // px per mm: a panel of 20 m on a phone, a bridge of 1 mm over a fifth of a screen
	fitAir           = 26.0        // px left round the panel when it is fitted
	// maxPX is how far off the canvas a pointer's event may say it is, either way: far over any screen.
	maxPX = 1e5
	// MaxAway in mm is how far off the panel's corner the middle of the view may lie, either way: as far as a motif
	// may stand, and near enough for a ruler's marks to be counted there.
	MaxAway = 1e6
	// MaxCanvas in px bounds the canvas's sides: four times the widest screen.
	MaxCanvas = 30000.0
)

// View is how the panel lies on the canvas: Zoom CSS px to the mm, and the panel point in the middle of the free part
// of the canvas. It is no part of the draft.
type View struct {
	Zoom          float64
	Centre        orb.Point
	Width, Height float64 // of the canvas, CSS px
	Whole         bool    // it shows all there is, and goes on doing so when the canvas changes its size
}

// Middle returns the canvas point at which Centre lies.
func (v View) Middle() orb.Point {
	return orb.Point{(v.Width + RulerLeft) / 2, (v.Height + RulerTop) / 2}
}

// Map returns the map from panel mm to canvas px, y downward.
func (v View) Map() geometry.Map {
	m := v.Middle()
	return geometry.Map{A: v.Zoom, D: -v.Zoom, X: m[0] - v.Zoom*v.Centre[0], Y: m[1] + v.Zoom*v.Centre[1]}
}

// Panel returns the panel point under a canvas point.
func (v View) Panel(x, y float64) orb.Point {
	m := v.Middle()
	return orb.Point{v.Centre[0] + (x-m[0])/v.Zoom, v.Centre[1] - (y-m[1])/v.Zoom}
}

// Window returns the part of the panel's plane that the canvas shows, rulers left out.
func (v View) Window() orb.Bound {
	a, b := v.Panel(RulerLeft, v.Height), v.Panel(v.Width, RulerTop)
	return orb.Bound{Min: a, Max: b}
}

// Fit shows a rectangle of the panel whole.
func (v *View) Fit(b orb.Bound) {
	defer func() { v.Whole = true }()
	w, h := v.Width-RulerLeft-2*fitAir, v.Height-RulerTop-2*fitAir
	bw, bh := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	if w < 40 || h < 40 || !(bw > 0) || !(bh > 0) {
		return
	}
	v.Zoom = Clamp(math.Min(w/bw, h/bh), MinZoom, MaxZoom)
	v.LookAt(b.Center())
}

// LookAt puts a panel point into the middle, or the nearest one that is not too far away; one that is no number stays
// out.
func (v *View) LookAt(p orb.Point) {
	v.Whole = false
	for i, at := range p {
		if !math.IsNaN(at) {
			v.Centre[i] = Clamp(at, -MaxAway, MaxAway)
		}
	}
}

// OnCanvas returns a pointer's place as its event gives it, no further off the canvas than maxPX; false for one that
// is no number.
func OnCanvas(x, y float64) (orb.Point, bool) {
	return orb.Point{Clamp(x, -maxPX, maxPX), Clamp(y, -maxPX, maxPX)}, !math.IsNaN(x) && !math.IsNaN(y)
}

// ZoomAt multiplies the zoom by f and keeps the panel point under (x, y) where it is.
func (v *View) ZoomAt(x, y, f float64) {
	if !Finite(x, y, f) {
		return
	}
	p := v.Panel(x, y)
	v.Zoom = Clamp(v.Zoom*f, MinZoom, MaxZoom)
	q := v.Panel(x, y)
	v.LookAt(orb.Point{v.Centre[0] + p[0] - q[0], v.Centre[1] + p[1] - q[1]})
}

// Pan moves the panel by (dx, dy) px.
func (v *View) Pan(dx, dy float64) {
	v.LookAt(orb.Point{v.Centre[0] - dx/v.Zoom, v.Centre[1] + dy/v.Zoom})
}

// Clamp returns x, or the nearer end of the span from lo to hi.
func Clamp(x, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, x)) }

// Finite reports whether all are numbers.
func Finite(all ...float64) bool {
	for _, v := range all {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
