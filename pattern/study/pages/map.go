package pages

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/paper/pdf"
)

// mapPage draws the first page: the panel with its pages and their names, and how they go together.
func (s *study) mapPage() {
	d := s.l.Draft
	c := s.doc.Page(s.made.Width, s.made.Height)
	in := math.Max(s.o.Margin+4, 15)
	left, right, top, low := in, s.made.Width-in, s.made.Height-in, in+band
	const title, text, lead = 8.5, 3.2, 5.0
	c.Ink(Green)
	y := top - title*0.8
	lines := c.Wrap(pdf.Title, title, right-left, Heading(d.Title, s.o.Lettering))
	for k, line := range lines {
		if k == 1 && len(lines) > 2 {
			line = c.Fit(pdf.Title, title, right-left, line+" "+lines[2])
		}
		if k > 1 {
			break
		}
		c.Text(pdf.Title, title, left, y, line)
		y -= title * 1.15
	}

	c.Ink(Ink)
	c.Text(pdf.Sans, text, left, y+2.5, pdf.Fit(pdf.Sans, text, right-left,
		fmt.Sprintf("Full-scale study of a panel of %s × %s %s", s.o.figure(d.Panel.Width), s.o.figure(d.Panel.Height),
			s.o.unit().Sign())))
	y -= 3

	// The words stand to the right of a map on a lying page, below it on an upright one.
	words := s.words()
	box := orb.Bound{Min: orb.Point{left, low}, Max: orb.Point{right, y}}
	column := right - left
	var at orb.Point
	if s.made.Lying {
		column = (right - left) * 0.36
		box.Max[0] = right - column - 10
		at = orb.Point{right - column, y - 3}
	}
	type paragraph []string
	var set []paragraph
	high := 0.0
	for _, w := range words {
		p := paragraph(pdf.Wrap(pdf.Sans, text, column, w))
		set = append(set, p)
		high += float64(len(p))*lead + lead*0.5
	}
	if !s.made.Lying {
		box.Min[1] = low + high + 8
		at = orb.Point{left, low + high - 1}
	}
	if shown := s.overview(&c.Content, box); s.made.Lying {
		at[0] = math.Min(at[0], shown.Max[0]+14)
	}
	c.Ink(Ink)
	for _, p := range set {
		for _, line := range p {
			c.Text(pdf.Sans, text, at[0], at[1], line)
			at[1] -= lead
		}
		at[1] -= lead * 0.5
	}
	rules(&c.Content, s.o.rule(), s.factor, s.o.Margin+band, s.o.Margin+band-1.5, s.o.Margin+band-1.5, s.o.Margin+band)
}

// words says how the pages go together.
func (s *study) words() []string {
	lie := "upright"
	if s.made.Lying {
		lie = "lying"
	}
	n := s.made.Rows * s.made.Columns
	out := []string{fmt.Sprintf("%s of %s, %s: %s of %s. They are printed at 100\u00a0%%, never fitted to the page.",
		count(n, "page"), s.made.Paper, lie, count(s.made.Rows, "row"), count(s.made.Columns, "page"))}
	corrected := "These pages are drawn without a correction."
	if s.o.Correction != 0 {
		corrected = fmt.Sprintf("These pages are drawn with a correction of %+.3g\u00a0%%.", s.o.Correction)
	}
	long, short := "100", "97\u00a0mm"
	if s.o.unit().Inches {
		long, short = "4", "3.88\u00a0in"
	}
	out = append(out, fmt.Sprintf("First measure both rules on this page: each is %s long. Where one is not, "+
		"divide %s by what you measure: %s asks for a correction of +3.1\u00a0%%. %s", s.o.rule().name, long, short,
		corrected))
	if n > 1 {
		how := fmt.Sprintf("Neighbours share %s\u00a0%s. ", s.o.figure(s.o.Overlap), s.o.unit().Sign())
		if s.o.Marks {
			how += "Cut one of the two through its crosses and rings, lay it on the other so that they close again, " +
				"and tape it."
		} else {
			how += "Lay one on the other so that the lines run on, and tape it."
		}
		out = append(out, how)
	}
	if s.o.Key {
		out = append(out, KeyWords(s.l.Draft))
	}
	if note := Unwritten(s.l.Draft.Title, s.o.Lettering); note != "" {
		out = append(out, note)
	}
	return out
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// overview draws the panel and the pages, small, into a box, and returns the part of it that they take.
func (s *study) overview(c *pdf.Content, box orb.Bound) orb.Bound {
	whole := orb.Bound{Min: s.min, Max: orb.Point{s.min[0] + s.window[0] + float64(s.made.Columns-1)*s.step[0],
		s.min[1] + s.window[1] + float64(s.made.Rows-1)*s.step[1]}}
	if box.Max[0]-box.Min[0] < 20 || box.Max[1]-box.Min[1] < 20 {
		return box // no paper is so small, whatever its margin
	}
	size := orb.Point{whole.Max[0] - whole.Min[0], whole.Max[1] - whole.Min[1]}
	f := math.Min((box.Max[0]-box.Min[0])/size[0], (box.Max[1]-box.Min[1])/size[1])
	x := box.Min[0]
	if !s.made.Lying {
		x += (box.Max[0] - box.Min[0] - f*size[0]) / 2
	}
	m := geometry.Translate(x, box.Max[1]-f*size[1]).After(geometry.Scale(f)).After(geometry.Translate(-whole.Min[0],
		-whole.Min[1]))
	c.Save()
	c.Map(m)
	c.Save()
	c.Rect(s.l.Draft.PanelBound())
	c.Clip()
	if s.o.Pattern {
		s.draw.Draw(c, s.l.Draft.PanelBound())
	}
	if s.o.Key {
		s.draw.Key(c, s.l.Draft.PanelBound())
	}
	c.Restore()
	c.Line(0.4/f, Ink)
	c.Rect(s.l.Draft.PanelBound())
	c.Stroke()
	c.Line(0.2/f, Red)
	c.Dash(2/f, 1/f)
	seams := s.seams()
	for _, v := range seams[0] {
		c.Segment(v, whole.Min[1], v, whole.Max[1])
	}
	for _, v := range seams[1] {
		c.Segment(whole.Min[0], v, whole.Max[0], v)
	}
	c.Rect(whole)
	c.Stroke()
	c.Dash()
	c.Restore()
	high := math.Min(7, f*math.Min(s.step[0], s.step[1])*0.4)
	for _, p := range s.made.Places {
		at := m.Apply(p.Window.Center())
		wide := pdf.TextWidth(pdf.Title, high, p.Name)
		c.Ink(White)
		c.Rect(orb.Bound{Min: orb.Point{at[0] - wide/2 - 0.2*high, at[1] - 0.5*high},
			Max: orb.Point{at[0] + wide/2 + 0.2*high, at[1] + 0.5*high}})
		c.Fill()
		c.Ink(Green)
		c.Text(pdf.Title, high, at[0]-wide/2, at[1]-0.33*high, p.Name)
	}
	return orb.Bound{Min: m.Apply(whole.Min), Max: m.Apply(whole.Max)}
}
