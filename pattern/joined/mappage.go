package joined

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/paper/pdf"
	"openwork/pattern/study/pages"
)

// Measures of the assembly map in mm: the drawing's share of the page, the table's letters and lines, line widths.
const (
	mapShare         = 0.58
	rowText, rowLead = 2.9, 4.2
	hair, seam       = 0.12, 0.5
	minName, maxName = 3.0, 9.0 // letters of parts
)

// Map writes the assembly map as a PDF: the sheet with its parts, how they lie, the letters at which they meet, and
// what each part is. The size is A4, A3, Letter or Tabloid.
func (j *Joined) Map(w io.Writer, size string) error {
	c, err := pages.NewColumn(j.l.Draft.Title, "Assembly map of joined sheets", "Assembly map of the joined sheets",
		size,
		j.o.Lettering)
	if err != nil {
		return err
	}
	m := mapSheet{Column: c, j: j}
	if m.draw, err = pages.NewDrawing(m.Doc, j.l, pages.Light, hair); err != nil {
		return err
	}
	m.write()
	return m.Write(w)
}

// mapSheet is the map in the making.
type mapSheet struct {
	*pages.Column
	j     *Joined
	draw  *pages.Drawing
	taken []orb.Bound // by numbers and letters of the drawing
}

func (m *mapSheet) write() {
	m.Begin()
	high := (m.Paper.Height - 2*pages.Edge) * mapShare
	m.Y = m.sheet(orb.Bound{Min: orb.Point{pages.Edge, m.Y - high}, Max: orb.Point{m.Right(), m.Y}}) - pages.Lead - 1
	for _, line := range m.j.assembly() {
		m.Text(line)
	}
	m.Notes(m.j.Notes)
	m.table()
}

// assembly says how the parts go together.
func (j *Joined) assembly() []string {
	b := j.sheet
	out := []string{fmt.Sprintf("%s of %s, seen from the side that is up, this page's upper edge up.",
		counted(len(j.Parts), "part makes a sheet", "parts make a sheet"),
		j.unit().Size(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]))}
	if len(j.Letters) > 0 {
		out = append(out, "Every part carries its number, an arrow to its upper edge, and a letter at each side that "+
			"meets another part: sides with the same letter meet, and the letters read the right way round on both. "+
			"Lay "+
			"the parts so that the notches on both sides of a joint close to small squares, and tape the joints from "+
			"above, beside the openings.")
	}
	if len(j.Plates) > 0 {
		out = append(out, fmt.Sprintf("There are %d sets of these parts, one for each plate, with the same joints "+
			"and holes.", len(j.Plates)))
		for _, p := range j.Plates {
			out = append(out, fmt.Sprintf("Plate %d: %s.", p.Number, p.title()))
		}
	}
	return append(out, "Holes are measured from the panel's lower left corner, to the right and upward; prick them "+
		"through, and a part that was lifted goes back on the same points.")
}

// sheet draws the parts into a box, and returns how far down they reach.
func (m *mapSheet) sheet(box orb.Bound) (bottom float64) {
	j, c := m.j, &m.Page.Content
	seen := j.sheet.Union(j.l.Draft.PanelBound())
	for _, p := range j.Parts {
		seen = seen.Union(p.cut.Bound())
	}
	w, h := seen.Max[0]-seen.Min[0], seen.Max[1]-seen.Min[1]
	k := math.Min((box.Max[0]-box.Min[0])/w, (box.Max[1]-box.Min[1])/h)
	to := geometry.Map{A: k, D: k, X: box.Center()[0] - k*seen.Center()[0], Y: box.Max[1] - k*seen.Max[1]}
	c.Save()
	c.Map(to)
	c.Save()
	c.Rect(j.sheet)
	c.Clip()
	m.draw.Draw(c, j.sheet)
	c.Restore()
	c.Line(hair/k, pages.Faint)
	c.Dash(2/k, 1/k)
	c.Rect(j.l.Draft.PanelBound())
	c.Stroke()
	c.Dash()
	c.Line(hair/k, pages.Ink)
	for _, p := range j.Parts {
		for _, q := range p.Holes {
			c.Circle(q[0], q[1], math.Max(j.o.Cut.Holes.Diameter/2, 0.7/k))
		}
		if p.Tab {
			c.Outline(p.cut)
		}
	}
	c.Stroke()
	c.Line(seam/k, pages.Green)
	c.Rect(j.sheet)
	for _, t := range j.Joints {
		for i, p := range t.Line {
			if i == 0 {
				c.MoveTo(p[0], p[1])
			} else {
				c.LineTo(p[0], p[1])
			}
		}
	}
	c.Stroke()
	c.Restore()

	for _, p := range j.Parts {
		b := p.outline.Bound()
		side := math.Min(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])
		m.name(to.Apply(geometry.InnerPoint(p.outline[0])), strconv.Itoa(p.Number),
			math.Max(minName, math.Min(maxName, 0.2*k*side)))
	}
	m.letters(to, k)
	return box.Max[1] - k*h
}

