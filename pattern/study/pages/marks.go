package pages

import (
	"strings"

	"openwork/geometry"
	"openwork/pattern/paper/pdf"

	"github.com/paulmach/orb"
)

// seams returns the lines on which pages are cut and meet, the middles of the overlaps: places along x, then along y.
func (s *study) seams() (along [2][]float64) {
	for axis, n := range [2]int{s.made.Columns, s.made.Rows} {
		for k := 1; k < n; k++ {
			along[axis] = append(along[axis], s.min[axis]+float64(k)*s.step[axis]+s.o.Overlap/2)
		}
	}
	return along
}

// marks draws crop marks, crosses where seams meet and at their ends, and joining marks, rings with a cross between
// them. They belong to the panel, not to a page: neighbours show the same mark at the same place.
func (s *study) marks(c *pdf.Content, window orb.Bound) {
	seams := s.seams()
	stops := [2][]float64{}
	for axis, n := range [2]int{s.made.Columns, s.made.Rows} {
		low := s.min[axis]
		high := low + s.window[axis] + float64(n-1)*s.step[axis]
		stops[axis] = append(append([]float64{low + crossArm}, seams[axis]...), high-crossArm)
	}
	c.Line(hair, Green)
	cross := func(x, y, arm float64) {
		c.Segment(x-arm, y, x+arm, y)
		c.Segment(x, y-arm, x, y+arm)
		c.Stroke()
	}
	near := func(x, y, reach float64) bool {
		return window.Intersects(orb.Bound{Min: orb.Point{x - reach, y - reach}, Max: orb.Point{x + reach, y + reach}})
	}
	put := func(axis int, seam, along float64) (x, y float64) {
		if axis == 0 {
			return seam, along
		}
		return along, seam
	}
	for axis := range 2 {
		other := stops[1-axis]
		for _, seam := range seams[axis] {
			for k, stop := range other {
				// A cross where two seams meet is drawn once, for the seams along x.
				inner := k > 0 && k < len(other)-1
				if x, y := put(axis, seam, stop); near(x, y, crossArm) && (axis == 0 || !inner) {
					cross(x, y, crossArm)
				}
				if k == 0 {
					continue
				}
				for _, t := range []float64{0.25, 0.75} {
					x, y := put(axis, seam, other[k-1]+t*(stop-other[k-1]))
					if !near(x, y, joinRadius+1) {
						continue
					}
					c.Circle(x, y, joinRadius)
					c.Stroke()
					cross(x, y, joinRadius+1)
				}
			}
		}
	}
}

// furniture draws a page's rules, its name and those of its neighbours, beside the drawing.
func (s *study) furniture(c *pdf.Content, i int) {
	p := s.made.Places[i]
	left, below := p.Paper.Min[0], p.Paper.Min[1]
	rules(c, s.o.rule(), s.factor, left, below-1.5, left-1.5, below)
	from := left + s.o.rule().long*s.factor + 4
	right := p.Paper.Max[0]
	const big = 6.2
	c.Ink(Green)
	wide := pdf.TextWidth(pdf.Title, big, p.Name)
	c.Text(pdf.Title, big, right-wide, below-6, p.Name)
	c.Ink(Ink)
	const small = 2.4
	room := right - wide - 4 - from
	c.Text(pdf.SansBold, small, from, below-3.4, c.Fit(pdf.SansBold, small, room,
		Heading(s.l.Draft.Title, s.o.Lettering)))
	c.Ink(Faint)
	c.Text(pdf.Sans, small, from, below-6.4, pdf.Fit(pdf.Sans, small, room, s.beside(i)))
}

// beside names a page's neighbours.
func (s *study) beside(i int) string {
	row, column := i/s.made.Columns, i%s.made.Columns
	var out []string
	for _, n := range []struct {
		where       string
		row, column int
	}{{"left", row, column - 1}, {"right", row, column + 1}, {"above", row - 1, column}, {"below", row + 1, column}} {
		if n.row >= 0 && n.row < s.made.Rows && n.column >= 0 && n.column < s.made.Columns {
			out = append(out, n.where+" "+name(n.row, n.column))
		}
	}
	if len(out) == 0 {
		return "the only page"
	}
	return strings.Join(out, "  ·  ")
}

// rules draws a rule to the right from (x0, y0), its ticks downward, and one from as far above (x1, y1) down to it, its
// ticks to the left.
func rules(c *pdf.Content, r rule, factor, x0, y0, x1, y1 float64) {
	draw := func(m geometry.Map, name string) {
		c.Save()
		c.Map(m)
		c.Line(hair, Ink)
		c.Segment(0, 0, r.long*factor, 0)
		for k := range r.parts + 1 {
			x := float64(k) * r.long / float64(r.parts) * factor
			tick := 1.2
			if k%r.each == 0 {
				tick = 2.4
			}
			c.Segment(x, 0, x, -tick)
		}

		c.Stroke()
		c.Ink(Ink)
		c.Text(pdf.Sans, 2.2, 2, -4.6, name)
		c.Restore()
	}
	draw(geometry.Translate(x0, y0), r.name+": measure it; a print that is off needs a correction")
	draw(geometry.Translate(x1, y1+r.long*factor).After(geometry.TurnDegrees(-90)), r.name)
}
