package pages

import (
	"io"

	"openwork/pattern/letters"
	"openwork/pattern/paper"
	"openwork/pattern/paper/pdf"
)

// Measures of a column in mm: the page's edge, sizes of its letters, from line to line.
const (
	Edge      = 18.0
	titleSize = 7.0
	HeadSize  = 3.0
	BodySize  = 3.3
	Lead      = 5.0
)

// Column is a printed map or list in the making: under a title and a heading, from the top of a page down, and on a
// further page where there is no room.
type Column struct {
	Doc   *pdf.Doc
	Page  *pdf.Page
	Paper paper.Size
	Y     float64 // where the next line goes, mm from the page's foot

	title, heading string
	drawn          []letters.Drawn
}

// NewColumn returns a column without a page yet, for a draft of that title; drawn is what of the title no font has. The
// size is A4, A3, Letter or Tabloid.
func NewColumn(title, subject, heading, size string, drawn []letters.Drawn) (*Column, error) {
	p, err := paper.Find(size)
	if err != nil {
		return nil, err
	}
	c := &Column{Doc: pdf.New(title, subject), Paper: p, title: title, heading: heading, drawn: drawn}
	c.Doc.Draw(drawn)
	return c, nil
}

// Right is where lines end, mm from the page's left edge.
func (c *Column) Right() float64 { return c.Paper.Width - Edge }

// Begin goes on to a new page, with title and heading.
func (c *Column) Begin() {
	c.Page = c.Doc.Page(c.Paper.Width, c.Paper.Height)
	c.Y = c.Paper.Height - Edge - titleSize
	c.Page.Ink(Green)
	c.Page.Text(pdf.Title, titleSize, Edge, c.Y,
		c.Page.Fit(pdf.Title, titleSize, c.Right()-Edge, Heading(c.title, c.drawn)))
	c.Y -= Lead + 1
	c.Page.Ink(Faint)
	c.Page.Text(pdf.SansBold, HeadSize, Edge, c.Y, c.heading)
	c.Y -= Lead + 2
}

// Text writes a paragraph.
func (c *Column) Text(words string) {
	for _, line := range pdf.Wrap(pdf.Sans, BodySize, c.Right()-Edge, words) {
		if c.Y < Edge {
			c.Begin()
		}
		c.Page.Ink(Ink)
		c.Page.Text(pdf.Sans, BodySize, Edge, c.Y, line)
		c.Y -= Lead
	}
	c.Y -= 0.25 * Lead
}

// Notes writes notes, a paragraph each, and says what of the title is not printed.
func (c *Column) Notes(notes []string) {
	for _, note := range notes {
		c.Text(note)
	}
	if note := Unwritten(c.title, c.drawn); note != "" {
		c.Text(note)
	}
}

// Write writes the pages as a PDF.
func (c *Column) Write(w io.Writer) error {
	data, err := c.Doc.Bytes()
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return err
}
