package stepping

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/paper/pdf"
	"openwork/pattern/study/pages"
)

// markLetter is what a hole of the sheet, or a corner, is called.
func markLetter(i int) string { return string(rune('A' + i)) }

// beginning says how the first place is found, and what the marks are set on.
func (s *Stepping) beginning() []string {
	u := s.unit()
	what := "hole"
	if len(s.Holes) == 0 {
		what = "corner"
	}
	p := s.Places[0]
	var at []string
	for _, k := range p.Use {
		at = append(at, fmt.Sprintf("%s at %s, %s", markLetter(k), s.figure(p.Marks[k][0]), s.figure(p.Marks[k][1])))
	}
	out := []string{fmt.Sprintf("Begin at place 1: its %ss come to lie with %s %s, measured from the panel's lower "+
		"left corner, to the right and upward; what is below or left of it has a minus.", what,
		strings.Join(at, "; "), u.Sign())}
	if s.Surround > 0 {
		beside := 0
		panel := s.l.Draft.PanelBound()
		for _, p := range s.Places {
			if slices.ContainsFunc(p.Use, func(k int) bool { return !panel.Contains(p.Marks[k]) }) {
				beside++
			}
		}
		out = append(out,
			fmt.Sprintf("Lay a surround of %s round the panel, level with it and fixed: board, or strips "+
				"of tape on the table. %s marks on it; so every place has two marks at least that can be pricked and "+
				"found.",
				u.Measure(s.Surround), has(beside)))
	} else {
		out = append(out, "Every place has two marks at least that lie on the panel.")
	}
	return out
}

func has(n int) string {
	if n == 1 {
		return "1 place has"
	}
	return fmt.Sprintf("%d places have", n)
}

