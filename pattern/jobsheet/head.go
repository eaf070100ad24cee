package jobsheet

import (
	"fmt"
	"strconv"
	"strings"

	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/paper/pdf"
	"openwork/pattern/study/pages"
)

// Head is what the person and the shop agree on. Nothing of it has to be said; what is not is left out of the head, and
// the shop's questions say that it is open.
type Head struct {
	Customer  string `json:"customer"`
	Contact   string `json:"contact"`
	Quantity  int    `json:"quantity"` // of sheets; 0: not said
	Due       string `json:"due"`
	Revision  string `json:"revision"`
	Shows     string `json:"shows"`     // which side shows: label, back; empty: not said
	Film      string `json:"film"`      // protective film while it is cut: on, off; empty: not said
	Dropouts  string `json:"dropouts"`  // keep, discard; empty: not said
	Tolerance string `json:"tolerance"` // of the cut sheet, as agreed
	Approval  bool   `json:"approval"`  // a line to sign
}

// maxQuantity is how many sheets are ordered at most.
const maxQuantity = 100_000

func (h Head) check() error {
	for _, f := range []struct{ what, text string }{{"the customer", h.Customer}, {"the contact", h.Contact},
		{"the due date", h.Due}, {"the revision", h.Revision}, {"the tolerance", h.Tolerance}} {
		if err := checkText(f.what, f.text); err != nil {
			return err
		}
	}
	if h.Quantity < 0 || h.Quantity > maxQuantity {
		return fmt.Errorf("the quantity is %d; it may be up to %d", h.Quantity, maxQuantity)
	}
	for _, f := range []struct{ what, said, one, other string }{{"the side that shows", h.Shows, "label", "back"},
		{"protective film", h.Film, "on", "off"}, {"what drops out", h.Dropouts, "keep", "discard"}} {
		if f.said != "" && f.said != f.one && f.said != f.other {
			return fmt.Errorf("%s is %.20q; it may be %s or %s, or not said", f.what, f.said, f.one, f.other)
		}
	}
	return nil
}

// words of what is chosen among a few.
var sideShows = map[string]string{"label": "the side with the label", "back": "the back, without the label"}
var filmIs = map[string]string{"on": "leave it on while cutting", "off": "take it off before cutting"}
var dropouts = map[string]string{"keep": "keep them and send them along", "discard": "not needed"}

// rows are the lines of the head that are said.
func (h Head) rows() []row {
	quantity := ""
	if h.Quantity > 0 {
		quantity = strconv.Itoa(h.Quantity)
	}
	var out []row
	for _, r := range []row{{name: "Customer", value: h.Customer}, {name: "Contact", value: h.Contact},
		{name: "Quantity", value: quantity}, {name: "Due", value: h.Due}, {name: "Revision", value: h.Revision},
		{name: "Tolerance", value: h.Tolerance}, {name: "Side that shows", value: sideShows[h.Shows]},
		{name: "Protective film", value: filmIs[h.Film]}, {name: "Drop-outs", value: dropouts[h.Dropouts]}} {
		if strings.TrimSpace(r.value) != "" {
			out = append(out, r)
		}
	}
	return out
}

// agreed writes the head in two columns.
func (j *job) agreed() {
	rows := j.o.Head.rows()
	if len(rows) == 0 {
		return
	}
	wide := j.right() - margin
	column := (wide - gutter) / 2
	half := (len(rows) + 1) / 2
	j.page.Line(hair, pages.Hairs)
	j.page.Segment(margin, j.y+lead-0.6, j.right(), j.y+lead-0.6)
	j.page.Stroke()
	top := j.y - 1
	low := top
	for k, part := range [][]row{rows[:half], rows[half:]} {
		j.y = top
		for _, r := range part {
			j.row(margin+float64(k)*(column+gutter), column, r)
		}
		low = min(low, j.y)
	}
	j.y = low - 2
}

