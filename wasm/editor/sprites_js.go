//go:build js

package main

import (
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/appearance"
)

const (
	// spriteSharp is how many px of a sprite fall on one of the screen: turned copies stay crisp.
	spriteSharp = 1.6
	// maxSprite is the largest side of a sprite, in px; larger silhouettes are filled one by one, and then few fit the
	// screen.
	maxSprite = 1400
	// maxQuads keeps one draw call below 65,535 vertices, the most an index of 16 bits can name.
	maxQuads = 16000
)

// sprites draws copies: each motif's silhouette once to an image, then that image once for every copy.
type sprites struct {
	of       map[int]*sprite
	vertices []ebiten.Vertex
	indices  []uint16
}

type sprite struct {
	shape *geometry.Shape
	scale float64 // sprite px to the mm of the silhouette's frame
	image *ebiten.Image
	min   orb.Point // of the silhouette's box, at sprite px (1, 1)
	w, h  float64
}

// placed is a copy as it is drawn: its map to device px, and the number of its colour.
type placed struct {
	geometry.Map
	colour int
}

// draw draws the copies in their colours, or in the usual one where they have none.
func (s *sprites) draw(dst *ebiten.Image, c *canvas, l *pattern.Layout, copies []pattern.Copy, toPX geometry.Map,
	palette appearance.Palette, usual color.RGBA) {
	s.each(&c.batch, l, copies, toPX, func(sp *sprite, motif int, copies []placed) {
		if sp == nil {
			for _, each := range copies {
				c.fillShape(dst, l.Orbits[motif].Shape, each.Map, palette.Of(each.colour, usual),
					&ebiten.DrawImageOptions{})
			}
			return
		}
		s.quads(dst, sp, copies, palette, usual, ebiten.BlendSourceOver)
	})
}

// each groups the copies by motif and hands over the sprite to draw them with, nil when they are too large for one.
func (s *sprites) each(
	k *batch, l *pattern.Layout, copies []pattern.Copy, toPX geometry.Map, do func(*sprite, int, []placed),
) {
	byMotif := map[int][]placed{}
	for _, c := range copies {
		byMotif[c.Motif] = append(byMotif[c.Motif], placed{toPX.After(c.Map), c.Colour})
	}

	for i := range l.Orbits {
		copies := byMotif[i]
		if len(copies) == 0 {
			continue
		}
		scale := math.Sqrt(math.Abs(copies[0].Det()))
		do(s.sprite(k, i, l.Orbits[i].Shape, scale*spriteSharp), i, copies)
	}
}

// sprite returns the motif's silhouette drawn at a scale.
func (s *sprites) sprite(k *batch, motif int, shape *geometry.Shape, scale float64) *sprite {
	if s.of == nil {
		s.of = map[int]*sprite{}
	}

	b := shape.Bound()
	w, h := (b.Max[0]-b.Min[0])*scale, (b.Max[1]-b.Min[1])*scale
	if w > maxSprite || h > maxSprite || !(w > 0) || !(h > 0) {
		return nil
	}

	old := s.of[motif]
	if old != nil && old.shape == shape && old.scale == scale {
		return old
	}

	iw, ih := int(math.Ceil(w))+3, int(math.Ceil(h))+3
	sp := &sprite{shape: shape, scale: scale, min: b.Min, w: float64(iw), h: float64(ih)}
	if old != nil && old.w == sp.w && old.h == sp.h {
		sp.image = old.image
		sp.image.Clear()
	} else {
		if old != nil {
			old.image.Deallocate()
		}
		sp.image = ebiten.NewImage(iw, ih)
	}

	m := geometry.Map{A: scale, D: scale, X: 1 - b.Min[0]*scale, Y: 1 - b.Min[1]*scale}
	k.shape(sp.image, shape, m, color.RGBA{255, 255, 255, 255})
	s.of[motif] = sp
	return sp
}

// quads draws one sprite once for every copy.
func (s *sprites) quads(dst *ebiten.Image, sp *sprite, copies []placed, palette appearance.Palette, usual color.RGBA,
	blend ebiten.Blend) {
	for len(copies) > 0 {
		n := min(len(copies), maxQuads)
		s.vertices, s.indices = s.vertices[:0], s.indices[:0]
		for _, m := range copies[:n] {
			col := palette.Of(m.colour, usual)
			r, g, b, a := float32(col.R)/255, float32(col.G)/255, float32(col.B)/255, float32(col.A)/255
			base := uint16(len(s.vertices))
			for _, corner := range [4]orb.Point{{0, 0}, {sp.w, 0}, {0, sp.h}, {sp.w, sp.h}} {
				p := m.Apply(orb.Point{sp.min[0] + (corner[0]-1)/sp.scale, sp.min[1] + (corner[1]-1)/sp.scale})
				s.vertices = append(s.vertices, ebiten.Vertex{DstX: float32(p[0]), DstY: float32(p[1]),
					SrcX: float32(corner[0]), SrcY: float32(corner[1]), ColorR: r, ColorG: g, ColorB: b, ColorA: a})
			}
			s.indices = append(s.indices, base, base+1, base+2, base+1, base+3, base+2)
		}
		dst.DrawTriangles(s.vertices, s.indices, sp.image,
			&ebiten.DrawTrianglesOptions{Filter: ebiten.FilterLinear, Blend: blend})
		copies = copies[n:]
	}
}
