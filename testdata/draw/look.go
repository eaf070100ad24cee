package main

import (
	"math"
	"path/filepath"

	"github.com/fogleman/gg"
)

const (
	paper = "#d8cfbd"
	paint = "#2b5a60"
)

func bounds(ring []point) (lo, hi point) {
	lo, hi = ring[0], ring[0]
	for _, p := range ring {
		lo = point{math.Min(lo.x, p.x), math.Min(lo.y, p.y)}
		hi = point{math.Max(hi.x, p.x), math.Max(hi.y, p.y)}
	}
	return lo, hi
}

// portrait renders a drawing 900 px wide and, beside it, 60 px high.
func portrait(d drawing, dir string) error {
	lo, hi := bounds(d.ring)
	w, h := hi.x-lo.x, hi.y-lo.y
	const side = 900.0
	k := (side - 80) / math.Max(w, h)
	c := gg.NewContext(int(side)+200, int(side))
	c.SetHexColor(paper)
	c.Clear()
	c.SetHexColor(paint)
	draw := func(k, ox, oy float64) {
		for _, p := range flatten(d.pieces) {
			c.LineTo(ox+(p.x-lo.x)*k, oy+(hi.y-p.y)*k)
		}
		c.ClosePath()
		c.Fill()
	}
	draw(k, 40, (side-h*k)/2)
	draw(60/h, side+20, 60)
	draw(24/h, side+20, 160)
	return c.SavePNG(filepath.Join(dir, d.id+".png"))
}
