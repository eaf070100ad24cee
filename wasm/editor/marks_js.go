//go:build js

package main

import (
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/vector"
	"github.com/paulmach/orb"

	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk"
	"openwork/wasm/editor/desk/view"
)

// marks draws the faults as a drafter would, each by its sign: a dimension line across a thin bridge, a ring round an
// island, a bead on a tail.
func (c *canvas) marks(dst *ebiten.Image) {
	marks, _ := c.desk.Session.Marks()
	for _, m := range marks {
		if !m.Current {
			c.mark(dst, m)
		}
	}
	for _, m := range marks {
		if m.Current {
			c.mark(dst, m)
		}
	}
}

func (c *canvas) mark(dst *ebiten.Image, m desk.Mark) {
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
		c.faultSign(dst, m, width+pass.more, pass.col)
	}
}

// faultSign draws one sign with strokes of a width and colour.
func (c *canvas) faultSign(dst *ebiten.Image, m desk.Mark, width float64, col color.RGBA) {
	at, r := m.At, m.Radius
	switch m.Sign {
	case sheet.SignDimension:
		c.dimension(dst, m.A, m.B, width, col)
	case sheet.SignRing:
		c.ring(dst, at, r, width, col)
	case sheet.SignDoubleRing:
		c.ring(dst, at, r, width, col)
		c.ring(dst, at, r+4, width*0.7, col)
	case sheet.SignCrossed:
		c.ring(dst, at, r, width, col)
		d := r * math.Sqrt2 / 2
		c.line(dst, orb.Point{at[0] - d, at[1] - d}, orb.Point{at[0] + d, at[1] + d}, width, col)
		c.line(dst, orb.Point{at[0] - d, at[1] + d}, orb.Point{at[0] + d, at[1] - d}, width, col)
	case sheet.SignBroken:
		const dashes = 8
		for i := range dashes {
			from, to := 2*math.Pi*float64(i)/dashes, 2*math.Pi*(float64(i)+0.65)/dashes
			a := orb.Point{at[0] + r*math.Cos(from), at[1] + r*math.Sin(from)}
			b := orb.Point{at[0] + r*math.Cos(to), at[1] + r*math.Sin(to)}
			c.line(dst, a, b, width, col)
		}
	case sheet.SignBead:
		c.ring(dst, at, r, width, col)
	case sheet.SignLozenge:
		d := r * 1.3
		corners := []orb.Point{{at[0] - d, at[1]}, {at[0], at[1] - d}, {at[0] + d, at[1]}, {at[0], at[1] + d}}
		for i, p := range corners {
			c.line(dst, p, corners[(i+1)%4], width, col)
		}
	case sheet.SignTwin:
		c.ring(dst, at, r, width, col)
		c.ring(dst, at, r+3.5, width*0.7, col)
	case sheet.SignBars:
		c.bars(dst, m, width, col)
	}
}

// bars draws two short strokes along a strip, one on each side of it.
func (c *canvas) bars(dst *ebiten.Image, m desk.Mark, width float64, col color.RGBA) {
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
		c.line(dst, orb.Point{x - uy*long, y + ux*long}, orb.Point{x + uy*long, y - ux*long}, width, col)
	}
}

// dimension draws a line over the measured width with arrows that come from outside and stop at its ends, and a leader
// to the figure.
func (c *canvas) dimension(dst *ebiten.Image, a, b orb.Point, width float64, col color.RGBA) {
	dx, dy := b[0]-a[0], b[1]-a[1]
	l := math.Hypot(dx, dy)
	if l < 1e-6 {
		dx, dy, l = 1, 0, 1
	}

	ux, uy := dx/l, dy/l
	const tail, head, half = 11.0, 5.5, 2.6
	c.line(dst, a, b, width, col)
	for _, e := range []struct {
		p    orb.Point
		sign float64
	}{{a, -1}, {b, 1}} {
		x, y := ux*e.sign, uy*e.sign
		c.line(dst, e.p, orb.Point{e.p[0] + x*tail, e.p[1] + y*tail}, width, col)
		for _, s := range []float64{-half, half} {
			c.line(dst, e.p, orb.Point{e.p[0] + x*head - y*s, e.p[1] + y*head + x*s}, width, col)
		}
	}
}

func (c *canvas) line(dst *ebiten.Image, a, b orb.Point, width float64, col color.RGBA) {
	x0, y0 := c.px(a)
	x1, y1 := c.px(b)
	vector.StrokeLine(dst, x0, y0, x1, y1, float32(width*c.ratio), col, true)
}

func (c *canvas) ring(dst *ebiten.Image, at orb.Point, radius, width float64, col color.RGBA) {
	x, y := c.px(at)
	vector.StrokeCircle(dst, x, y, float32(radius*c.ratio), float32(width*c.ratio), col, true)
}

