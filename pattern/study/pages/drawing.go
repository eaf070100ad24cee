package pages

import (
	"image/color"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/appearance"
	"openwork/pattern/draft"
	"openwork/pattern/paper/pdf"
)

// The colours of printed pages: paper, ink, one green, one red for what is wrong.
var (
	White = pdf.RGB{R: 255, G: 255, B: 255}
	Ink   = pdf.RGB{R: 0x22, G: 0x24, B: 0x22}
	Faint = pdf.RGB{R: 0x6e, G: 0x70, B: 0x6a}
	Green = pdf.RGB{R: 0x1f, G: 0x4d, B: 0x3f}
	Red   = pdf.RGB{R: 0x9c, G: 0x3a, B: 0x2b}
	Tone  = pdf.RGB{R: 0xd6, G: 0xe0, B: 0xd9}
	Hairs = pdf.RGB{R: 0xc4, G: 0xc6, B: 0xc0}
)

// Drawing is a layout's pattern in a PDF: each motif's outline is kept once, and placed for every copy.
type Drawing struct {
	l      *pattern.Layout
	style  Style
	line   float64
	kept   map[look]kept
	copies []pattern.Copy
	boxes  []orb.Bound
	ties   []orb.Polygon
}

// look is a motif in the number of a colour, −1 for none.
type look struct{ motif, colour int }

// kept is a motif's outline in its true size, moved so that its middle, in the silhouette's frame, is at (0, 0): whole
// steps of a file are then as fine on the panel, however the motif is scaled.
type kept struct {
	form   pdf.Form
	middle orb.Point
	scale  float64
}

// under returns the map of a copy for what is kept.
func (k kept) under(m geometry.Map) geometry.Map {
	p := m.Apply(k.middle)
	return geometry.Map{A: m.A / k.scale, B: m.B / k.scale, C: m.C / k.scale, D: m.D / k.scale, X: p[0], Y: p[1]}
}

// NewDrawing keeps the outlines of a layout in a PDF, with lines as wide as asked for in panel mm. It fails as
// Layout.Copies does.
func NewDrawing(doc *pdf.Doc, l *pattern.Layout, style Style, line float64) (*Drawing, error) {
	w := &Drawing{l: l, style: style, line: line, kept: map[look]kept{}}
	palette := appearance.PaletteOf(l.Draft, appearance.Plain)
	var err error
	if w.copies, err = l.Copies(); err != nil {
		return nil, err
	}
	if w.ties, err = l.TiesIn(l.Draft.PanelBound().Union(l.Draft.SheetBound())); err != nil {
		return nil, err
	}
	for _, c := range w.copies {
		w.boxes = append(w.boxes, c.Bound().Pad(line))
	}

	for _, each := range w.copies {
		which := w.lookOf(each)
		if _, ok := w.kept[which]; ok {
			continue
		}
		o := l.Orbits[each.Motif]
		k := kept{middle: o.Shape.Bound().Center(), scale: math.Sqrt(math.Abs(o.Place.Det()))}
		outline := geometry.Transform(o.Shape.Outline(),
			geometry.Scale(k.scale).After(geometry.Translate(-k.middle[0], -k.middle[1])))
		k.form = doc.Form(outline.Bound().Pad(line), func(c *pdf.Content) {
			w.pen(c, palette, which.colour)
			c.Outline(outline)
			w.paint(c)
		})
		w.kept[which] = k
	}
	return w, nil
}

// lookOf returns how a copy is kept: outlines alone have no colour.
func (w *Drawing) lookOf(c pattern.Copy) look {
	if w.style == Outlines {
		return look{c.Motif, -1}
	}
	return look{c.Motif, c.Colour}
}

// pen sets colours and line. Openings are in their swatch, in the light style a quarter of it; without colours in the
// pages' own green.
func (w *Drawing) pen(c *pdf.Content, palette appearance.Palette, colour int) {
	c.Line(w.line, Ink)
	switch {
	case colour >= 0:
		s := palette.Of(colour, color.RGBA{})
		if w.style == Light {
			s.R, s.G, s.B = paler(s.R), paler(s.G), paler(s.B)
		}
		c.Ink(pdf.RGB{R: s.R, G: s.G, B: s.B})
	case w.style == Light:
		c.Ink(Tone)
	case w.style == Full:
		c.Ink(Green)
	}
}

