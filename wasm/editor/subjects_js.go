//go:build js

package main

import (
	"image"
	"image/color"
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// subjectStrength is how strongly a subject covers the pattern that runs on behind it.
const subjectStrength = 0.86

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
	if c.desk.Through() > 0 {
		takeOut := &ebiten.DrawImageOptions{Blend: ebiten.BlendDestinationOut}
		c.fillShape(dst, s, m, color.RGBA{255, 255, 255, 255}, takeOut)
	}
	c.fillShape(dst, s, m, c.translucent(c.ground.bare), &ebiten.DrawImageOptions{})
}

// subjects draws what stands in front of the pattern, and the lines of the rooms.
func (c *canvas) subjects(dst *ebiten.Image, toPX geometry.Map) {
	k := c.desk
	all := k.Session.Draft().Subjects
	if len(all) == 0 {
		return
	}
	part := image.Rectangle{}
	for _, s := range all {
		part = part.Union(rectPX(toPX, k.Session.SubjectShape(s).Bound()))
	}
	c.drawFaded(dst, part, subjectStrength, func(layer *ebiten.Image) {
		for _, s := range all {
			c.batch.shape(layer, k.Session.SubjectShape(s), toPX, k.Session.Look.Of(c.colours.ink))
		}
	})

	chosen, has := k.ChosenSubject()
	for _, s := range all {
		col := c.colours.faint
		if has && s.ID == chosen.ID {
			col = c.colours.accent
			for _, r := range geometry.Rings(k.Session.SubjectShape(s).Outline()) {
				c.polyline(r, 4, c.colours.halo)
				c.polyline(r, 2, col)
			}
		}
		shows := s.Edge != draft.Behind || has && s.ID == chosen.ID
		if l := k.Session.Layout(); l != nil && s.Room > 0 && shows {
			if room, err := l.RoomOf(s); err == nil {
				for _, r := range geometry.Rings(room.Outline()) {
					c.polyline(r, 1, col)
				}
			}
		}
	}
}

// tangents rings the places where an opening's edge runs beside a subject's.
func (c *canvas) tangents() {
	m := c.desk.View.Map()
	for _, t := range c.desk.Session.Ringed() {
		radius := math.Max(t.Reaches*c.desk.View.Zoom, 9) + 5
		c.ring(m.Apply(t.At), radius, 5, c.colours.halo)
		c.ring(m.Apply(t.At), radius, 2, c.colours.warn)
	}
}
