package jobsheet

import (
	"fmt"
	"io"
	"math"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/link"
	"openwork/pattern/paper"
	"openwork/pattern/paper/pdf"
	"openwork/pattern/progress"
	"openwork/pattern/qr"
	"openwork/pattern/study/pages"
)

// Sizes on the page, in mm.
const (
	margin  = 18.0
	body    = 3.1 // letters of running text
	lead    = 4.7 // from line to line
	heading = 2.7
	gutter  = 10.0
	hair    = 0.15
)

// maxSentences of a list begin a new page where one is full; the rest are counted.
const maxSentences = 12

// Write writes a layout's job sheet as a PDF: two pages for the shop, more where faults take more room, one for the
// hand that lays the sheet, and one for the studio wall where the draft names colours. It fails where a stock must
// not meet a laser, where an option is out of its range, and as the check of the whole panel and the cut file do.
func Write(l *pattern.Layout, w io.Writer, o Options) (Made, error) {
	if err := o.check(); err != nil {
		return Made{}, err
	}
	if o.Paper == "" {
		o.Paper = paper.Usual(o.unit().Inches)
	}
	size, err := paper.Find(o.Paper)
	if err != nil {
		return Made{}, err
	}
	o.Progress = progress.Rising(0, o.Progress) // the check tries mends and then begins again
	m, err := figuresOf(l, o)
	if err != nil {
		return Made{}, err
	}
	j := &job{l: l, o: o, made: &m, paper: size}
	if err := j.write(); err != nil {
		return Made{}, err
	}
	m.Pages = j.doc.Pages()
	data, err := j.doc.Bytes()
	if err != nil {
		return Made{}, err
	}
	m.Bytes = len(data)
	if _, err := w.Write(data); err != nil {
		return Made{}, err
	}
	o.Progress.At(1)
	return m, nil
}

// job is a job sheet in the making: where the next line goes.
type job struct {
	l     *pattern.Layout
	o     Options
	made  *Made
	paper paper.Size
	doc   *pdf.Doc
	page  *pdf.Page
	y     float64
	later []group // figures that the first page had no room for
	warn  bool    // warnings that it had none for
}

func (j *job) write() error {
	d := j.l.Draft
	subject := "Job sheet of a stencil"
	if !j.made.Sound {
		subject = "Job sheet of a stencil that does not hold"
	}
	j.doc = pdf.New(d.Title, subject)
	j.doc.Draw(j.o.Lettering)
	j.made.Lacks = pages.Lacks(d.Title, j.o.Lettering)
	code, why := j.code()
	j.made.Code = code != nil
	if why != "" {
		j.made.Notes = append(j.made.Notes, why)
	}
	if note := pages.Unwritten(d.Title, j.o.Lettering); note != "" {
		j.made.Notes = append(j.made.Notes, note)
	}
	if err := j.first(); err != nil {
		return err
	}
	j.second(code, why)
	j.third()
	return j.fourth()
}

// right is where lines end.
func (j *job) right() float64 { return j.paper.Width - margin }

// begin begins a page with the title, of as many lines as asked for at most.
func (j *job) begin(size float64, lines int) {
	j.page = j.doc.Page(j.paper.Width, j.paper.Height)
	j.y = j.paper.Height - margin
	j.page.Ink(pages.Faint)
	j.page.Text(pdf.SansBold, heading, margin, j.y-heading, "Job sheet")
	date := pdf.Fit(pdf.Sans, heading, (j.right()-margin)/2, j.o.Date)
	j.page.Text(pdf.Sans, heading, j.right()-pdf.TextWidth(pdf.Sans, heading, date), j.y-heading, date)
	j.y -= heading + 3
	j.page.Ink(pages.Green)
	wide := j.right() - margin
	heads := pages.Heading(j.l.Draft.Title, j.o.Lettering)
	title := j.page.Wrap(pdf.Title, size, wide, heads)
	if len(title) > lines && lines > 1 { // smaller, and as much of it as fits
		size, lines = 0.65*size, lines+1
		title = j.page.Wrap(pdf.Title, size, wide, heads)
	}
	if len(title) > lines {
		last := title[lines-1]
		for _, t := range title[lines:] {
			last += " " + t
		}
		title = append(title[:lines-1], j.page.Fit(pdf.Title, size, wide, last))
	}
	for _, t := range title {
		j.y -= size * 1.05
		// A piece that is drawn is never parted: one that is wider than the page is set smaller.
		fits := min(1, wide/max(j.page.Width(pdf.Title, size, t), 1))
		j.page.Text(pdf.Title, size*fits, margin, j.y, t)
	}
	j.y -= 5.5
}

