package stepping

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/paper/pdf"
	"openwork/pattern/study/pages"
)

// Measures of the map's page in mm: how high its drawings may be, and their marks.
const (
	mapShare         = 0.42 // of the page between its edges
	sheetShare       = 0.22 // the same, of the drawing of the sheet
	minMark, maxMark = 2.2, 6.0
	markName         = 2.6 // letters of the holes
	markArm          = 0.9 // of the crosses that marks are drawn as
)

// Map writes the numbered map of the places as a PDF: the panel with each place at the middle of where the sheet lies,
// the first place's sheet, the passes, what is masked, and how the sheet is laid. The size is A4, A3, Letter or
// Tabloid.
func (s *Stepping) Map(w io.Writer, size string) error {
	c, err := pages.NewColumn(s.l.Draft.Title, "Map of a stepping sheet", "Map of the stepping sheet", size,
		s.o.Lettering)
	if err != nil {
		return err
	}
	m := mapSheet{c, s}
	m.write()
	return m.Write(w)
}

// mapSheet is the map in the making.
type mapSheet struct {
	*pages.Column
	s *Stepping
}

func (m *mapSheet) write() {
	m.Begin()
	m.Y--
	high := (m.Paper.Height - 2*pages.Edge) * mapShare
	m.draw(orb.Bound{Min: orb.Point{pages.Edge, m.Y - high}, Max: orb.Point{m.Right(), m.Y}})
	m.Y -= high + pages.Lead
	s := m.s
	low := (m.Paper.Height - 2*pages.Edge) * sheetShare
	m.sheet(orb.Bound{Min: orb.Point{pages.Edge, m.Y - low}, Max: orb.Point{m.Right(), m.Y}})
	m.Y -= low + pages.Lead + 1
	m.Text(fmt.Sprintf("The sheet is %s and is laid %s. Places are numbered as they follow each other over the panel.",
		s.unit().Size(s.Width, s.Height), times(len(s.Places))))
	if s.Trade != "" {
		m.Text(s.Trade)
	}
	for _, line := range s.beginning() {
		m.Text(line)
	}
	for i, pass := range s.Passes {
		m.Text(fmt.Sprintf("Pass %d, %s: %s.", i+1, signs[i%len(signs)].name, runs(pass)))
	}
	for _, line := range s.masks() {
		m.Text(line)
	}
	if words := s.keyWords(); len(words) > 0 {
		m.Text(s.keyHead())
		for _, line := range words {
			m.Text(line)
		}
	}
	m.Notes(s.Notes)
	m.table()
}

// draw draws the panel and the places into a box.
func (m *mapSheet) draw(box orb.Bound) {
	s := m.s
	panel := s.l.Draft.PanelBound()
	seen := panel.Pad(s.Surround)
	middles := make([]orb.Point, len(s.Places))
	for i, p := range s.Places {
		middles[i] = s.carry(p, orb.Point{s.Width / 2, s.Height / 2})
		seen = seen.Extend(middles[i])
	}
	var first []orb.Point
	for _, c := range [][2]float64{{0, 0}, {s.Width, 0}, {s.Width, s.Height}, {0, s.Height}} {
		q := s.carry(s.Places[0], c)
		first, seen = append(first, q), seen.Extend(q)
	}
	if s.Surround > 0 {
		box.Min[1] += pages.Lead // its dimension stands there
	}
	k := math.Min((box.Max[0]-box.Min[0])/(seen.Max[0]-seen.Min[0]), (box.Max[1]-box.Min[1])/(seen.Max[1]-seen.Min[1]))
	to := geometry.Map{A: k, D: k, X: box.Center()[0] - k*seen.Center()[0], Y: box.Center()[1] - k*seen.Center()[1]}
	c := &m.Page.Content
	m.surround(to)
	c.Line(0.3, pages.Ink)
	c.Outline(geometry.Transform(geometry.RectOutline(panel), to))
	c.Stroke()
	c.Line(0.25, pages.Green)
	c.Dash(2, 1.5)
	for i, q := range append(first, first[0]) {
		if q = to.Apply(q); i == 0 {
			c.MoveTo(q[0], q[1])
		} else {
			c.LineTo(q[0], q[1])
		}
	}
	c.Stroke()
	c.Dash()
	near := math.Inf(1)
	for i, p := range middles {
		for _, q := range middles[:i] {
			near = math.Min(near, math.Hypot(p[0]-q[0], p[1]-q[1]))
		}
	}
	r := math.Max(minMark, math.Min(maxMark, 0.42*k*near))
	m.marks(to, to.Apply(middles[0]), r)
	m.width(to)
	for i, p := range s.Places {
		q := to.Apply(middles[i])
		c.Line(0.25, pages.Green)
		signs[(p.Pass-1)%len(signs)].draw(c, q[0], q[1], r)
		c.Stroke()
		c.Ink(pages.Ink)
		number, size := strconv.Itoa(p.Number), 0.85*r
		c.Text(pdf.Title, size, q[0]-pdf.TextWidth(pdf.Title, size, number)/2, q[1]-0.33*size, number)
	}
}

