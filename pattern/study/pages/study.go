package pages

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/paper"
	"openwork/pattern/paper/pdf"
)

// Sizes on a page, in mm.
const (
	band       = 8.0  // left free below and to the left of the drawing, for the rules and the page's name
	edge       = 0.5  // beyond the panel that is drawn, so that the line of its edge is whole
	lineWidth  = 0.25 // of openings and of the panel's edge
	hair       = 0.12 // of rules, marks and cells
	joinRadius = 2.5  // of joining marks
	crossArm   = 4.0  // of crop marks
)

// Page says where one page of a study lies.
type Page struct {
	Name   string    `json:"name"`   // row from above as a letter, column from the left as a number
	Window orb.Bound `json:"-"`      // of the panel that it shows, in panel mm
	Paper  orb.Bound `json:"-"`      // where on the paper that is, mm from its lower left corner
	Copies int       `json:"copies"` // that it shows
}

// Made tells what a study holds. Lengths in mm.
type Made struct {
	Pages   int     `json:"pages"` // with the map
	Rows    int     `json:"rows"`
	Columns int     `json:"columns"`
	Paper   string  `json:"paper"`
	Lying   bool    `json:"lying"`
	Width   float64 `json:"width"` // of the paper as it lies
	Height  float64 `json:"height"`
	Bytes   int     `json:"bytes"`
	Lacks   string  `json:"lacks"`  // letters of the title that are left out
	Places  []Page  `json:"places"` // of the pages after the map, row by row
}

// study is a study in the making.
type study struct {
	l      *pattern.Layout
	o      Options
	made   Made
	factor float64
	min    orb.Point // lower left corner of the pages put together, panel mm
	window orb.Point // what one page shows, panel mm
	step   orb.Point // from page to page
	draw   *Drawing
	doc    *pdf.Doc
}

// Write writes the full-scale study of a layout as a PDF: a map of the pages, then the pages row by row from above. It
// fails where an option is out of its range, where a page has no room for its rules, and where there would be too many
// pages or copies.
func Write(l *pattern.Layout, w io.Writer, o Options) (Made, error) {
	s, err := plan(l, o)
	if err != nil {
		return Made{}, err
	}
	d := l.Draft
	s.doc = pdf.New(d.Title, fmt.Sprintf("Full-scale study, %s × %s %s", o.figure(d.Panel.Width),
		o.figure(d.Panel.Height), o.unit().Sign()))
	s.doc.Draw(o.Lettering)
	s.made.Lacks = Lacks(d.Title, o.Lettering)
	if s.draw, err = NewDrawing(s.doc, l, o.Draw, lineWidth); err != nil {
		return Made{}, err
	}
	s.mapPage()
	for i := range s.made.Places {
		o.Progress.Of(i, len(s.made.Places)+1)
		s.page(i)
	}
	data, err := s.doc.Bytes()
	if err != nil {
		return Made{}, err
	}
	s.made.Bytes = len(data)
	if _, err := w.Write(data); err != nil {
		return Made{}, err
	}
	o.Progress.At(1)
	return s.made, nil
}

