//go:build js

package main

import (
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/vector"
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/wasm/editor/desk/pen"
)

// bodyStrength is how strongly a silhouette covers what lies under it while it is drawn.
const bodyStrength = 0.45

// sketch draws the silhouette that is open for drawing on squared ground. What lies under it is the page's: the
// canvas is left clear there.
func (c *canvas) sketch(dst *ebiten.Image, s pen.Sketch) {
	dst.Clear()
	m := geometry.Scale(c.ratio).After(c.desk.View.Map())
	c.squared(dst, s)
	body := c.colours.paint
	if s.Broken {
		body = c.colours.fault
	}
	if len(s.Outline) > 0 {
		shape := geometry.NewShape(s.Outline)
		// The filling's triangles lie over each other: drawn solid, then laid on thinly.
		if c.layer == nil || c.layer.Bounds() != dst.Bounds() {
			if c.layer != nil {
				c.layer.Deallocate()
			}
			c.layer = ebiten.NewImage(dst.Bounds().Dx(), dst.Bounds().Dy())
		}
		c.layer.Clear()
		fillShape(c.layer, shape, m, body)
		thin := &ebiten.DrawImageOptions{}
		thin.ColorScale.ScaleAlpha(bodyStrength)
		dst.DrawImage(c.layer, thin)
		for _, polygon := range s.Outline {
			for _, ring := range polygon {
				c.polyline(dst, ring, 1.6, body)
			}
		}
	}
	if len(s.Chosen) > 1 {
		c.polyline(dst, s.Chosen, 6, c.colours.halo)
		c.polyline(dst, s.Chosen, 3.4, c.colours.accent)
	}

	hand := c.colours.accent
	if s.Cut {
		hand = c.colours.fault
	}

	for _, l := range s.Lines {
		c.polyline(dst, l, 4.5, faded(c.colours.halo, 0.8))
		c.polyline(dst, l, 2, hand)
	}

	for _, n := range s.Nodes {
		c.knot(dst, n)
	}
	for _, m := range c.desk.DrawnMarks() {
		c.mark(dst, m)
	}
}

// squared draws the squares and the mirror.
func (c *canvas) squared(dst *ebiten.Image, s pen.Sketch) {
	w := c.desk.View.Window()
	thin := float32(math.Max(1, math.Round(c.ratio)))
	line := func(upright bool, at float64, col color.Color) {
		x, y := c.px(c.desk.View.Map().Apply(orb.Point{at, at}))
		if upright {
			vector.DrawFilledRect(dst, float32(math.Round(float64(x))), 0, thin, float32(c.height), col, false)
		} else {
			vector.DrawFilledRect(dst, 0, float32(math.Round(float64(y))), float32(c.width), thin, col, false)
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

	x, _ := c.px(c.desk.View.Map().Apply(orb.Point{s.Axis, 0}))
	for y := float32(0); y < float32(c.height); y += float32(16 * c.ratio) {
		vector.DrawFilledRect(dst, x-thin, y, 2*thin, float32(10*c.ratio), c.colours.accent, false)
	}
}

// maxStroked is the largest number of points of one stroke: their round joins take some forty vertices each.
const maxStroked = 1000

// polyline strokes a line of points in mm.
func (c *canvas) polyline(dst *ebiten.Image, pts []orb.Point, width float64, col color.RGBA) {
	for len(pts) > maxStroked { // indexes of 16 bits name no more vertices
		c.polyline(dst, pts[:maxStroked], width, col)
		pts = pts[maxStroked-1:]
	}
	if len(pts) < 2 {
		return
	}

	m := c.desk.View.Map()
	path := &vector.Path{}
	for i, p := range pts {
		x, y := c.px(m.Apply(p))
		if i == 0 {
			path.MoveTo(x, y)
		} else {
			path.LineTo(x, y)
		}
	}
	if pts[0] == pts[len(pts)-1] {
		path.Close()
	}

	vs, is := path.AppendVerticesAndIndicesForStroke(nil, nil, &vector.StrokeOptions{
		Width: float32(width * c.ratio), LineJoin: vector.LineJoinRound, LineCap: vector.LineCapRound})
	tint(vs, col)
	dst.DrawTriangles(vs, is, white, &ebiten.DrawTrianglesOptions{AntiAlias: true, FillRule: ebiten.FillRuleNonZero})
}

// knot draws a point: round ones as discs, corners as squares, chosen ones filled.
func (c *canvas) knot(dst *ebiten.Image, n pen.Knot) {
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
		c.ring(dst, p, 11, 3.5, c.colours.halo)
		c.ring(dst, p, 11, 1.5, c.colours.accent)
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
			c.disc(dst, p, s.size, s.col)
			continue
		}
		x, y := c.px(p)
		r := float32(s.size * 0.9 * c.ratio)
		vector.DrawFilledRect(dst, x-r, y-r, 2*r, 2*r, s.col, true)
	}
}