// paler returns a channel with three parts of white to one of itself.
func paler(v uint8) uint8 { return uint8((3*255 + int(v)) / 4) }

func (w *Drawing) paint(c *pdf.Content) {
	switch w.style {
	case Light:
		c.FillStroke()
	case Full:
		c.Fill()
	default:
		c.Stroke()
	}
}

// Draw draws what of the pattern meets a window, in panel mm, and returns how many copies that are. With the edge rule
// crop the field's edge cuts them.
func (w *Drawing) Draw(c *pdf.Content, window orb.Bound) int {
	n := 0
	c.Save()
	if w.l.Draft.Field.Edge == draft.Crop {
		c.Rect(w.l.Draft.FieldBound())
		c.Clip()
	}
	for i, each := range w.copies {
		if window.Intersects(w.boxes[i]) {
			k := w.kept[w.lookOf(each)]
			c.Place(k.form, k.under(each.Map))
			n++
		}
	}

	// A tie is sheet: it covers what lies under it, and shows its two sides.
	for _, t := range w.ties {
		if !window.Intersects(t.Bound()) {
			continue
		}
		c.Ink(White)
		c.Outline(orb.MultiPolygon{t})
		c.Fill()
		if w.style == Full {
			continue
		}
		c.Line(w.line, Ink)
		for _, side := range longSides(t[0]) {
			c.Segment(side[0][0], side[0][1], side[1][0], side[1][1])
		}
		c.Stroke()
	}

	for _, r := range w.l.Rooms { // openings end at its line
		if window.Intersects(r.Bound) {
			c.Ink(White)
			c.Outline(r.Shape.Outline())
			c.Fill()
		}
	}
	c.Restore()
	w.subjects(c, window)
	return n
}

// subjects draws the outlines of the subjects that meet a window, and with dashes the lines of their rooms.
func (w *Drawing) subjects(c *pdf.Content, window orb.Bound) {
	for _, s := range w.l.Draft.Subjects {
		room, err := w.l.RoomOf(s)
		if err != nil || !window.Intersects(room.Bound().Pad(2*w.line)) {
			continue
		}
		if s.Room > 0 {
			c.Save()
			c.Line(w.line, Faint)
			c.Dash(8*w.line, 6*w.line)
			c.Outline(room.Outline())
			c.Stroke()
			c.Restore()
		}
		c.Line(2*w.line, Ink)
		c.Outline(s.Placed())
		c.Stroke()
	}
}

// longSides returns the sides along a tie: Tie.Rect goes round it beginning with one of them.
func longSides(r orb.Ring) [][2]orb.Point {
	return [][2]orb.Point{{r[0], r[1]}, {r[2], r[3]}}
}

// Cells draws the repeat's cells where they meet a window, as lines along both sides, in panel mm; no more than
// pattern.MaxCopies of them.
func (w *Drawing) Cells(c *pdf.Content, window orb.Bound) {
	toPanel := w.l.Draft.FieldMap()
	inField := boundUnder(window, toPanel.Rigid())
	cell := orb.Bound{}
	for _, p := range []orb.Point{w.l.A, w.l.B, {w.l.A[0] + w.l.B[0], w.l.A[1] + w.l.B[1]}} {
		cell = cell.Extend(p)
	}
	// Side by side, so that dashes begin at the corners of cells and not where a page does.
	sides := 0
	w.l.Cells(inField, cell, func(m, n int) bool {
		at := toPanel.Apply(w.l.Lattice(m, n))
		for _, v := range []orb.Point{toPanel.Vector(w.l.A), toPanel.Vector(w.l.B)} {
			c.Segment(at[0], at[1], at[0]+v[0], at[1]+v[1])
			sides++
		}
		return sides < pattern.MaxCopies
	})
	if sides > 0 {
		c.Stroke()
	}
}

// boundUnder returns the box of a rectangle's image.
func boundUnder(r orb.Bound, m geometry.Map) orb.Bound {
	p := m.Apply(r.Min)
	out := orb.Bound{Min: p, Max: p}
	for _, q := range []orb.Point{{r.Max[0], r.Min[1]}, r.Max, {r.Min[0], r.Max[1]}} {
		out = out.Extend(m.Apply(q))
	}
	return out
}