func (c *canvas) disc(dst *ebiten.Image, at orb.Point, radius float64, col color.RGBA) {
	x, y := c.px(at)
	vector.DrawFilledCircle(dst, x, y, float32(radius*c.ratio), col, true)
}

// handles draws the cell with the ends of its sides, and round the copy in hand its outline and the ring that carries
// the two handles: a round one to turn it, a square one to scale it.
func (c *canvas) handles(dst *ebiten.Image) {
	h := c.desk.Handles()
	if h.Cell {
		sides := [][2]orb.Point{{h.Origin, h.A}, {h.A, h.Far}, {h.Far, h.B}, {h.B, h.Origin}}
		for _, s := range sides {
			c.line(dst, s[0], s[1], 3.5, faded(c.colours.halo, 0.75))
		}
		for _, s := range sides {
			c.line(dst, s[0], s[1], 1.3, c.colours.accent)
		}
		for _, p := range []orb.Point{h.A, h.B, h.Far} {
			c.disc(dst, p, 5.5, c.colours.accent)
			c.disc(dst, p, 4, c.colours.halo)
		}
		c.disc(dst, h.Origin, 5.5, c.colours.accent)
	}
	if !h.Shown {
		return
	}

	c.outline(dst)
	c.ring(dst, h.Centre, h.Radius, 3, faded(c.colours.halo, 0.7))
	c.ring(dst, h.Centre, h.Radius, 1.2, c.colours.accent)
	c.disc(dst, h.Turn, 8, c.colours.halo)
	c.disc(dst, h.Turn, 6.5, c.colours.accent)
	c.disc(dst, h.Turn, 2.2, c.colours.halo)
	x, y := c.px(h.Scale)
	for _, s := range []struct {
		size float64
		col  color.RGBA
	}{{8, c.colours.halo}, {6.5, c.colours.accent}, {2.2, c.colours.halo}} {
		r := float32(s.size * c.ratio)
		vector.DrawFilledRect(dst, x-r, y-r, 2*r, 2*r, s.col, true)
	}
}

// outline strokes the copy in hand.
func (c *canvas) outline(dst *ebiten.Image) {
	shape, m, ok := c.desk.InHandShape()
	if !ok {
		return
	}

	m.A, m.B, m.C, m.D, m.X, m.Y = m.A*c.ratio, m.B*c.ratio, m.C*c.ratio, m.D*c.ratio, m.X*c.ratio, m.Y*c.ratio
	path := pathOf(shape, m)
	for _, s := range []struct {
		width float64
		col   color.RGBA
	}{{4.5, c.colours.halo}, {2, c.colours.accent}} {
		vs, is := path.AppendVerticesAndIndicesForStroke(nil, nil, &vector.StrokeOptions{
			Width: float32(s.width * c.ratio), LineJoin: vector.LineJoinRound})
		tint(vs, s.col)
		dst.DrawTriangles(vs, is, white,
			&ebiten.DrawTrianglesOptions{AntiAlias: true, FillRule: ebiten.FillRuleNonZero})
	}
}

func faded(c color.RGBA, f float64) color.RGBA {
	part := func(v uint8) uint8 { return uint8(float64(v) * f) }
	return color.RGBA{part(c.R), part(c.G), part(c.B), part(c.A)}
}

// rulers draws the two strips and their marks; the figures are the page's.
func (c *canvas) rulers(dst *ebiten.Image) {
	w, h, r := float32(c.width), float32(c.height), float32(c.ratio)
	top, left := float32(view.RulerTop)*r, float32(view.RulerLeft)*r
	vector.DrawFilledRect(dst, 0, 0, w, top, c.colours.ground, false)
	vector.DrawFilledRect(dst, 0, 0, left, h, c.colours.ground, false)
	across, up := c.desk.View.Rulers(c.desk.Session.Inches)
	thin := float32(math.Max(1, math.Round(c.ratio)))
	for _, t := range across {
		n := 4 * r
		if t.Long {
			n = 9 * r
		}
		if x := float32(math.Round(t.At * c.ratio)); x >= left {
			vector.DrawFilledRect(dst, x, top-n, thin, n, c.colours.faint, false)
		}
	}

	for _, t := range up {
		n := 4 * r
		if t.Long {
			n = 9 * r
		}
		if y := float32(math.Round(t.At * c.ratio)); y >= top {
			vector.DrawFilledRect(dst, left-n, y, n, thin, c.colours.faint, false)
		}
	}

	vector.DrawFilledRect(dst, left, top, w-left, thin, c.colours.faint, false)
	vector.DrawFilledRect(dst, left, top, thin, h-top, c.colours.faint, false)
	vector.DrawFilledRect(dst, 0, 0, left, top, c.colours.ground, false)
}
