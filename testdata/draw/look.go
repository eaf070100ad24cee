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

// operations are those of the groups the drafts here use, in cell coordinates: x' = W x + t, as a b c d tx ty.
var operations = map[string][][6]float64{
	"pg": {{1, 0, 0, 1, 0, 0}, {-1, 0, 0, 1, 0, 0.5}},
	"p4mm": {{1, 0, 0, 1, 0, 0}, {-1, 0, 0, -1, 0, 0}, {0, -1, 1, 0, 0, 0}, {0, 1, -1, 0, 0, 0},
		{-1, 0, 0, 1, 0, 0}, {1, 0, 0, -1, 0, 0}, {0, 1, 1, 0, 0, 0}, {0, -1, -1, 0, 0, 0}},
	"p6mm": {{1, 0, 0, 1, 0, 0}, {0, -1, 1, -1, 0, 0}, {-1, 1, -1, 0, 0, 0}, {-1, 0, 0, -1, 0, 0}, {0, 1, -1, 1, 0, 0},
		{1, -1, 1, 0, 0, 0}, {0, -1, -1, 0, 0, 0}, {-1, 1, 0, 1, 0, 0}, {1, 0, 1, -1, 0, 0}, {0, 1, 1, 0, 0, 0},
		{1, -1, 0, -1, 0, 0}, {-1, 0, -1, 1, 0, 0}},
}

// inOneCell gives the rings of every motif under every operation, moved by i·a + j·b, in field mm.
func inOneCell(d draft, i, j int) [][]point {
	rings := map[string][][2]float64{}
	for _, s := range d.Silhouettes {
		rings[s.ID] = s.Outline[0][0]
	}
	a, g := point{d.Repeat.A, 0}, radians(d.Repeat.Gamma)
	b := heading(g).times(d.Repeat.B)
	var out [][]point
	for _, mo := range d.Motifs {
		turn := radians(mo.Turn)
		for _, o := range operations[d.Repeat.Group] {
			var ring []point
			for _, p := range rings[mo.Silhouette] {
				q := point{p[0], p[1]}.times(mo.Scale)
				if mo.Mirrored {
					q.x = -q.x
				}
				q = heading(turn).times(q.x).plus(heading(turn + math.Pi/2).times(q.y)).plus(point{mo.At[0], mo.At[1]})
				v := q.y / b.y
				u := (q.x - v*b.x) / a.x
				u, v = o[0]*u+o[1]*v+o[4]+float64(i), o[2]*u+o[3]*v+o[5]+float64(j)
				ring = append(ring, a.times(u).plus(b.times(v)))
			}
			out = append(out, ring)
		}
	}
	return out
}

// wall renders a draft's whole panel at k pixels a millimetre.
func wall(d draft, name, dir string, k float64) error {
	w, h, m := d.Panel.Width, d.Panel.Height, d.Field.Margin
	c := gg.NewContext(int((w+40)*k), int((h+40)*k))
	c.SetHexColor("#f3eee6")
	c.Clear()
	c.SetHexColor(paper)
	c.DrawRectangle(20*k, 20*k, w*k, h*k)
	c.Fill()
	c.SetHexColor(paint)
	for i := -12; i <= 12; i++ {
		for j := -12; j <= 12; j++ {
			for _, ring := range inOneCell(d, i, j) {
				lo, hi := bounds(ring)
				ox, oy := d.Field.Origin[0], d.Field.Origin[1]
				if ox+lo.x > w-m || ox+hi.x < m || oy+lo.y > h-m || oy+hi.y < m {
					continue
				}
				for _, q := range ring {
					c.LineTo((20+ox+q.x)*k, (20+h-oy-q.y)*k)
				}
				c.ClosePath()
				c.Fill() // one by one: copies on a mirror lie on each other and would cancel out
			}
		}
	}
	border := func(colour string, from, to float64) {
		c.SetHexColor(colour)
		c.SetLineWidth((to - from) * k)
		mid := (from + to) / 2
		c.DrawRectangle((20+mid)*k, (20+mid)*k, (w-2*mid)*k, (h-2*mid)*k)
		c.Stroke()
	}
	border(paper, 0, m)
	border("#f3eee6", -120, 0)
	return c.SavePNG(filepath.Join(dir, name+".png"))
}
