//go:build js

package main

import (
	"image"
	"image/color"

	"github.com/hajimehoshi/ebiten/v2"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/appearance"
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

// prepare makes the shader; false where this machine cannot.
func (o *overlap) prepare(c *canvas) bool {
	if o.shader != nil || o.failed {
		return !o.failed
	}
	s, err := ebiten.NewShader([]byte(hatching))
	if err != nil {
		o.failed = true
		c.desk.Session.Say("error",
			"Overlaps cannot be hatched on this machine; the list of faults still names them.")
		return false
	}
	o.shader = s
	return true
}

// warmUp hatches one px that nobody sees, so that the first overlap of a drag need not wait for the shader.
func (o *overlap) warmUp(c *canvas) {
	if o.shader != nil || !o.prepare(c) {
		return
	}
	from, to := ebiten.NewImage(1, 1), ebiten.NewImage(1, 1)
	o.hatch(to, from, c)
	from.Deallocate()
	to.Deallocate()
}

// draw hatches overlaps within a rectangle.
func (o *overlap) draw(dst *ebiten.Image, within image.Rectangle, c *canvas, copies []pattern.Copy, toPX geometry.Map) {
	if !o.prepare(c) {
		return
	}

	o.mask = sized(o.mask, c.width, c.height)
	part := o.mask.SubImage(within).(*ebiten.Image)
	part.Clear()
	l := c.desk.Session.Layout()
	share := color.RGBA{64, 64, 64, 64}
	c.sprites.each(&c.batch, l, copies, toPX, func(sp *sprite, motif int, placed []placed) {
		if sp == nil {
			for _, m := range placed {
				op := &ebiten.DrawImageOptions{Blend: ebiten.BlendLighter}
				op.ColorScale.ScaleAlpha(0.25)
				c.fillShape(part, l.Orbits[motif].Shape, m.Map, color.RGBA{255, 255, 255, 255}, op)
			}
			return
		}
		c.sprites.quads(part, sp, placed, appearance.Palette{}, share, ebiten.BlendLighter)
	})
	o.hatch(dst, part, c)
}

// hatch draws the hatching where the mask holds more than one share.
func (o *overlap) hatch(dst, part *ebiten.Image, c *canvas) {
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

// sized returns an image of the given size, the old one where it fits.
func sized(old *ebiten.Image, w, h int) *ebiten.Image {
	w, h = max(1, w), max(1, h)
	if old != nil && old.Bounds().Dx() == w && old.Bounds().Dy() == h {
		return old
	}
	if old != nil {
		old.Deallocate()
	}
	return ebiten.NewImage(w, h)
}
