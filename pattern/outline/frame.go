package outline

import (
	"math"

	"github.com/paulmach/orb"
)

// Frame is where outlines lie on the picture.
type Frame struct {
	Scale [2]float64 // mm per pixel across and down
	Turn  float64    // radians counter-clockwise that outlines were turned by about the middle of what is read
	Crop  [4]int
}

// Turned turns a point of what is read, in mm from its lower left corner, about its middle, or back.
func (f Frame) Turned(p orb.Point, back bool) orb.Point {
	if f.Turn == 0 {
		return p
	}
	sin, cos := math.Sincos(f.Turn)
	if back {
		sin = -sin
	}
	mx, my := float64(f.Crop[2]-f.Crop[0])*f.Scale[0]/2, float64(f.Crop[3]-f.Crop[1])*f.Scale[1]/2
	x, y := p[0]-mx, p[1]-my
	return orb.Point{mx + x*cos - y*sin, my + x*sin + y*cos}
}

// Pixel returns where a point of an outline lies on the picture, in pixels of the upright picture from its upper left
// corner, x to the right and y down: turned back and moved to where the part that was read has been. For an SVG drawing
// they are CSS pixels of its page.
func (r *Result) Pixel(p orb.Point) orb.Point {
	if r.Frame.Scale == [2]float64{} {
		if r.WidthMM <= 0 || r.HeightMM <= 0 {
			return p
		}
		perMM := float64(r.HeightPX) / r.HeightMM
		return orb.Point{p[0] * perMM, float64(r.HeightPX) - p[1]*perMM}
	}
	p = r.Frame.Turned(p, true)
	return orb.Point{float64(r.Frame.Crop[0]) + p[0]/r.Frame.Scale[0], float64(r.Frame.Crop[3]) - p[1]/r.Frame.Scale[1]}
}
