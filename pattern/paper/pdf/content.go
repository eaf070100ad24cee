package pdf

import (
	"fmt"
	"math"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/letters"
)

// Content is what is drawn on a page or kept in a Form, in order. Every path is begun, gone along and then painted.
type Content struct {
	b    []byte
	used map[letter]string // letters written, and what each stands for

	drawn []letters.Drawn // the file's
}

// RGB is a colour, 0 to 255 each.
type RGB struct{ R, G, B uint8 }

// coordinate is the finest step that is written, in mm: 0.0003 pt.
const coordinate = 1e-4

// number appends a length in mm to whole steps of 0.0001.
func number(b []byte, v float64) []byte {
	return strconv.AppendFloat(b, math.Round(v/coordinate)*coordinate+0, 'f', -1, 64)
}

// factor appends a number without a unit, to eight places, as PDF knows it: without an exponent.
func factor(b []byte, v float64) []byte {
	return strconv.AppendFloat(b, math.Round(v*1e8)/1e8+0, 'f', -1, 64)
}

// op appends lengths and an operator.
func (c *Content) op(name string, v ...float64) {
	for _, x := range v {
		c.b = append(number(c.b, x), ' ')
	}
	c.b = append(append(c.b, name...), '\n')
}

// Save keeps the state of drawing: colours, lines, map and clip; Restore goes back to what was kept last.
func (c *Content) Save() { c.op("q") }

// Restore goes back to the state kept by Save.
func (c *Content) Restore() { c.op("Q") }

// Map puts all that is drawn from here on through a map first.
func (c *Content) Map(m geometry.Map) {
	for _, v := range []float64{m.A, m.C, m.B, m.D} {
		c.b = append(factor(c.b, v), ' ')
	}
	c.op("cm", m.X, m.Y)
}

// Place draws a form under a map from its frame.
func (c *Content) Place(f Form, m geometry.Map) {
	c.Save()
	c.Map(m)
	c.b = fmt.Appendf(c.b, "/X%d Do\n", int(f))
	c.Restore()
}

// Line sets the width of lines, mm, and their colour. Ends are flat, corners round: a sharp one has no spike.
func (c *Content) Line(width float64, colour RGB) {
	c.op("w", width)
	c.op("j", 1)
	c.colour("RG", colour)
}

// Dash sets the lengths of dashes and gaps in mm; none: unbroken lines.
func (c *Content) Dash(v ...float64) {
	c.b = append(c.b, "[ "...)
	for _, x := range v {
		c.b = append(number(c.b, x), ' ')
	}
	c.b = append(c.b, "] 0 d\n"...)
}

// Ink sets the colour of areas and of text.
func (c *Content) Ink(colour RGB) { c.colour("rg", colour) }

func (c *Content) colour(op string, v RGB) {
	for _, x := range []uint8{v.R, v.G, v.B} {
		c.b = append(strconv.AppendFloat(c.b, math.Round(float64(x)/255*1e4)/1e4, 'f', -1, 64), ' ')
	}
	c.b = append(append(c.b, op...), '\n')
}

// MoveTo begins a part of a path.
func (c *Content) MoveTo(x, y float64) { c.op("m", x, y) }

// LineTo goes straight on.
func (c *Content) LineTo(x, y float64) { c.op("l", x, y) }

// Close closes the part of the path.
func (c *Content) Close() { c.op("h") }

// Segment adds a straight line to the path.
func (c *Content) Segment(x0, y0, x1, y1 float64) {
	c.MoveTo(x0, y0)
	c.LineTo(x1, y1)
}

// Rect adds a rectangle to the path.
func (c *Content) Rect(r orb.Bound) {
	c.op("re", r.Min[0], r.Min[1], r.Max[0]-r.Min[0], r.Max[1]-r.Min[1])
}

// Circle adds a circle to the path, of four curves that lie within 0.03 % of the radius.
func (c *Content) Circle(x, y, r float64) {
	k := r * 4 / 3 * (math.Sqrt2 - 1) // the usual handle of a quarter: it meets the circle at 45°
	c.MoveTo(x+r, y)
	c.op("c", x+r, y+k, x+k, y+r, x, y+r)
	c.op("c", x-k, y+r, x-r, y+k, x-r, y)
	c.op("c", x-r, y-k, x-k, y-r, x, y-r)
	c.op("c", x+k, y-r, x+r, y-k, x+r, y)
	c.Close()
}

// Outline adds an outline's rings to the path.
func (c *Content) Outline(mp orb.MultiPolygon) {
	for _, poly := range mp {
		for _, ring := range poly {
			for i, p := range ring {
				switch {
				case i == 0:
					c.MoveTo(p[0], p[1])
				case i < len(ring)-1:
					c.LineTo(p[0], p[1])
				}
			}
			if len(ring) > 0 {
				c.Close()
			}
		}
	}
}

// Stroke draws the path as a line.
func (c *Content) Stroke() { c.op("S") }

// Fill fills the path, even–odd.
func (c *Content) Fill() { c.op("f*") }

// FillStroke fills the path, even–odd, and draws its line.
func (c *Content) FillStroke() { c.op("B*") }

// Clip keeps what is drawn from here on inside the path, even–odd, until Restore.
func (c *Content) Clip() {
	c.op("W*")
	c.op("n")
}
