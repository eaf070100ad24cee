package outline

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// setScale writes the picture's resolution into r and returns mm per pixel across and down. A typed height and a typed
// resolution count down the picture; across it the file's own ratio is kept, as some scanners and faxes have one.
func setScale(r *Result, d density, o Options) ([2]float64, error) {
	across, down := d.across, d.down
	typed := o.DPI > 0 || o.HeightMM > 0 || o.DistanceMM > 0
	r.DPISource = DPIFile
	if across < minDPI || across > maxDPI || down < minDPI || down > maxDPI {
		if across > 0 && down > 0 && !typed {
			r.Left = append(r.Left, fmt.Sprintf("The file says %.4g dpi, which cannot be; 300 dpi is assumed.", down))
		} else if !typed {
			r.Left = append(r.Left, "The file does not say at which resolution it was scanned; 300 dpi is assumed.")
		}
		across, down = DefaultDPI, DefaultDPI
		r.DPISource = DPIAssumed
	}
	switch {
	case o.DPI > 0:
		across, down = across*o.DPI/down, o.DPI
		r.DPISource = DPITyped
	case o.HeightMM > 0:
		dpi := float64(r.HeightPX) * mmPerInch / o.HeightMM
		across, down = across*dpi/down, dpi
		r.DPISource = DPIHeight
	case o.DistanceMM > 0:
		p, q := o.Points[0], o.Points[1]
		inches := math.Hypot((q[0]-p[0])/across, (q[1]-p[1])/down)
		if !(math.Hypot(q[0]-p[0], q[1]-p[1]) >= leastPoints) {
			return [2]float64{}, fmt.Errorf("the two points that give the scale are less than %d pixels from each other; put them further apart", leastPoints)
		}
		f := inches * mmPerInch / o.DistanceMM
		across, down = across*f, down*f
		r.DPISource = DPIPoints
		if !(down >= leastScale && down <= mostScale) {
			return [2]float64{}, fmt.Errorf("a distance of %.4g mm between the two points makes %.4g dpi, which cannot be; look at the points and the distance", o.DistanceMM, down)
		}
	}
	r.DPI = down
	scale := [2]float64{mmPerInch / across, mmPerInch / down}
	r.WidthMM, r.HeightMM = float64(r.WidthPX)*scale[0], float64(r.HeightPX)*scale[1]
	return scale, nil
}

// frame is where outlines lie on the picture.
type frame struct {
	scale [2]float64 // mm per pixel across and down
	turn  float64    // radians counter-clockwise that outlines were turned by about the middle of what is read
	crop  [4]int
}

// turned turns a point of what is read, in mm from its lower left corner, about its middle, or back.
func (f frame) turned(p orb.Point, back bool) orb.Point {
	if f.turn == 0 {
		return p
	}
	sin, cos := math.Sincos(f.turn)
	if back {
		sin = -sin
	}
	mx, my := float64(f.crop[2]-f.crop[0])*f.scale[0]/2, float64(f.crop[3]-f.crop[1])*f.scale[1]/2
	x, y := p[0]-mx, p[1]-my
	return orb.Point{mx + x*cos - y*sin, my + x*sin + y*cos}
}

// Pixel returns where a point of an outline lies on the picture, in pixels of the upright picture from its upper left
// corner, x to the right and y down: turned back and moved to where the part that was read has been. For an SVG drawing
// they are CSS pixels of its page.
func (r *Result) Pixel(p orb.Point) orb.Point {
	if r.frame.scale == [2]float64{} {
		if r.WidthMM <= 0 || r.HeightMM <= 0 {
			return p
		}
		perMM := float64(r.HeightPX) / r.HeightMM
		return orb.Point{p[0] * perMM, float64(r.HeightPX) - p[1]*perMM}
	}
	p = r.frame.turned(p, true)
	return orb.Point{float64(r.frame.crop[0]) + p[0]/r.frame.scale[0], float64(r.frame.crop[3]) - p[1]/r.frame.scale[1]}
}