// name writes a part's number with an arrow to its upper edge, on paper's white.
func (m *mapSheet) name(at orb.Point, number string, size float64) {
	c := &m.Page.Content
	wide := pdf.TextWidth(pdf.Title, size, number)
	all := wide + 0.7*size
	left := at[0] - all/2
	r := orb.Bound{Min: orb.Point{left - 0.15*size, at[1] - 0.5*size},
		Max: orb.Point{left + all + 0.15*size, at[1] + 0.5*size}}
	m.taken = append(m.taken, r)
	c.Ink(pages.White)
	c.Rect(r)
	c.Fill()
	c.Ink(pages.Green)
	c.Text(pdf.Title, size, left, at[1]-0.33*size, number)
	x, low, high, head := left+wide+0.45*size, at[1]-0.36*size, at[1]+0.36*size, 0.17*size
	c.Line(0.06*size, pages.Green)
	c.Segment(x, low, x, high)
	c.MoveTo(x-head, high-1.3*head)
	c.LineTo(x, high)
	c.LineTo(x+head, high-1.3*head)
	c.Stroke()
}

// letters writes the joints' letters on both sides of them, by their middles or where there is more room.
func (m *mapSheet) letters(to geometry.Map, k float64) {
	c := &m.Page.Content
	shortest := math.Inf(1)
	for _, l := range m.j.Letters {
		shortest = math.Min(shortest, k*l.line.length())
	}
	size := math.Max(1.9, math.Min(3.2, 0.3*shortest))
	for _, l := range m.j.Letters {
		wide := pdf.TextWidth(pdf.SansBold, size, l.Letter)
		half := orb.Point{wide/2 + 0.25, 0.42 * size}
		across := orb.Point{0.5*wide + 0.8, 0}
		if l.Level {
			across = orb.Point{0, 0.4*size + 0.8}
		}
		both := func(along float64) [2]orb.Bound {
			at := to.Apply(l.line.at(along * l.line.length()))
			box := func(p orb.Point) orb.Bound {
				return orb.Bound{Min: geometry.Sub(p, half),
					Max: geometry.Add(p, half)}
			}
			return [2]orb.Bound{box(geometry.Sub(at, across)), box(geometry.Add(at, across))}
		}
		boxes := both(0.5)
		for _, along := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
			if try := both(along); !m.meets(try[0]) && !m.meets(try[1]) {
				boxes = try
				break
			}
		}
		for _, r := range boxes {
			m.taken = append(m.taken, r)
			c.Ink(pages.White)
			c.Rect(r)
			c.Fill()
			c.Ink(pages.Red)
			c.Text(pdf.SansBold, size, r.Center()[0]-wide/2, r.Center()[1]-0.36*size, l.Letter)
		}
	}
}

// meets reports whether a box meets a number or a letter of the drawing.
func (m *mapSheet) meets(r orb.Bound) bool {
	return slices.ContainsFunc(m.taken, func(t orb.Bound) bool { return t.Intersects(r) })
}
