package jobsheet

import (
	"fmt"
	"io"
	"math"
	"strings"

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

// Write writes a layout's job sheet as a PDF of two pages. It fails where a stock must not meet a laser, where an
// option is out of its range, and as the check of the whole panel and the cut file do.
func Write(l *pattern.Layout, w io.Writer, o Options) (Made, error) {
	if err := o.check(); err != nil {
		return Made{}, err
	}
	size, err := paper.Find(o.Paper)
	if err != nil {
		return Made{}, err
	}
	o.Progress = progress.Rising(0, o.Progress) // the check tries mends and then begins again
	m, err := measure(l, o)
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
}

func (j *job) write() error {
	d := j.l.Draft
	subject := "Job sheet of a stencil"
	if !j.made.Sound {
		subject = "Job sheet of a stencil that does not hold"
	}
	j.doc = pdf.New(d.Title, subject)
	code, why := j.code()
	j.made.Code = code != nil
	if why != "" {
		j.made.Notes = append(j.made.Notes, why)
	}
	if note := pages.Unwritten(d.Title); note != "" {
		j.made.Notes = append(j.made.Notes, note)
	}
	if err := j.first(); err != nil {
		return err
	}
	j.second(code, why)
	return nil
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
	title := pdf.Wrap(pdf.Title, size, j.right()-margin, pages.Heading(j.l.Draft.Title))
	if len(title) > lines {
		last := title[lines-1]
		for _, t := range title[lines:] {
			last += " " + t
		}
		title = append(title[:lines-1], pdf.Fit(pdf.Title, size, j.right()-margin, last))
	}
	for _, t := range title {
		j.y -= size * 1.05
		j.page.Text(pdf.Title, size, margin, j.y, t)
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
	top := j.y
	wide := j.right() - margin
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
	list := func(name string, colour pdf.RGB, texts []string) {
		if len(texts) == 0 || j.y < margin+4*lead {
			return
		}
		j.head(margin, wide, name)
		for k, t := range texts {
			// The last line says how many are left out, where they are.
			lines := pdf.Wrap(pdf.Sans, body, wide-4, t)
			need := float64(len(lines)) * lead
			if k < len(texts)-1 {
				need += lead
			}
			if j.y-need < margin-lead {
				j.text(colour, margin, wide, fmt.Sprintf("%d more; the check of the draft lists them all.",
					len(texts)-k))
				break
			}
			j.page.Ink(colour)
			j.page.Circle(margin+1, j.y+1, 0.55)
			j.page.Fill()
			j.text(colour, margin+4, wide-4, t)
		}
		j.y -= 2
	}

	list("What is wrong", pages.Red, j.made.Faults)
	list("To look at", pages.Ink, j.made.Warnings)
	list("Notes on the cut file", pages.Ink, j.made.Notes)
	return nil
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

// row is a figure: what it is, and its value.
type row struct{ name, value string }

// costs are the figures of time and cost, with what they are made from.
func (j *job) costs() []row {
	o, m := j.o, j.made
	cut, from := o.speed(j.l.Draft.Sheet)
	per := func(mm float64, what string) string { return length(mm) + "\u00a0" + what }
	money := func(v float64) string { return strings.TrimSpace(fmt.Sprintf("%.2f %s", v, o.Currency)) }
	out := []row{{"Machine time", duration(m.Seconds)}, {"cutting at", per(cut, "mm/s") + ", " + from},
		{"between cuts", per(o.TravelSpeed, "mm/s") + ", " + per(o.Pierce, "s") + " a piercing"},
		{"speeding up by", per(o.Acceleration, "mm/s²") + ", corners within " + per(o.Cornering, "mm")},
		{"Setting up", duration(60 * o.Setup)}}
	if m.Cost == nil {
		return append(out, row{"Cost", "the shop's rate is not known"})
	}

	out = append(out, row{"Rate", money(o.Rate) + " an hour"})
	if o.Price > 0 {
		out = append(out, row{"Stock", money(o.Price)})
	}
	if o.Minimum > 0 {
		out = append(out, row{"Minimum charge", money(o.Minimum)})
	}
	return append(out, row{"Cost", money(*m.Cost)})
}

// figures writes the columns of figures, in groups.
func (j *job) figures(x, width float64) {
	d, m := j.l.Draft, j.made
	mm := func(v float64) string { return length(v) + "\u00a0mm" }
	some := func(v *float64) string {
		if v == nil {
			return "none"
		}
		return fmt.Sprintf("%.2f\u00a0mm", *v)
	}
	b := d.SheetBound()
	weighs := "stock's density not known"
	if m.Weight != nil {
		weighs = fmt.Sprintf("%s, at %s\u00a0kg/m³", weight(*m.Weight), length(m.Density))
		if j.o.Density == 0 {
			weighs += " by common practice"
		}
	}
	groups := []struct {
		name string
		rows []row
	}{
		{"Sheet", []row{{"Size", length(b.Max[0]-b.Min[0]) + " × " + mm(b.Max[1]-b.Min[1])}, {"Stock", d.Sheet.Stock},
			{"Thickness", mm(d.Sheet.Thickness)},
			{"Weight when cut", weighs}}},
		{"After cutting", []row{{"Narrowest bridge", some(m.Bridge)}, {"asked for", mm(d.Sheet.Bridge)},
			{"Narrowest opening", some(m.Opening)}, {"asked for", mm(d.Sheet.Opening)}}},
		{"Cutting", []row{{"Kerf allowed for", mm(m.Kerf)}, {"Openings", fmt.Sprint(m.Openings)},
			{"Cut length", fmt.Sprintf("%.2f\u00a0m", m.CutLength/1000)},
			{"Travel", fmt.Sprintf("%.2f\u00a0m", m.Travel/1000)}, {"Piercings", fmt.Sprint(m.Piercings)}}},
		{"Time and cost", j.costs()},
	}

	const (
		names    = 31.0 // mm for what a figure is
		maxLines = 4    // of a figure; what the person types may be long
	)
	for _, g := range groups {
		j.head(x, width, g.name)
		for _, r := range g.rows {
			j.page.Ink(pages.Faint)
			j.page.Text(pdf.Sans, body, x, j.y, r.name)
			j.page.Ink(pages.Ink)
			lines := pdf.Wrap(pdf.Sans, body, width-names, r.value)
			for k, line := range lines {
				if k == maxLines {
					break
				}
				if k == maxLines-1 && len(lines) > maxLines {
					line = pdf.Fit(pdf.Sans, body, width-names, line+" "+lines[maxLines])
				}
				j.page.Text(pdf.Sans, body, x+names, j.y, line)
				j.y -= lead
			}
			if len(lines) == 0 {
				j.y -= lead
			}
		}
		j.y -= 1.2
	}
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