// questions are what a shop asks before it cuts, each with its answer; what is open is said to be.
func (j *job) questions() []row {
	d, o, h, m := j.l.Draft, j.o, j.o.Head, j.made
	u := o.unit()
	const open = "not said here"
	said := func(text string) string {
		if strings.TrimSpace(text) == "" {
			return open
		}
		return text
	}

	file := "checksum " + m.Checksum +
		", which stands in it and on its label; SVG, DXF and PDF of this draft hold the same"
	if len(o.Chosen) > 0 {
		file = "each file says its own checksum, and so does its label"
	}
	if o.CutFile != "" {
		file = pdf.Fit(pdf.Sans, body, 150, o.CutFile) + ", " + file
	}
	many := open
	if h.Quantity > 0 {
		many = strconv.Itoa(h.Quantity)
	}
	lines, _ := o.Cut.ShopLines() // checked before
	colours := fmt.Sprintf("%s is cut through, %s is marked, %s would be scored; lines of %s", colourWords(lines.Cut),
		colourWords(lines.Mark), colourWords(lines.Score), u.Fine(lines.Cut.Width))
	tolerance := "the file's curves lie within " + u.Fine(m.Tolerance) + " of the outlines; of the cut sheet: " +
		said(h.Tolerance)
	side := open
	if h.Shows != "" {
		side = sideShows[h.Shows] + " shows"
	}
	if o.Cut.Label.Height > 0 {
		side += "; the label reads the right way round on the side that is up in the file"
	}
	return []row{{name: "Kerf in or out?", value: m.KerfTaken}, {name: "How is it cut?", value: j.method()},
		{name: "Which file?", value: file}, {name: "How many?", value: many}, {name: "By when?", value: said(h.Due)},
		{name: "Which colour?", value: colours},
		{name: "Which stock?", value: said(d.Sheet.Stock) + ", " + u.Fine(d.Sheet.Thickness) + " thick"},
		{name: "Tolerance?", value: tolerance}, {name: "Which side?", value: side},
		{name: "Why this size?", value: j.size()}}
}

// colourWords names a line's colour, pure ones by their names, with its layer.
func colourWords(l cutplan.Line) string {
	names := map[string]string{"#ff0000": "red", "#00ff00": "green", "#0000ff": "blue", "#000000": "black",
		"#ffff00": "yellow", "#00ffff": "cyan", "#ff00ff": "magenta"}
	out := strings.TrimSpace(names[strings.ToLower(l.Colour)] + " " + l.Colour)
	return out + " (layer " + l.Name + ")"
}

// method says how the sheet is cut, with what goes with it.
func (j *job) method() string {
	out, how := "by laser", j.l.Draft.Sheet.How()
	switch how {
	case draft.Knife:
		out = "by knife; contours go on a little past where they began, and large waste is parted by lines, unless " +
			"the " +
			"cut file was asked for without"
	case draft.Waterjet:
		out = "by waterjet; tabs hold what drops out until it is broken out, unless the cut file was asked for without"
	}
	if l := j.o.Cut.LeadIn; l > 0 && how != draft.Knife {
		out += "; the cut runs in by " + j.o.unit().Fine(l) + " from inside what drops out, where there is room"
	}
	if j.o.Cut.Mirrored {
		out += "; the file is mirrored: the sheet is cut from its back, and words on it are read from there"
	}
	return out
}

// size says why the sheet and the page of the file are as large as they are.
func (j *job) size() string {
	d, u := j.l.Draft, j.o.unit()
	if len(j.o.Chosen) > 0 {
		return "what is cut is said above, and makes up a panel of " + u.Figure(d.Panel.Width) + " × " +
			u.Exact(d.Panel.Height) + "; nothing is to be scaled"
	}
	b := d.SheetBound()
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	out := "the sheet is the panel's size, " + u.Figure(w) + " × " + u.Exact(h)
	if panel := d.PanelBound(); panel != b {
		out = fmt.Sprintf("the sheet of %s × %s lies over a panel of %s × %s", u.Figure(w), u.Exact(h),
			u.Figure(d.Panel.Width), u.Exact(d.Panel.Height))
	}
	if page := j.made.Page; page[0] != w {
		out += fmt.Sprintf("; the file's page is %s × %s, half the kerf more on every side", u.Figure(page[0]),
			u.Exact(page[1]))
	}
	return out + "; nothing is to be scaled"
}

// approval writes a line to sign.
func (j *job) approval() {
	wide := j.right() - margin
	j.head(margin, wide, "Approved for cutting")
	j.y -= lead
	j.page.Line(2*hair, pages.Ink)
	x := margin
	for _, f := range []struct {
		name string
		wide float64
	}{{"Name", 0.42 * wide}, {"Signature", 0.36 * wide}, {"Date", 0.22 * wide}} {
		j.page.Segment(x, j.y, x+f.wide-4, j.y)
		j.page.Stroke()
		j.page.Ink(pages.Faint)
		j.page.Text(pdf.Sans, heading, x, j.y-heading-0.8, f.name)
		x += f.wide
	}
	j.y -= 2 * lead
}