// head writes a heading with a hairline above it.
func (j *job) head(x, width float64, text string) {
	j.page.Line(hair, pages.Hairs)
	j.page.Segment(x, j.y, x+width, j.y)
	j.page.Stroke()
	j.y -= heading + 2.2
	j.page.Ink(pages.Green)
	j.page.Text(pdf.SansBold, heading, x, j.y, text)
	j.y -= lead + 0.6
}

// text writes a paragraph and goes on below it.
func (j *job) text(colour pdf.RGB, x, width float64, text string) {
	j.page.Ink(colour)
	for _, line := range pdf.Wrap(pdf.Sans, body, width, text) {
		j.page.Text(pdf.Sans, body, x, j.y, line)
		j.y -= lead
	}
	j.y -= 0.35 * lead
}

// first is the page of the sheet: picture, verdict, figures, faults.
func (j *job) first() error {
	j.begin(9.5, 2)
	j.verdict()
	j.agreed()
	top := j.y
	column := 74.0
	x := j.right() - column
	j.figures(x, column)
	low := j.y
	box := orb.Bound{Min: orb.Point{margin + 5, low}, Max: orb.Point{x - gutter, top}}
	box.Min[1] = math.Min(low, top-box.Max[0]+box.Min[0])
	bottom, err := j.picture(box)
	if err != nil {
		return err
	}
	j.y = math.Min(low, bottom) - 7
	j.list("What is wrong", pages.Red, j.made.Faults)
	j.list("Notes on the cut file", pages.Ink, j.made.Notes)
	// What is only to be looked at is the painter's, and goes to the last page where this one is full.
	if j.y-j.listHigh(j.made.Warnings) > margin-lead {
		j.list(toLookAt, pages.Ink, j.made.Warnings)
	} else {
		j.warn = true
	}
	return nil
}

const toLookAt = "To look at"

// list writes sentences one below the other, on further pages where one is full; beyond maxSentences those that begin
// another page are counted.
func (j *job) list(name string, colour pdf.RGB, texts []string) {
	if len(texts) == 0 {
		return
	}
	wide := j.right() - margin
	if j.y < margin+5*lead {
		j.begin(6.5, 1)
	}
	j.head(margin, wide, name)
	for k, t := range texts {
		lines := pdf.Wrap(pdf.Sans, body, wide-4, t)
		if j.y-float64(len(lines))*lead < margin-lead {
			if k >= maxSentences {
				j.text(colour, margin, wide, fmt.Sprintf("%d more; the check of the draft lists them all.",
					len(texts)-k))
				break
			}
			j.begin(6.5, 1)
			j.y -= lead
		}
		j.page.Ink(colour)
		j.page.Circle(margin+1, j.y+1, 0.55)
		j.page.Fill()
		j.text(colour, margin+4, wide-4, t)
	}
	j.y -= 2
}

// listHigh returns how high a list is, in mm.
func (j *job) listHigh(texts []string) float64 {
	high := heading + 2.2 + lead
	for _, t := range texts {
		high += (float64(len(pdf.Wrap(pdf.Sans, body, j.right()-margin-4, t))) + 0.35) * lead
	}
	return high
}

// verdict says whether the sheet holds.
func (j *job) verdict() {
	const size = 5.4
	colour := pages.Green
	if !j.made.Sound {
		colour = pages.Red
	}
	j.y -= size * 0.8
	j.page.Ink(colour)
	j.page.Text(pdf.Title, size, margin, j.y, pdf.Fit(pdf.Title, size, j.right()-margin, j.made.Verdict))
	j.y -= 7
}

// code makes the QR code of the draft's link, or says why there is none.
func (j *job) code() (*qr.Code, string) {
	name := j.o.File
	if name == "" {
		name = j.l.Draft.Title
	}
	s, err := link.Encode(j.l.Draft)
	if err != nil {
		return nil, fmt.Sprintf("The draft has no link: %s. It is kept in the file %s.", err, name)
	}
	s = j.o.Address + s
	// The stronger correction as long as its modules stay large enough to be read by a hand-held camera.
	const comfortable = 12
	if c, err := qr.Encode([]byte(s), qr.M); err == nil && c.Version <= comfortable {
		return c, ""
	}
	c, err := qr.Encode([]byte(s), qr.L)
	if err != nil {
		return nil, fmt.Sprintf("The draft's link has %d characters, and a QR code holds %d. The draft is kept in "+
			"the file %s.",
			len(s), qr.MaxBytes, name)
	}
	return c, ""
}
