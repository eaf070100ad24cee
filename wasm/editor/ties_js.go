//go:build js

package main

import (
	"image"

	"github.com/hajimehoshi/ebiten/v2"
)

// ties lays the field's ties over the openings in the bare panel's colour, and outlines every tie while ties are worked
// on.
func (c *canvas) ties(dst *ebiten.Image, sheet image.Rectangle) {
	marks := c.desk.Ties()
	within := dst.SubImage(sheet).(*ebiten.Image)
	for _, t := range marks {
		if t.Field {
			c.polygon(within, t.Corners, c.bare)
		}
	}
	if !c.desk.Tying() {
		return
	}

	for _, t := range marks {
		width, col := 1.2, c.colours.accent
		if t.Chosen {
			width = 2.4
		}
		for i, p := range t.Corners {
			q := t.Corners[(i+1)%len(t.Corners)]
			c.line(dst, p, q, width+2, faded(c.colours.halo, 0.8))
		}
		for i, p := range t.Corners {
			c.line(dst, p, t.Corners[(i+1)%len(t.Corners)], width, col)
		}
	}
}
