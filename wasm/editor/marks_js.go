//go:build js

package main

import (
	"image/color"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk"
	"openwork/wasm/editor/desk/view"
)

// marks draws the faults as a drafter would, each by its sign: a dimension line across a thin bridge, a ring round an
// island, a bead on a tail.
func (c *canvas) marks() {
	marks, _ := c.desk.Session.Marks()
	for _, m := range marks {
		if !m.Current {
			c.mark(m)
		}
	}
	for _, m := range marks {
		if m.Current {
			c.mark(m)
		}
	}
}

func (c *canvas) mark(m desk.Mark) {
	col := c.colours.fault
	if m.Warning {
		col = c.colours.warn
	}

	width := 1.5
	if m.Current {
		width = 2.5
	}

	for _, pass := range []struct {
		more float64
		col  color.RGBA
	}{{2.5, c.colours.halo}, {0, col}} {
		c.faultSign(m, width+pass.more, pass.col)
	}
}

// faultSign draws one sign with strokes of a width and colour.
func (c *canvas) faultSign(m desk.Mark, width float64, col color.RGBA) {
	at, r := m.At, m.Radius
	switch m.Sign {
	case sheet.SignDimension:
		c.dimension(m.A, m.B, width, col)
	case sheet.SignRing:
		c.ring(at, r, width, col)
	case sheet.SignDoubleRing:
		c.ring(at, r, width, col)
		c.ring(at, r+4, width*0.7, col)
	case sheet.SignCrossed:
		c.ring(at, r, width, col)
		d := r * math.Sqrt2 / 2
		c.line(orb.Point{at[0] - d, at[1] - d}, orb.Point{at[0] + d, at[1] + d}, width, col)
		c.line(orb.Point{at[0] - d, at[1] + d}, orb.Point{at[0] + d, at[1] - d}, width, col)
	case sheet.SignBroken:
		const dashes = 8
		for i := range dashes {
			from, to := 2*math.Pi*float64(i)/dashes, 2*math.Pi*(float64(i)+0.65)/dashes
			a := orb.Point{at[0] + r*math.Cos(from), at[1] + r*math.Sin(from)}
			b := orb.Point{at[0] + r*math.Cos(to), at[1] + r*math.Sin(to)}
			c.line(a, b, width, col)
		}
	case sheet.SignBead:
		c.ring(at, r, width, col)
	case sheet.SignLozenge:
		d := r * 1.3
		corners := []orb.Point{{at[0] - d, at[1]}, {at[0], at[1] - d}, {at[0] + d, at[1]}, {at[0], at[1] + d}}
		for i, p := range corners {
			c.line(p, corners[(i+1)%4], width, col)
		}
	case sheet.SignTwin:
		c.ring(at, r, width, col)
		c.ring(at, r+3.5, width*0.7, col)
	case sheet.SignBars:
		c.bars(m, width, col)
	}
}

// bars draws two short strokes along a strip, one on each side of it.
func (c *canvas) bars(m desk.Mark, width float64, col color.RGBA) {
	dx, dy := m.B[0]-m.A[0], m.B[1]-m.A[1]
	l := math.Hypot(dx, dy)
	if l < 1e-6 {
		dx, dy, l = 1, 0, 1
	}

	ux, uy := dx/l, dy/l
	const long = 5.0
	for _, side := range []float64{-1, 1} {
		away := side * (math.Max(l/2, 1) + 2)
		x, y := m.At[0]+ux*away, m.At[1]+uy*away
		c.line(orb.Point{x - uy*long, y + ux*long}, orb.Point{x + uy*long, y - ux*long}, width, col)
	}
}

// dimension draws a line over the measured width with arrows that come from outside and stop at its ends, and a leader
// to the figure.
func (c *canvas) dimension(a, b orb.Point, width float64, col color.RGBA) {
	dx, dy := b[0]-a[0], b[1]-a[1]
	l := math.Hypot(dx, dy)
	if l < 1e-6 {
		dx, dy, l = 1, 0, 1
	}

	ux, uy := dx/l, dy/l
	const tail, head, half = 11.0, 5.5, 2.6
	c.line(a, b, width, col)
	for _, e := range []struct {
		p    orb.Point
		sign float64
	}{{a, -1}, {b, 1}} {
		x, y := ux*e.sign, uy*e.sign
		c.line(e.p, orb.Point{e.p[0] + x*tail, e.p[1] + y*tail}, width, col)
		for _, s := range []float64{-half, half} {
			c.line(e.p, orb.Point{e.p[0] + x*head - y*s, e.p[1] + y*head + x*s}, width, col)
		}
	}
}

