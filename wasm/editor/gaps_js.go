//go:build js

package main

import (
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/paulmach/orb"

	"openwork/wasm/editor/desk"
)

// gaps is the picture of one cell's gaps on the graphics card.
type gaps struct {
	of    *desk.Gaps
	image *ebiten.Image
}

// draw lays the picture over the sheet, cell by cell, before the openings are drawn.
func (g *gaps) draw(dst *ebiten.Image, c *canvas) {
	now := c.desk.Session.Gaps()
	if now == nil || now.Across == 0 {
		return
	}
	if g.of != now {
		if g.image != nil {
			g.image.Deallocate()
		}
		g.of, g.image = now, ebiten.NewImage(now.Across+2, now.Up+2)
		g.image.WritePixels(now.Pixels)
	}

	wide, high, tiles := c.desk.Session.GapTiles()
	right, top := float32(now.Across+1), float32(now.Up+1)
	vertices, indices := []ebiten.Vertex{}, []uint16{}
	for _, m := range tiles[:min(len(tiles), maxQuads)] {
		base := uint16(len(vertices))
		for _, corner := range [4]struct {
			at   orb.Point
			x, y float32
		}{{orb.Point{}, 1, 1}, {orb.Point{wide, 0}, right, 1}, {orb.Point{0, high}, 1, top},
			{orb.Point{wide, high}, right, top}} {
			p := c.px(m.Apply(corner.at))
			vertices = append(vertices, ebiten.Vertex{DstX: float32(p[0]), DstY: float32(p[1]),
				SrcX: corner.x, SrcY: corner.y, ColorR: 1, ColorG: 1, ColorB: 1, ColorA: 1})
		}
		indices = append(indices, base, base+1, base+2, base+1, base+3, base+2)
	}
	dst.DrawTriangles(vertices, indices, g.image, &ebiten.DrawTrianglesOptions{Filter: ebiten.FilterLinear})
}

// gapLines draws the lines over the painted gaps.
func (c *canvas) gapLines() {
	now := c.desk.Session.Gaps()
	if now == nil {
		return
	}
	m := c.desk.View.Map()
	for _, line := range now.Lines {
		a, b := m.Apply(line.A), m.Apply(line.B)
		col := c.colours.ink
		if line.Warn {
			col = c.colours.warn
		}
		for _, pass := range []struct {
			more float64
			col  color.RGBA
		}{{2.5, c.colours.halo}, {0, col}} {
			width := 1.5 + pass.more
			switch line.Kind {
			case "width":
				c.dimension(a, b, width, pass.col)
			case "disc":
				c.ring(orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}, math.Hypot(b[0]-a[0], b[1]-a[1])/2, width,
					pass.col)
			case "dashes":
				c.dashes(a, b, width, pass.col)
			}
		}
	}
}

// longDash, shortDash and dashGap in CSS px make a line of two dashes, as drafters draw what is thought and not cut.
const longDash, shortDash, dashGap = 16.0, 5.0, 5.0

// dashes draws a line of long and short dashes, as far as it shows.
func (c *canvas) dashes(a, b orb.Point, width float64, col color.RGBA) {
	l := math.Hypot(b[0]-a[0], b[1]-a[1])
	if l < 1e-6 {
		return
	}
	ux, uy := (b[0]-a[0])/l, (b[1]-a[1])/l
	// All that shows lies within the canvas's diagonal of the point nearest to its middle.
	w, h := float64(c.width)/c.ratio, float64(c.height)/c.ratio
	near, reach := (w/2-a[0])*ux+(h/2-a[1])*uy, math.Hypot(w, h)
	from, to := math.Max(0, near-reach), math.Min(l, near+reach)
	const period = longDash + shortDash + 2*dashGap
	for d := math.Floor(from/period) * period; d < to; d += period {
		for _, dash := range [2][2]float64{{0, longDash}, {longDash + dashGap, longDash + dashGap + shortDash}} {
			p, q := math.Max(d+dash[0], from), math.Min(d+dash[1], to)
			if p < q {
				c.line(orb.Point{a[0] + ux*p, a[1] + uy*p}, orb.Point{a[0] + ux*q, a[1] + uy*q}, width, col)
			}
		}
	}
}
