//go:build js

package main

import (
	"image"
	"image/color"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/vector"
	"github.com/paulmach/orb"

	"openwork/geometry"
)

// white is the px that solid fills are textured with; it has others of its kind round it.
var white = func() *ebiten.Image {
	img := ebiten.NewImage(3, 3)
	img.Fill(color.White)
	return img.SubImage(image.Rect(1, 1, 2, 2)).(*ebiten.Image)
}()

// edgeWidth in px of the line that smooths the edge of a filled shape: half the colour on the edge, none half a px
// and a quarter away from it.
const edgeWidth = 0.5

// shape fills a shape under a map to device px on an image, holes by the even-odd rule, its edges smoothed. The canvas
// itself takes none: the library counts crossings in a buffer that only images have.
func (b *batch) shape(dst *ebiten.Image, shape *geometry.Shape, m geometry.Map, col color.RGBA) {
	before := b.dst
	b.drawTo(dst)
	path := &vector.Path{}
	for _, ring := range geometry.Rings(shape.Outline()) {
		points := mapped(ring, m)
		for i, p := range points[:len(points)-1] {
			if i == 0 {
				path.MoveTo(float32(p[0]), float32(p[1]))
			} else {
				path.LineTo(float32(p[0]), float32(p[1]))
			}
		}
		path.Close()
		b.stroke(points, true, edgeWidth, col)
	}

	vs, is := path.AppendVerticesAndIndicesForFilling(nil, nil)
	for i := range vs {
		vs[i].SrcX, vs[i].SrcY = 1, 1
		vs[i].ColorR, vs[i].ColorG = float32(col.R)/255, float32(col.G)/255
		vs[i].ColorB, vs[i].ColorA = float32(col.B)/255, float32(col.A)/255
	}
	dst.DrawTriangles(vs, is, white, &ebiten.DrawTrianglesOptions{
		ColorScaleMode: ebiten.ColorScaleModePremultipliedAlpha, FillRule: ebiten.FillRuleEvenOdd})
	b.drawTo(before)
}

// fillShape fills a shape on the canvas, or adds it there as the options say.
func (c *canvas) fillShape(dst *ebiten.Image, shape *geometry.Shape, m geometry.Map, col color.RGBA,
	op *ebiten.DrawImageOptions) {
	c.drawLayer(dst, rectPX(m, shape.Bound()), op, func(layer *ebiten.Image) {
		c.batch.shape(layer, shape, m, col)
	})
}

// drawFaded lays what is drawn over a part of the canvas with a strength: where it lies over itself it is no darker for
// it.
func (c *canvas) drawFaded(dst *ebiten.Image, part image.Rectangle, strength float64, draw func(layer *ebiten.Image)) {
	op := &ebiten.DrawImageOptions{}
	op.ColorScale.ScaleAlpha(float32(strength))
	c.drawLayer(dst, part, op, draw)
}

// drawLayer draws onto a layer of its own and lays a part of that over the canvas.
func (c *canvas) drawLayer(dst *ebiten.Image, part image.Rectangle, op *ebiten.DrawImageOptions,
	draw func(layer *ebiten.Image)) {
	part = part.Inset(-2).Intersect(dst.Bounds())
	if part.Empty() {
		return
	}
	c.batch.flush()
	c.layer = sized(c.layer, c.width, c.height)
	layer := c.layer.SubImage(part).(*ebiten.Image)
	layer.Clear()
	draw(layer)
	op.GeoM.Translate(float64(part.Min.X), float64(part.Min.Y))
	dst.DrawImage(layer, op)
}

// mapped returns points under a map.
func mapped(points []orb.Point, m geometry.Map) []orb.Point {
	out := make([]orb.Point, len(points))
	for i, p := range points {
		out[i] = m.Apply(p)
	}
	return out
}
