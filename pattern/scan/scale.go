package scan

import (
	"openwork/pattern/outline"

	"fmt"
	"math"
)

// setScale writes the picture's resolution into r and returns mm per pixel across and down. A typed height and a typed
// resolution count down the picture; across it the file's own ratio is kept, as some scanners and faxes have one.
func setScale(r *outline.Result, d density, o outline.Options) ([2]float64, error) {
	across, down := d.across, d.down
	typed := o.DPI > 0 || o.HeightMM > 0 || o.DistanceMM > 0
	r.DPISource = outline.DPIFile
	if across < outline.MinDPI || across > outline.MaxDPI || down < outline.MinDPI || down > outline.MaxDPI {
		if across > 0 && down > 0 && !typed {
			r.Left = append(r.Left, fmt.Sprintf("The file says %.4g dpi, which cannot be; 300 dpi is assumed.", down))
		} else if !typed {
			r.Left = append(r.Left, "The file does not say at which resolution it was scanned; 300 dpi is assumed.")
		}
		across, down = outline.DefaultDPI, outline.DefaultDPI
		r.DPISource = outline.DPIAssumed
	}

	switch {
	case o.DPI > 0:
		across, down = across*o.DPI/down, o.DPI
		r.DPISource = outline.DPITyped
	case o.HeightMM > 0:
		dpi := float64(r.HeightPX) * outline.MMPerInch / o.HeightMM
		across, down = across*dpi/down, dpi
		r.DPISource = outline.DPIHeight
	case o.DistanceMM > 0:
		p, q := o.Points[0], o.Points[1]
		inches := math.Hypot((q[0]-p[0])/across, (q[1]-p[1])/down)
		if !(math.Hypot(q[0]-p[0], q[1]-p[1]) >= minPoints) {
			return [2]float64{}, fmt.Errorf("the two points that give the scale are less than %d pixels from each "+
				"other; put them further apart", minPoints)
		}
		f := inches * outline.MMPerInch / o.DistanceMM
		across, down = across*f, down*f
		r.DPISource = outline.DPIPoints
		if !(down >= minScale && down <= maxScale) {
			return [2]float64{}, fmt.Errorf("a distance of %.4g mm between the two points makes %.4g dpi, which "+
				"cannot be; look at the points and the distance", o.DistanceMM, down)
		}
	}

	r.DPI = down
	scale := [2]float64{outline.MMPerInch / across, outline.MMPerInch / down}
	r.WidthMM, r.HeightMM = float64(r.WidthPX)*scale[0], float64(r.HeightPX)*scale[1]
	return scale, nil
}
