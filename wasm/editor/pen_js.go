//go:build js

package main

import (
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/wasm/editor/desk/pen"
)

// bodyStrength is how strongly a silhouette covers what lies under it while it is drawn.
const bodyStrength = 0.45

// sketch draws the silhouette that is open for drawing on squared ground. What lies under it is the page's: the
// canvas is left clear there.
func (c *canvas) sketch(dst *ebiten.Image, s pen.Sketch) {
	m := geometry.Scale(c.ratio).After(c.desk.View.Map())
	c.squared(s)
	body := c.colours.paint
	if s.Broken {
		body = c.colours.fault
	}
	if len(s.Outline) > 0 {
		shape := geometry.NewShape(s.Outline)
		c.drawFaded(dst, rectPX(m, shape.Bound()), bodyStrength, func(layer *ebiten.Image) {
			c.batch.shape(layer, shape, m, body)
		})
		for _, polygon := range s.Outline {
			for _, ring := range polygon {
				c.polyline(ring, 1.6, body)
			}
		}
	}
	if len(s.Chosen) > 1 {
		c.polyline(s.Chosen, 6, c.colours.halo)
		c.polyline(s.Chosen, 3.4, c.colours.accent)
	}

	hand := c.colours.accent
	if s.Cut {
		hand = c.colours.fault
	}

	for _, l := range s.Lines {
		c.polyline(l, 4.5, faded(c.colours.halo, 0.8))
		c.polyline(l, 2, hand)
	}

	for _, n := range s.Nodes {
		c.knot(n)
	}
	for _, m := range c.desk.DrawnMarks() {
		c.mark(m)
	}
}

// squared draws the squares and the mirror.
func (c *canvas) squared(s pen.Sketch) {
	w := c.desk.View.Window()
	thin := math.Max(1, math.Round(c.ratio))
	line := func(upright bool, at float64, col color.RGBA) {
		p := c.px(c.desk.View.Map().Apply(orb.Point{at, at}))
		if upright {
			c.batch.rect(math.Round(p[0]), 0, thin, float64(c.height), col)
		} else {
			c.batch.rect(0, math.Round(p[1]), float64(c.width), thin, col)
		}
	}

	for pass, step := range []float64{s.Grid, s.Strong} {
		strength := []float64{0.16, 0.34}[pass]
		for axis := range 2 {
			for i := math.Ceil(w.Min[axis] / step); i <= math.Floor(w.Max[axis]/step); i++ {
				line(axis == 0, i*step, faded(c.colours.ink, strength))
			}
		}
	}
	if !s.Mirror {
		return
	}

	x := c.px(c.desk.View.Map().Apply(orb.Point{s.Axis, 0}))[0]
	for y := 0.0; y < float64(c.height); y += 16 * c.ratio {
		c.batch.rect(x-thin, y, 2*thin, 10*c.ratio, c.colours.accent)
	}
}

// polyline strokes a line of points in mm.
func (c *canvas) polyline(pts []orb.Point, width float64, col color.RGBA) {
	if len(pts) > 1 {
		m := geometry.Scale(c.ratio).After(c.desk.View.Map())
		c.batch.stroke(mapped(pts, m), pts[0] == pts[len(pts)-1], width*c.ratio, col)
	}
}

// knot draws a point: round ones as discs, corners as squares, chosen ones filled.
func (c *canvas) knot(n pen.Knot) {
	p := c.desk.View.Map().Apply(n.At)
	w := c.desk.View
	if p[0] < 0 || p[1] < 0 || p[0] > w.Width || p[1] > w.Height {
		return
	}

	size := 4.6
	if n.Chosen {
		size = 6
	}
	if n.Ringed {
		c.ring(p, 11, 3.5, c.colours.halo)
		c.ring(p, 11, 1.5, c.colours.accent)
	}

	inner := c.colours.halo
	if n.Chosen {
		inner = c.colours.accent
	}

	for _, s := range []struct {
		size float64
		col  color.RGBA
	}{{size + 1.6, c.colours.halo}, {size, c.colours.accent}, {size - 1.6, inner}} {
		if n.Round {
			c.disc(p, s.size, s.col)
			continue
		}
		c.square(p, s.size*0.9, s.col)
	}
}
