package joined

import (
	"fmt"
	"strconv"
	"strings"

	"openwork/pattern/paper/pdf"
	"openwork/pattern/study/pages"
)

// meeting says which letters a part carries, side by side.
func (j *Joined) meeting(part int) string {
	var out []string
	for _, side := range []string{"left", "right", "below", "above"} {
		var on []string
		for _, l := range j.Letters {
			if l.side(part) == side {
				on = append(on, l.Letter)
			}
		}
		if len(on) > 0 {
			out = append(out, side+"\u00a0"+strings.Join(on, ",\u00a0"))
		}
	}
	return strings.Join(out, "; ")
}

// table lists the parts.
func (m *mapSheet) table() {
	j, u := m.j, m.j.unit()
	columns := []float64{pages.Edge, pages.Edge + 12, pages.Edge + 46, pages.Edge + 64, pages.Edge + 64 +
		0.4*(m.Right()-pages.Edge-64)}
	wide := func(i int) float64 {
		if i+1 < len(columns) {
			return columns[i+1] - columns[i] - 2
		}
		return m.Right() - columns[i]
	}
	heads := func() {
		m.Y -= 2
		m.Page.Ink(pages.Faint)
		for i, h := range []string{"part", "size, " + u.Sign(), "openings", "meets", "holes, " + u.Sign()} {
			m.Page.Text(pdf.Sans, rowText, columns[i], m.Y, h)
		}
		m.Y -= 1.4
		m.Page.Line(hair, pages.Hairs)
		m.Page.Segment(pages.Edge, m.Y, m.Right(), m.Y)
		m.Page.Stroke()
		m.Y -= rowLead - 0.8
	}

	if m.Y < pages.Edge+5*rowLead {
		m.Begin()
	}
	heads()
	for _, p := range j.Parts {
		var holes []string
		for _, h := range p.Holes {
			holes = append(holes, "("+u.Length(h[0])+",\u00a0"+u.Length(h[1])+")")
		}
		cells := []string{strconv.Itoa(p.Number), u.Length(p.Width) + " × " + u.Length(p.Height),
			strconv.Itoa(p.Openings), j.meeting(p.Number), strings.Join(holes, " ")}
		if p.Tab {
			cells[1] += ", tab"
		}
		var lines [][]string
		rows := 1
		for i, text := range cells {
			lines = append(lines, pdf.Wrap(pdf.Sans, rowText, wide(i), text))
			rows = max(rows, len(lines[i]))
		}
		if m.Y-float64(rows-1)*rowLead < pages.Edge {
			m.Begin()
			heads()
		}
		for i, column := range lines {
			font := pdf.Sans
			if i == 0 {
				font = pdf.SansBold
			}
			m.Page.Ink(pages.Ink)
			for k, line := range column {
				m.Page.Text(font, rowText, columns[i], m.Y-float64(k)*rowLead, line)
			}
		}
		m.Y -= float64(rows)*rowLead + 0.6
	}
}

// counted is a number with its noun.
func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}
