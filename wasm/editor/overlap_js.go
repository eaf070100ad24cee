//go:build js

package main

import (
	"image/color"

	"github.com/hajimehoshi/ebiten/v2"

	"openwork/geometry"
	"openwork/pattern"
)

// overlap hatches where copies run into each other. Every copy adds a quarter to a mask; where the mask holds more than
// one copy's share the hatching shows.
type overlap struct {
	mask   *ebiten.Image
	shader *ebiten.Shader
	failed bool
}

// hatching draws slanting lines with a halo between them, so that they stand out on any paint colour.
const hatching = `//kage:unit pixels
package main

var Line vec4
var Halo vec4
var Gap float

func Fragment(dst vec4, src vec2, tint vec4) vec4 {
	share := imageSrc0At(src).a
	if share < 0.375 {
		return vec4(0)
	}
	across := mod(dst.x+dst.y, Gap)
	if across < Gap*0.4 {
		return Line
	}
	return Halo
}
`

func (o *overlap) draw(dst *ebiten.Image, c *canvas, copies []pattern.Copy, toPX geometry.Map) {
	if o.failed {
		return
	}
	if o.shader == nil {
		s, err := ebiten.NewShader([]byte(hatching))
		if err != nil {
			o.failed = true
			c.desk.Say("error", "Overlaps cannot be hatched on this machine; the list of faults still names them.")
			return
		}
		o.shader = s
	}
	if o.mask == nil || o.mask.Bounds().Dx() != c.width || o.mask.Bounds().Dy() != c.height {
		if o.mask != nil {
			o.mask.Deallocate()
		}
		o.mask = ebiten.NewImage(max(1, c.width), max(1, c.height))
	}
	o.mask.Clear()
	l := c.desk.Layout()
	share := color.RGBA{64, 64, 64, 64}
	c.sprites.each(l, copies, toPX, func(sp *sprite, motif int, maps []geometry.Map) {
		if sp == nil {
			for _, m := range maps {
				fillShape(o.mask, l.Orbits[motif].Shape, m, share, ebiten.BlendLighter)
			}
			return
		}
		c.sprites.quads(o.mask, sp, maps, share, ebiten.BlendLighter)
	})
	r := dst.Bounds()
	part := o.mask.SubImage(r).(*ebiten.Image)
	op := &ebiten.DrawRectShaderOptions{Uniforms: map[string]any{
		"Line": floats(c.colours.fault), "Halo": floats(c.colours.halo), "Gap": float32(7 * c.ratio)}}
	op.Images[0] = part
	op.GeoM.Translate(float64(part.Bounds().Min.X), float64(part.Bounds().Min.Y))
	if w, h := part.Bounds().Dx(), part.Bounds().Dy(); w > 0 && h > 0 {
		dst.DrawRectShader(w, h, o.shader, op)
	}
}

func floats(c color.RGBA) []float32 {
	return []float32{float32(c.R) / 255, float32(c.G) / 255, float32(c.B) / 255, float32(c.A) / 255}
}
