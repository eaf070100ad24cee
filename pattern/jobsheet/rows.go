package jobsheet

import (
	"fmt"
	"slices"
	"strings"

	"openwork/pattern/draft"
	"openwork/pattern/paper/pdf"
	"openwork/pattern/sheet"
	"openwork/pattern/study/pages"
)

// row is a figure: what it is, and its value. One that is worse than asked for stands out.
type row struct {
	name, value string
	under       bool
}

const (
	names    = 31.0 // mm for what a figure is
	maxLines = 4    // of a figure; what the person types may be long
)

// row writes a figure and goes on below it.
func (j *job) row(x, width float64, r row) {
	j.page.Ink(pages.Faint)
	j.page.Text(pdf.Sans, body, x, j.y, r.name)
	j.page.Ink(pages.Ink)
	font := pdf.Sans
	if r.under {
		j.page.Ink(pages.Red)
		font = pdf.SansBold
	}
	lines := pdf.Wrap(font, body, width-names, r.value)
	for k, line := range lines {
		if k == maxLines {
			break
		}
		if k == maxLines-1 && len(lines) > maxLines {
			line = pdf.Fit(font, body, width-names, line+" "+lines[maxLines])
		}
		j.page.Text(font, body, x+names, j.y, line)
		j.y -= lead
	}
	if len(lines) == 0 {
		j.y -= lead
	}
}

// figures writes the columns of figures, in groups.
func (j *job) figures(x, width float64) {
	d, m, u := j.l.Draft, j.made, j.o.unit()
	b := d.SheetBound()
	weighs := "stock's density not known"
	if m.Weight != nil {
		weighs = fmt.Sprintf("%s, at %s\u00a0kg/m³", u.Weight(*m.Weight), sheet.Trim(m.Density, 2))
		if j.o.Density == 0 {
			weighs += " by common practice"
		}
	}
	found := func(name string, v *float64, asked float64) row {
		if v == nil {
			return row{name: "Narrowest " + name, value: "none"}
		}
		r := row{name: "Narrowest " + name, value: j.width(*v)}
		if r.under = slices.Contains(m.Under, name); r.under {
			r.value += ", under the " + u.Fine(asked) + " asked for"
		}
		return r
	}
	groups := []group{
		{"Sheet", []row{{name: "Size", value: u.Figure(b.Max[0]-b.Min[0]) + " × " + u.Exact(b.Max[1]-b.Min[1])},
			{name: "Stock", value: d.Sheet.Stock}, {name: "Thickness", value: u.Fine(d.Sheet.Thickness)},
			{name: "Weight when cut", value: weighs}}},
		{"After cutting", []row{found("bridge", m.Bridge, d.Sheet.Bridge),
			{name: "asked for", value: u.Fine(d.Sheet.Bridge)}, found("opening", m.Opening, d.Sheet.Opening),
			{name: "asked for", value: u.Fine(d.Sheet.Opening)}}},
		{"Cutting", []row{{name: "Kerf allowed for", value: u.Fine(m.Kerf)},
			{name: "Openings", value: fmt.Sprint(m.Openings)},
			{name: "Cut length", value: u.Way(m.CutLength)}, {name: "Travel", value: u.Way(m.Travel)},
			{name: "Piercings", value: fmt.Sprint(m.Piercings)}, {name: "Order of cuts", value: m.Order}}},
		{"Time and cost", j.costs()},
	}
	if trim := m.Outline; trim != "" {
		groups[2].rows = append(groups[2].rows, row{name: "Outline", value: trim})
	}
	if r, ok := maskRow(d); ok {
		groups[2].rows = append(groups[2].rows, r)
	}
	if len(j.o.Chosen) > 0 {
		groups[2].rows = append(groups[2].rows, row{name: "These figures",
			value: "are of the whole sheet in one piece; what is cut instead is said on the next page"})
	}
	for k, g := range groups {
		if k > 0 && j.y-j.high(width, g.rows) < margin {
			j.later = append(j.later, groups[k:]...)
			return
		}
		j.group(x, width, g)
	}
}

// maskRow lists the mask of the subjects behind which the pattern runs on, if there are such.
func maskRow(d draft.Draft) (row, bool) {
	var of []string
	for _, s := range d.Subjects {
		if s.Edge == draft.Behind {
			of = append(of, s.Name)
		}
	}
	if len(of) == 0 {
		return row{}, false
	}
	return row{name: "With it a mask", value: "of " + strings.Join(of, ", ") +
		": a file of its own; same sheet, stock and marks"}, true
}

// group is a heading with figures below it.
type group struct {
	name string
	rows []row
}

func (j *job) group(x, width float64, g group) {
	j.head(x, width, g.name)
	for _, r := range g.rows {
		j.row(x, width, r)
	}
	j.y -= 1.2
}

// high returns how high a group of figures is, in mm.
func (j *job) high(width float64, rows []row) float64 {
	lines := 0
	for _, r := range rows {
		lines += max(1, min(maxLines, len(pdf.Wrap(pdf.SansBold, body, width-names, r.value))))
	}
	return heading + 2.2 + lead*float64(lines+1)
}

// width writes a width that was measured.
func (j *job) width(mm float64) string {
	if u := j.o.unit(); u.Inches {
		return u.Fine(mm)
	}
	return fmt.Sprintf("%.2f\u00a0mm", mm)
}

// costs are the figures of time and cost, with what they are made from.
func (j *job) costs() []row {
	o, m, u := j.o, j.made, j.o.unit()
	cut, from := o.speed(j.l.Draft.Sheet)
	money := func(v float64) string { return strings.TrimSpace(fmt.Sprintf("%.2f %s", v, o.Currency)) }
	out := []row{{name: "Machine time", value: duration(m.Seconds)},
		{name: "cutting at", value: u.Speed(cut) + ", " + from},
		{name: "between cuts", value: u.Speed(o.TravelSpeed) + ", " + sheet.Trim(o.Pierce, 2) + "\u00a0s a piercing"},
		{name: "speeding up by", value: u.Speed(o.Acceleration) + "², corners within " + u.Fine(o.Cornering)},
		{name: "Setting up", value: duration(60 * o.Setup)}}
	if m.Cost == nil {
		return append(out, row{name: "Cost", value: "the shop's rate is not known"})
	}

	out = append(out, row{name: "Rate", value: money(o.Rate) + " an hour"})
	if o.Price > 0 {
		out = append(out, row{name: "Stock", value: money(o.Price)})
	}
	if o.Minimum > 0 {
		out = append(out, row{name: "Minimum charge", value: money(o.Minimum)})
	}
	return append(out, row{name: "Cost", value: money(*m.Cost)})
}