func (c *canvas) line(a, b orb.Point, width float64, col color.RGBA) {
	c.batch.line(c.px(a), c.px(b), width*c.ratio, col)
}

func (c *canvas) ring(at orb.Point, radius, width float64, col color.RGBA) {
	c.batch.ring(c.px(at), radius*c.ratio, width*c.ratio, col)
}

func (c *canvas) disc(at orb.Point, radius float64, col color.RGBA) {
	c.batch.disc(c.px(at), radius*c.ratio, col)
}

// square fills a square that stands upright, half a side wide to each side of a point.
func (c *canvas) square(at orb.Point, half float64, col color.RGBA) {
	p, r := c.px(at), half*c.ratio
	x0, y0, x1, y1 := p[0]-r, p[1]-r, p[0]+r, p[1]+r
	c.batch.polygon([]orb.Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, col)
}

// handles draws the cell with the ends of its sides, and round the copy in hand its outline and the ring that carries
// the two handles: a round one to turn it, a square one to scale it.
func (c *canvas) handles() {
	h := c.desk.Handles()
	if h.Cell {
		sides := [][2]orb.Point{{h.Origin, h.A}, {h.A, h.Far}, {h.Far, h.B}, {h.B, h.Origin}}
		for _, s := range sides {
			c.line(s[0], s[1], 3.5, faded(c.colours.halo, 0.75))
		}
		for _, s := range sides {
			c.line(s[0], s[1], 1.3, c.colours.accent)
		}
		for _, p := range []orb.Point{h.A, h.B, h.Far} {
			c.disc(p, 5.5, c.colours.accent)
			c.disc(p, 4, c.colours.halo)
		}
		c.disc(h.Origin, 5.5, c.colours.accent)
	}
	if !h.Shown {
		return
	}

	c.outline()
	c.ring(h.Centre, h.Radius, 3, faded(c.colours.halo, 0.7))
	c.ring(h.Centre, h.Radius, 1.2, c.colours.accent)
	c.disc(h.Turn, 8, c.colours.halo)
	c.disc(h.Turn, 6.5, c.colours.accent)
	c.disc(h.Turn, 2.2, c.colours.halo)
	c.square(h.Scale, 8, c.colours.halo)
	c.square(h.Scale, 6.5, c.colours.accent)
	c.square(h.Scale, 2.2, c.colours.halo)
}

// outline strokes the copy in hand.
func (c *canvas) outline() {
	shape, m, ok := c.desk.InHandShape()
	if !ok {
		return
	}

	m = geometry.Scale(c.ratio).After(m)
	for _, ring := range geometry.Rings(shape.Outline()) {
		c.batch.stroke(mapped(ring, m), true, 4.5*c.ratio, c.colours.halo)
	}
	for _, ring := range geometry.Rings(shape.Outline()) {
		c.batch.stroke(mapped(ring, m), true, 2*c.ratio, c.colours.accent)
	}
}

func faded(c color.RGBA, f float64) color.RGBA {
	part := func(v uint8) uint8 { return uint8(float64(v) * f) }
	return color.RGBA{part(c.R), part(c.G), part(c.B), part(c.A)}
}

// rulers draws the two strips and their marks; the figures are the page's.
func (c *canvas) rulers() {
	w, h, r := float64(c.width), float64(c.height), c.ratio
	top, left := view.RulerTop*r, view.RulerLeft*r
	c.batch.rect(0, 0, w, top, c.colours.ground)
	c.batch.rect(0, 0, left, h, c.colours.ground)
	across, up := c.desk.View.Rulers(c.desk.Session.Inches)
	thin := math.Max(1, math.Round(r))
	long := func(t view.Tick) float64 {
		if t.Long {
			return 9 * r
		}
		return 4 * r
	}

	for _, t := range across {
		if x, n := math.Round(t.At*r), long(t); x >= left {
			c.batch.rect(x, top-n, thin, n, c.colours.faint)
		}
	}

	for _, t := range up {
		if y, n := math.Round(t.At*r), long(t); y >= top {
			c.batch.rect(left-n, y, n, thin, c.colours.faint)
		}
	}

	c.batch.rect(left, top, w-left, thin, c.colours.faint)
	c.batch.rect(left, top, thin, h-top, c.colours.faint)
	c.batch.rect(0, 0, left, top, c.colours.ground)
}
