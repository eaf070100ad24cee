//go:build js

package main

import (
	"image/color"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/symmetry"
	"openwork/wasm/editor/desk/signs"
)

// signs draws the symmetry elements with the International Tables' signs: a solid line for a mirror, a dashed one for a
// glide, a lens, triangle, square or hexagon for a rotation point; and tints the asymmetric unit.
func (c *canvas) signs() {
	all := c.desk.Signs().Shown()
	if unit := c.desk.Signs().Unit(); unit != nil {
		c.polygon(unit, faded(c.colours.accent, 0.22))
	}

	for _, s := range all {
		if s.Kind != symmetry.Turn {
			c.signLine(s, c.colours.halo, 3)
		}
	}

	for _, s := range all {
		if s.Kind != symmetry.Turn {
			c.signLine(s, c.signColour(s), 0)
		}
	}

	for _, s := range all {
		if s.Kind == symmetry.Turn {
			c.signPoint(s)
		}
	}
}

func (c *canvas) signColour(s signs.Sign) color.RGBA {
	if s.Current {
		return c.colours.accent
	}
	return c.colours.ink
}

// dash and gap of a glide's line, CSS px.
const dash, gap = 7.0, 5.0

func (c *canvas) signLine(s signs.Sign, col color.RGBA, more float64) {
	width := 1.3 + more
	if s.Current {
		width = 3 + more
	}
	if s.Kind == symmetry.Mirror {
		c.line(s.A, s.B, width, col)
		return
	}

	l := math.Hypot(s.B[0]-s.A[0], s.B[1]-s.A[1])
	at := func(d float64) orb.Point {
		return orb.Point{s.A[0] + (s.B[0]-s.A[0])*d/l, s.A[1] + (s.B[1]-s.A[1])*d/l}
	}

	for d := 0.0; d < l; d += dash + gap {
		c.line(at(d), at(math.Min(l, d+dash)), width, col)
	}
}

// signPoint draws a rotation point: filled, with a halo round it.
func (c *canvas) signPoint(s signs.Sign) {
	size := 6.0
	if s.Current {
		size = 8.5
	}
	for _, layer := range []struct {
		size float64
		col  color.RGBA
	}{{size + 2, c.colours.halo}, {size, c.signColour(s)}} {
		c.polygon(signShape(s.A, s.Order, layer.size), layer.col)
	}
}

// signShape returns the sign's corners: a lens for a half-turn, else a regular polygon with a corner at the top.
func signShape(at orb.Point, order int, size float64) []orb.Point {
	var out []orb.Point
	if order == 2 {
		const arcs = 8
		r, half := size*1.25, math.Asin(0.8) // two arcs of one radius that meet in points above and below
		for _, side := range []float64{1, -1} {
			for i := range arcs {
				a := side * half * (1 - 2*float64(i)/arcs)
				out = append(out, orb.Point{at[0] + side*(r*math.Cos(a)-r*math.Cos(half)), at[1] - r*math.Sin(a)})
			}
		}
		return out
	}

	for i := range order {
		a := math.Pi/2 + 2*math.Pi*float64(i)/float64(order)
		if order == 4 {
			a += math.Pi / 4
		}
		out = append(out, orb.Point{at[0] + size*math.Cos(a), at[1] - size*math.Sin(a)})
	}
	return out
}

// polygon fills a convex polygon.
func (c *canvas) polygon(corners []orb.Point, col color.RGBA) {
	c.batch.polygon(mapped(corners, geometry.Scale(c.ratio)), col)
}
