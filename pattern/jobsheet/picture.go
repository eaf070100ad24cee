package jobsheet

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/paper/pdf"
	"openwork/pattern/study/pages"
)

// picture draws the sheet into a box with its size and its registration, and returns how far down that reaches.
func (j *job) picture(box orb.Bound) (bottom float64, err error) {
	draw, err := pages.NewDrawing(j.doc, j.l, pages.Full, hair)
	if err != nil {
		return 0, err
	}
	c := &j.page.Content
	b := j.l.Draft.SheetBound()
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	f := math.Min((box.Max[0]-box.Min[0])/w, (box.Max[1]-box.Min[1])/h)
	at := orb.Point{box.Min[0] + (box.Max[0]-box.Min[0]-f*w)/2, box.Max[1] - f*h}
	m := geometry.Translate(at[0], at[1]).After(geometry.Scale(f)).After(geometry.Translate(-b.Min[0], -b.Min[1]))
	c.Save()
	c.Map(m)
	c.Save()
	c.Rect(b)
	c.Clip()
	draw.Draw(c, b)
	c.Restore()
	if panel := j.l.Draft.PanelBound(); panel != b {
		c.Line(hair/f, pages.Faint)
		c.Dash(2/f, 1/f)
		c.Rect(panel)
		c.Stroke()
		c.Dash()
	}
	c.Line(2*hair/f, pages.Ink)
	c.Rect(b)
	c.Stroke()
	c.Restore()
	for _, p := range j.made.Holes {
		q := m.Apply(p)
		c.Line(hair, pages.Ink)
		c.Circle(q[0], q[1], 1)
		c.Stroke()
		c.Segment(q[0]-1.5, q[1], q[0]+1.5, q[1])
		c.Segment(q[0], q[1]-1.5, q[0], q[1]+1.5)
		c.Stroke()
	}

	// Dimension lines below and to the left.
	dimension := func(m geometry.Map, long float64, text string) {
		c.Save()
		c.Map(m)
		c.Line(hair, pages.Faint)
		c.Segment(0, 0, long, 0)
		c.Segment(0, -1, 0, 1)
		c.Segment(long, -1, long, 1)
		c.Stroke()
		wide := pdf.TextWidth(pdf.Sans, heading, text)
		c.Ink(pages.White)
		c.Rect(orb.Bound{Min: orb.Point{(long-wide)/2 - 1, -1.2}, Max: orb.Point{(long+wide)/2 + 1, 1.2}})
		c.Fill()
		c.Ink(pages.Ink)
		c.Text(pdf.Sans, heading, (long-wide)/2, -0.95, text)
		c.Restore()
	}

	dimension(geometry.Translate(at[0], at[1]-4), f*w, j.o.unit().Exact(w))
	dimension(geometry.Translate(at[0]-4, at[1]).After(geometry.TurnDegrees(90)), f*h, j.o.unit().Exact(h))
	return at[1] - 6, nil
}