// sheet draws the stepping sheet itself into a box, its openings with the numbers by which they are masked.
func (m *mapSheet) sheet(box orb.Bound) {
	s := m.s
	k := math.Min((box.Max[0]-box.Min[0])/s.Width, (box.Max[1]-box.Min[1])/s.Height)
	to := geometry.Map{A: k, D: k, X: box.Center()[0] - k*s.Width/2, Y: box.Center()[1] - k*s.Height/2}
	sheet := s.Sheet()
	c := &m.Page.Content
	c.Line(0.25, pages.Green)
	c.Outline(geometry.Transform(sheet.Outline, to))
	c.Stroke()
	c.Line(0.15, pages.Faint)
	for _, o := range sheet.Openings {
		c.Outline(geometry.Transform(o.Shape.Outline(), to.After(geometry.Translate(o.Shift[0], o.Shift[1]))))
	}
	c.Stroke()
	for _, h := range sheet.Holes {
		q := to.Apply(h)
		c.Circle(q[0], q[1], math.Max(0.5, k*s.Diameter/2))
	}
	c.Stroke()
	c.Ink(pages.Ink)
	size := math.Max(1.8, math.Min(pages.BodySize, 0.3*k*math.Sqrt(s.Width*s.Height/float64(len(s.Openings)))))
	for _, o := range s.Openings {
		q, number := to.Apply(o.At), strconv.Itoa(o.Number)
		c.Text(pdf.SansBold, size, q[0]-pdf.TextWidth(pdf.SansBold, size, number)/2, q[1]-0.35*size, number)
	}
	for i, h := range s.points() {
		q, wide := to.Apply(h), pdf.TextWidth(pdf.SansBold, markName, markLetter(i))
		c.Ink(pages.White)
		c.Rect(orb.Bound{Min: orb.Point{q[0] + 0.8, q[1] + 0.6},
			Max: orb.Point{q[0] + 1.2 + wide, q[1] + 1 + 0.75*markName}})
		c.Fill()
		c.Ink(pages.Green)
		c.Text(pdf.SansBold, markName, q[0]+1, q[1]+0.8, markLetter(i))
	}
}

// carry returns where a point of the sheet comes to lie on the panel when it is laid at a place.
func (s *Stepping) carry(p Place, q orb.Point) orb.Point {
	v := geometry.TurnDegrees(s.Turn).Apply(q)
	return orb.Point{p.At[0] + v[0], p.At[1] + v[1]}
}

// masks says which openings are masked where, places alike together.
func (s *Stepping) masks() []string {
	var order []string
	at := map[string][]int{}
	for _, p := range s.Places {
		if len(p.Mask) == 0 {
			continue
		}
		what := "opening " + runs(p.Mask)
		if len(p.Mask) > 1 {
			what = "openings " + runs(p.Mask)
		}
		if at[what] == nil {
			order = append(order, what)
		}
		at[what] = append(at[what], p.Number)
	}
	var out []string
	for _, what := range order {
		places := "place"
		if len(at[what]) > 1 {
			places = "places"
		}
		out = append(out, fmt.Sprintf("At %s %s mask %s.", places, runs(at[what]), what))
	}
	return out
}

// runs names numbers, what follows each other by its ends: 1–4, 7, 9.
func runs(numbers []int) string {
	var parts []string
	for i := 0; i < len(numbers); {
		j := i
		for j+1 < len(numbers) && numbers[j+1] == numbers[j]+1 {
			j++
		}
		switch {
		case j == i:
			parts = append(parts, strconv.Itoa(numbers[i]))
		case j == i+1:
			parts = append(parts, strconv.Itoa(numbers[i]), strconv.Itoa(numbers[j]))
		default:
			parts = append(parts, fmt.Sprintf("%d–%d", numbers[i], numbers[j]))
		}
		i = j + 1
	}
	return strings.Join(parts, ", ")
}