// plan finds how the pages lie.
func plan(l *pattern.Layout, o Options) (*study, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	if o.Paper == "" {
		o.Paper = paper.Usual(o.unit().Inches)
	}
	size, err := paper.Find(o.Paper)
	if err != nil {
		return nil, err
	}
	s := &study{l: l, o: o, factor: o.factor()}
	area := l.Draft.PanelBound().Pad(edge)
	length := orb.Point{area.Max[0] - area.Min[0], area.Max[1] - area.Min[1]}
	type way struct {
		lying   bool
		w, h    float64
		window  orb.Point
		columns int
		rows    int
	}
	var best *way
	for _, lying := range []bool{false, true} {
		if lying && o.Way == Upright || !lying && o.Way == Lying {
			continue
		}
		v := way{lying: lying, w: size.Width, h: size.Height}
		if lying {
			v.w, v.h = v.h, v.w
		}
		room := orb.Point{v.w - 2*o.Margin - band, v.h - 2*o.Margin - band}
		v.window = orb.Point{room[0] / s.factor, room[1] / s.factor}
		if smaller := math.Min(room[0], room[1]); smaller < o.rule().long*s.factor+1 ||
			math.Min(v.window[0], v.window[1]) < 2*o.Overlap {
			if best == nil && (lying || o.Way == Upright) {
				return nil, fmt.Errorf("a margin of %s %s leaves too little of %s for the rules of %s and an "+
					"overlap of %s %s; take less, or larger paper", o.figure(o.Margin), o.unit().Sign(), size.Name,
					strings.ReplaceAll(o.rule().name, "\u00a0", " "), o.figure(o.Overlap), o.unit().Sign())
			}
			continue
		}
		v.columns, v.rows = span(length[0], v.window[0], o.Overlap), span(length[1], v.window[1], o.Overlap)
		if best == nil || v.columns*v.rows < best.columns*best.rows {
			best = &v
		}
	}

	if n := best.columns * best.rows; n > maxPages {
		return nil, fmt.Errorf("the study would take %d pages, %d rows of %d, and the limit is %d; take larger paper",
			n, best.rows, best.columns, maxPages)
	}
	s.window = best.window
	s.step = orb.Point{s.window[0] - o.Overlap, s.window[1] - o.Overlap}
	whole := orb.Point{s.window[0] + float64(best.columns-1)*s.step[0], s.window[1] + float64(best.rows-1)*s.step[1]}
	middle := area.Center()
	s.min = orb.Point{middle[0] - whole[0]/2, middle[1] - whole[1]/2}
	corner := orb.Point{o.Margin + band, o.Margin + band}
	s.made = Made{Rows: best.rows, Columns: best.columns, Pages: best.rows*best.columns + 1, Paper: size.Name,
		Lying: best.lying, Width: best.w, Height: best.h}
	for row := range best.rows {
		for column := range best.columns {
			at := orb.Point{s.min[0] + float64(column)*s.step[0], s.min[1] + float64(best.rows-1-row)*s.step[1]}
			s.made.Places = append(s.made.Places, Page{Name: name(row, column),
				Window: orb.Bound{Min: at, Max: orb.Point{at[0] + s.window[0], at[1] + s.window[1]}},
				Paper: orb.Bound{Min: corner, Max: orb.Point{corner[0] + s.window[0]*s.factor, corner[1] +
					s.window[1]*s.factor}}})
		}
	}
	return s, nil
}

// name returns a page's name: A1 is the upper left one, B1 is below it, A2 to its right; after Z comes AA.
func name(row, column int) string {
	letters := ""
	for r := row; r >= 0; r = r/26 - 1 {
		letters = string(rune('A'+r%26)) + letters
	}
	return fmt.Sprintf("%s%d", letters, column+1)
}

// page draws one page.
func (s *study) page(i int) {
	p := &s.made.Places[i]
	c := s.doc.Page(s.made.Width, s.made.Height)
	c.Save()
	c.Rect(p.Paper)
	c.Clip()
	c.Map(geometry.Translate(p.Paper.Min[0], p.Paper.Min[1]).After(geometry.Scale(s.factor)).After(
		geometry.Translate(-p.Window.Min[0], -p.Window.Min[1])))
	p.Copies = s.field(&c.Content, p.Window)
	if s.o.Marks {
		s.marks(&c.Content, p.Window)
	}
	c.Restore()
	s.furniture(&c.Content, i)
}

// field draws what of the panel meets a window, in panel mm.
func (s *study) field(c *pdf.Content, window orb.Bound) (copies int) {
	if s.o.Pattern {
		copies = s.draw.Draw(c, window)
	}
	if s.o.Key {
		s.draw.Key(c, window)
	}
	if s.o.Cell {
		c.Save()
		c.Rect(s.l.Draft.FieldBound())
		c.Clip()
		c.Line(hair, Green)
		c.Dash(3, 1.5)
		s.draw.Cells(c, window)
		c.Restore()
	}
	if !s.o.Pattern {
		s.draw.subjects(c, window)
	}
	s.registration(c)
	c.Line(hair, Faint)
	c.Rect(s.l.Draft.FieldBound())
	c.Stroke()
	c.Line(lineWidth, Ink)
	c.Rect(s.l.Draft.PanelBound())
	c.Stroke()
	return copies
}

// registration draws the stencil's registration marks, where it is known that they are: a circle and a cross each.
func (s *study) registration(c *pdf.Content) {
	c.Line(lineWidth, Ink)
	for _, p := range s.o.Registration {
		c.Circle(p[0], p[1], joinRadius)
		c.Segment(p[0]-crossArm, p[1], p[0]+crossArm, p[1])
		c.Segment(p[0], p[1]-crossArm, p[0], p[1]+crossArm)
		c.Stroke()
	}
}