// figure writes a coordinate so that a ruler can set it: to a tenth of a millimetre, or a hundredth of an inch.
func (s *Stepping) figure(mm float64) string {
	unit, decimals := 1.0, 1
	if s.unit().Inches {
		unit, decimals = 25.4, 2
	}
	text := strconv.FormatFloat(mm/unit, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// surround draws the surround of the panel with its width.
func (m *mapSheet) surround(to geometry.Map) {
	s := m.s
	if s.Surround == 0 {
		return
	}
	panel := s.l.Draft.PanelBound()
	all := panel.Pad(s.Surround)
	c := &m.Page.Content
	c.Ink(shade)
	c.Outline(geometry.Transform(geometry.RectOutline(all), to))
	c.Outline(geometry.Transform(geometry.RectOutline(panel), to))
	c.Fill()
	c.Line(0.2, pages.Faint)
	c.Outline(geometry.Transform(geometry.RectOutline(all), to))
	c.Stroke()
}

// width draws how wide the surround is, below its lower left corner: from its edge to the panel's.
func (m *mapSheet) width(to geometry.Map) {
	s := m.s
	if s.Surround == 0 {
		return
	}
	c := &m.Page.Content
	panel := s.l.Draft.PanelBound()
	p, q := to.Apply(panel.Pad(s.Surround).Min), to.Apply(panel.Min)
	y := p[1] - 2.5
	words := "surround of " + s.unit().Measure(s.Surround) + " on every side"
	c.Ink(pages.White)
	c.Rect(orb.Bound{Min: orb.Point{q[0] + 0.5, y - 1.6},
		Max: orb.Point{q[0] + 2.5 + pdf.TextWidth(pdf.Sans, markName, words), y + 1.6}})
	c.Fill()
	c.Line(0.2, pages.Ink)
	c.Segment(p[0], y, q[0], y)
	for _, x := range []float64{p[0], q[0]} {
		c.Segment(x, y-1, x, y+1)
	}
	c.Stroke()
	c.Ink(pages.Ink)
	c.Text(pdf.Sans, markName, q[0]+1.5, y-0.35*markName, words)
}

// shade is the colour of the surround.
var shade = pdf.RGB{R: 0xee, G: 0xec, B: 0xe4}

// marks draws the marks that can be set, and names those of the first place, beside its sign of radius r at a middle.
func (m *mapSheet) marks(to geometry.Map, middle orb.Point, r float64) {
	s := m.s
	c := &m.Page.Content
	c.Line(0.2, pages.Red)
	drawn := map[[2]int]bool{}
	for _, p := range s.Places {
		for _, k := range p.Use {
			if key := [2]int{int(math.Round(p.Marks[k][0] * 100)), int(math.Round(p.Marks[k][1] * 100))}; !drawn[key] {
				drawn[key] = true
				q := to.Apply(p.Marks[k])
				c.Segment(q[0]-markArm, q[1], q[0]+markArm, q[1])
				c.Segment(q[0], q[1]-markArm, q[0], q[1]+markArm)
			}
		}
	}
	c.Stroke()
	c.Ink(pages.Red)
	first := s.Places[0]
	for _, k := range first.Use {
		q := to.Apply(first.Marks[k])
		x, y := q[0]+0.8, q[1]+0.8
		if math.Hypot(q[0]-middle[0], q[1]-middle[1]) < r+1 {
			x, y = middle[0]+1.25*r, middle[1]-0.35*markName
		}
		c.Text(pdf.SansBold, markName, x, y, markLetter(k))
	}
}

// Measures of the table in mm: from row to row, size of letters, and the columns of number, pass and mark.
const (
	rowLead, rowText               = 4.4, 2.9
	numberWide, passWide, fromWide = 14.0, 14.0, 22.0
)

// table lists where the marks of each place lie.
func (m *mapSheet) table() {
	s := m.s
	what, unit := "holes", "mm"
	if len(s.Holes) == 0 {
		what = "corners"
	}
	if s.unit().Inches {
		unit = "inches"
	}
	names := len(s.points())
	left := pages.Edge + numberWide + passWide + fromWide
	column := (m.Right() - left) / float64(names)
	heads := func() {
		m.Y -= 2
		m.Page.Ink(pages.Green)
		m.Page.Text(pdf.SansBold, pages.HeadSize, pages.Edge, m.Y,
			pdf.Fit(pdf.SansBold, pages.HeadSize, m.Right()-pages.Edge,
				fmt.Sprintf("Where the %s come to lie, in %s from the panel's lower left corner: to the right, upward",
					what,
					unit)))
		m.Y -= rowLead + 1
		m.Page.Ink(pages.Faint)
		for _, h := range []struct {
			x    float64
			text string
		}{{pages.Edge, "place"}, {pages.Edge + numberWide, "pass"}, {pages.Edge + numberWide + passWide, "found by"}} {
			m.Page.Text(pdf.Sans, rowText, h.x, m.Y, h.text)
		}
		for k := range names {
			m.Page.Text(pdf.SansBold, rowText, left+float64(k)*column, m.Y, markLetter(k))
		}
		m.Y -= 1.4
		m.Page.Line(0.15, pages.Hairs)
		m.Page.Segment(pages.Edge, m.Y, m.Right(), m.Y)
		m.Page.Stroke()
		m.Y -= rowLead - 1
	}

	if m.Y < pages.Edge+6*rowLead {
		m.Begin()
	}
	heads()
	for _, p := range s.Places {
		if m.Y < pages.Edge {
			m.Begin()
			heads()
		}
		found := "measure"
		if p.From > 0 {
			found = fmt.Sprintf("place %d", p.From)
		}
		m.Page.Ink(pages.Ink)
		m.Page.Text(pdf.SansBold, rowText, pages.Edge, m.Y, strconv.Itoa(p.Number))
		m.Page.Text(pdf.Sans, rowText, pages.Edge+numberWide, m.Y, strconv.Itoa(p.Pass))
		m.Page.Text(pdf.Sans, rowText, pages.Edge+numberWide+passWide, m.Y, found)
		for k, q := range p.Marks {
			text := s.figure(q[0]) + ", " + s.figure(q[1])
			m.Page.Ink(pages.Ink)
			if !slices.Contains(p.Use, k) {
				text = "off"
				m.Page.Ink(pages.Faint)
			}
			m.Page.Text(pdf.Sans, rowText, left+float64(k)*column, m.Y, text)
		}
		m.Y -= rowLead
	}
}

// signs tell the places of each pass apart without colour.
var signs = []struct {
	name string
	draw func(c *pdf.Content, x, y, r float64)
}{
	{"in circles", func(c *pdf.Content, x, y, r float64) { c.Circle(x, y, r) }},
	{"in squares", func(c *pdf.Content, x, y, r float64) {
		c.Rect(orb.Bound{Min: orb.Point{x - 0.9*r, y - 0.9*r}, Max: orb.Point{x + 0.9*r, y + 0.9*r}})
	}},
	{"in squares on a corner", func(c *pdf.Content, x, y, r float64) {
		polygon(c, x, y, 1.2*r, orb.Point{0, 1}, orb.Point{1, 0}, orb.Point{0, -1}, orb.Point{-1, 0})
	}},
	{"in triangles", func(c *pdf.Content, x, y, r float64) {
		polygon(c, x, y, 1.2*r, orb.Point{0, 1.1}, orb.Point{-1, -0.65}, orb.Point{1, -0.65})
	}},
}

func polygon(c *pdf.Content, x, y, r float64, corners ...orb.Point) {
	for i, p := range corners {
		if i == 0 {
			c.MoveTo(x+r*p[0], y+r*p[1])
		} else {
			c.LineTo(x+r*p[0], y+r*p[1])
		}
	}
	c.Close()
}
