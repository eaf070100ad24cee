//go:build js

package main

import (
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/vector"
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// subjectStrength is how strongly a subject covers the pattern that runs on behind it.
const subjectStrength = 0.86

// fillBare fills a rectangle with bare ground; where a photograph lies under the canvas, as thinly as lets it be seen.
func (c *canvas) fillBare(dst *ebiten.Image, m geometry.Map, b orb.Bound) {
	through := c.desk.Through()
	if through > 0 {
		dst.SubImage(c.rectPX(m, b)).(*ebiten.Image).Clear()
	}
	c.fillRect(dst, m, b, faded(c.bare, 1-through))
}

// rooms covers with bare ground what the rooms of subjects keep clear: openings end at their lines.
func (c *canvas) rooms(dst *ebiten.Image, toPX geometry.Map) {
	for _, r := range c.desk.Session.Layout().Rooms {
		if r.Edge == draft.Crop {
			c.fillRoom(dst, r.Shape, toPX)
		}
	}
}

// fillRoom puts bare ground in the place of what was drawn in a room.
func (c *canvas) fillRoom(dst *ebiten.Image, s *geometry.Shape, m geometry.Map) {
	if c.desk.Through() == 0 {
		fillShape(dst, s, m, c.bare)
		return
	}
	vs, is := pathOf(s, m).AppendVerticesAndIndicesForFilling(nil, nil)
	tint(vs, faded(c.bare, 1-c.desk.Through()))
	dst.DrawTriangles(vs, is, white.SubImage(white.Bounds().Inset(1)).(*ebiten.Image),
		&ebiten.DrawTrianglesOptions{FillRule: ebiten.FillRuleEvenOdd, Blend: ebiten.BlendCopy})
}

// subjects draws what stands in front of the pattern, and the lines of the rooms.
func (c *canvas) subjects(dst *ebiten.Image, toPX geometry.Map) {
	k := c.desk
	all := k.Session.Draft().Subjects
	if len(all) == 0 {
		return
	}
	c.layer = sized(c.layer, dst.Bounds().Dx(), dst.Bounds().Dy())
	c.layer.Clear()
	look := k.Session.Look
	for _, s := range all {
		fillShape(c.layer, k.Session.SubjectShape(s), toPX, look.Of(c.colours.ink))
	}
	thin := &ebiten.DrawImageOptions{}
	thin.ColorScale.ScaleAlpha(subjectStrength)
	dst.DrawImage(c.layer, thin)

	chosen, has := k.ChosenSubject()
	for _, s := range all {
		col := c.colours.faint
		if has && s.ID == chosen.ID {
			col = c.colours.accent
			for _, r := range geometry.Rings(k.Session.SubjectShape(s).Outline()) {
				c.thinLine(dst, r, 4, c.colours.halo)
				c.thinLine(dst, r, 2, col)
			}
		}
		shows := s.Edge != draft.Behind || has && s.ID == chosen.ID
		if l := k.Session.Layout(); l != nil && s.Room > 0 && shows {
			if room, err := l.RoomOf(s); err == nil {
				for _, r := range geometry.Rings(room.Outline()) {
					c.thinLine(dst, r, 1, col)
				}
			}
		}
	}
}

// tangents rings the places where an opening's edge runs beside a subject's.
func (c *canvas) tangents(dst *ebiten.Image) {
	m := c.desk.View.Map()
	for _, t := range c.desk.Session.Ringed() {
		radius := math.Max(t.Reaches*c.desk.View.Zoom, 9) + 5
		c.ring(dst, m.Apply(t.At), radius, 5, c.colours.halo)
		c.ring(dst, m.Apply(t.At), radius, 2, c.colours.warn)
	}
}

// thinLine strokes a ring in mm with bevelled corners, which take few vertices.
func (c *canvas) thinLine(dst *ebiten.Image, r orb.Ring, width float64, col color.RGBA) {
	m := c.desk.View.Map()
	const most = 8000 // corners of one stroke: indexes of 16 bits name no more vertices
	for len(r) > 1 {
		part := r[:min(len(r), most)]
		path := &vector.Path{}
		for i, p := range part {
			x, y := c.px(m.Apply(p))
			if i == 0 {
				path.MoveTo(x, y)
			} else {
				path.LineTo(x, y)
			}
		}
		vs, is := path.AppendVerticesAndIndicesForStroke(nil, nil, &vector.StrokeOptions{
			Width: float32(width * c.ratio), LineJoin: vector.LineJoinBevel})
		tint(vs, col)
		dst.DrawTriangles(vs, is, white, &ebiten.DrawTrianglesOptions{AntiAlias: true,
			FillRule: ebiten.FillRuleNonZero})
		r = r[len(part)-1:]
	}
}
