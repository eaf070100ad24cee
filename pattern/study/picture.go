// Package study draws what is looked at rather than cut: the panel as it will be painted, and small pictures of the
// pattern in each of the seventeen groups. Full-scale pages belong here too.
package study

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/fogleman/gg"
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/appearance"
	"openwork/pattern/draft"
	"openwork/pattern/progress"
)

// MaxWidth is the widest picture, in px.
const MaxWidth = 8000

// The colours of a picture: bare ground, and paste.
var (
	groundColour = color.RGBA{0xd9, 0xcf, 0xbb, 0xff}
	pasteColour  = color.RGBA{0x2b, 0x5a, 0x5c, 0xff}
	// of what stands in front of the pattern, as long as it is not painted
	subjectColour = appearance.Parse(appearance.SubjectColour)

	white      = color.RGBA{0xff, 0xff, 0xff, 0xff}
	edgeColour = color.RGBA{0x3a, 0x35, 0x2b, 0xff} // of lines that say where the sheet ends
)

// Options of a picture of the panel. Colours are written #rrggbb; empty ones are the usual. Where the draft names a
// ground, or colours, these are drawn whatever the options say.
type Options struct {
	Width int    `json:"width"` // px, from 16 to MaxWidth; 0: 1,200
	Base  string `json:"base"`  // the bare panel
	Paint string `json:"paint"` // the paste
	Flat  bool   `json:"flat"`  // in plain colours; otherwise the paste stands out, lit from the upper left
	Bar   bool   `json:"bar"`   // a scale bar in the lower right corner
	Units string `json:"units"` // of the bar: in for inches, mm ("" too)
	View  string `json:"view"`  // how colours are looked at: a appearance.View
	Edge  bool   `json:"edge"`  // the sheet's edge is drawn, where it lies on the panel, and the field's with dashes

	Progress progress.Func `json:"-"` // is told how far the work has come
}

// What a picture is made with when nothing is said, and lines in it.
const (
	usualWidth = 1200
	edgeShare  = 1. / 700 // of the picture's width: how wide the line of an edge is drawn
)

// Picture writes the panel as it will look, as a PNG, with the subjects in front in one dark colour; its height
// follows the panel, and it says how large a pixel is. Ties stay bare.
func Picture(l *pattern.Layout, o Options, w io.Writer) error {
	d := l.Draft
	if o.Width == 0 {
		o.Width = usualWidth
	}
	if o.Width < 16 || o.Width > MaxWidth {
		return fmt.Errorf("a picture is from 16 to %d px wide, not %d", MaxWidth, o.Width)
	}
	height := int(math.Round(float64(o.Width) * d.Panel.Height / d.Panel.Width))
	if height < 1 || height > 2*MaxWidth {
		return fmt.Errorf("the picture would be %d px high, and the limit is %d; make it narrower", height, 2*MaxWidth)
	}
	base, err := colourOr(o.Base, groundColour, "the panel")
	if err != nil {
		return err
	}
	paint, err := colourOr(o.Paint, pasteColour, "the paste")
	if err != nil {
		return err
	}
	view := appearance.View(o.View)
	if err := view.Check(); err != nil {
		return err
	}
	palette := appearance.PaletteOf(d, view)
	if base, paint = view.Of(base), view.Of(paint); palette.HasGround {
		base = palette.Ground
	}
	copies, err := l.Copies()
	if err != nil {
		return err
	}
	c := gg.NewContext(o.Width, height)
	c.SetColor(base)
	c.Clear()
	scale := float64(o.Width) / d.Panel.Width
	toPX := geometry.Map{A: scale, D: -scale, Y: d.Panel.Height * scale}
	rectangle := func(r orb.Bound) {
		c.DrawRectangle(r.Min[0]*scale, (d.Panel.Height-r.Max[1])*scale, (r.Max[0]-r.Min[0])*scale,
			(r.Max[1]-r.Min[1])*scale)
	}
	if d.Field.Edge == draft.Crop {
		rectangle(d.FieldBound())
		c.Clip()
	}
	ties, err := l.TiesIn(d.PanelBound())
	if err != nil {
		return err
	}
	c.SetFillRuleEvenOdd()
	lay := func(report progress.Func, base color.RGBA, colourOf func(number int) color.RGBA) {
		for i, each := range copies {
			report.Of(i, len(copies))
			c.SetColor(colourOf(each.Colour))
			trace(c, l.Orbits[each.Motif].Shape, toPX.After(each.Map))
			c.Fill()
		}
		c.SetColor(base)
		for _, rect := range ties {
			traceOutline(c, orb.MultiPolygon{rect}, toPX)
			c.Fill()
		}
		for _, r := range l.Rooms { // openings end at its line
			trace(c, r.Shape, toPX)
			c.Fill()
		}
	}
	img := c.Image().(*image.RGBA)
	report := o.Progress.Within(0, paintedShare)
	var cover []uint8
	if len(palette.Colours) > 0 && !o.Flat { // where paste stands is seen in two colours
		lay(report.Within(0, 0.5), color.RGBA{A: 0xff}, func(int) color.RGBA { return white })
		cover = coverOf(img, color.RGBA{A: 0xff}, white)
		report = report.Within(0.5, 1)
		c.ResetClip()
		c.SetColor(base)
		c.Clear()
		if d.Field.Edge == draft.Crop {
			rectangle(d.FieldBound())
			c.Clip()
		}
	}
	lay(report, base, func(number int) color.RGBA { return palette.Of(number, paint) })
	c.ResetClip()
	if !o.Flat {
		if cover == nil {
			cover = coverOf(img, base, paint)
		}
		relief(img, cover, scale*d.Sheet.Thickness)
	}
	c.SetColor(view.Of(subjectColour))
	for _, s := range d.Subjects {
		traceOutline(c, s.Placed(), toPX)
		c.Fill()
	}
	if o.Edge {
		c.SetColor(edgeColour)
		line := math.Max(1, edgeShare*float64(o.Width))
		c.SetLineWidth(line)
		rectangle(d.SheetBound())
		c.Stroke()
		c.SetDash(4*line, 4*line)
		rectangle(d.FieldBound())
		c.Stroke()
	}

	if o.Bar {
		if err := scaleBar(c, d.Panel, scale, o.Units == "in"); err != nil {
			return err
		}
	}

	o.Progress.At(paintedShare)
	var file bytes.Buffer
	if err := png.Encode(&file, c.Image()); err != nil {
		return err
	}
	if _, err := w.Write(withResolution(file.Bytes(), 1000*scale)); err != nil {
		return err
	}
	o.Progress.At(1)
	return nil
}

// paintedShare is about the part of the work that is done once the copies are painted; the rest is writing the file.
const paintedShare = 0.5

// colourOr reads a colour, or takes the usual one where none is given.
func colourOr(text string, usual color.RGBA, what string) (color.RGBA, error) {
	if text == "" {
		return usual, nil
	}
	v, err := strconv.ParseUint(strings.TrimPrefix(text, "#"), 16, 32)
	if err != nil || len(text) != 7 || text[0] != '#' {
		return usual, fmt.Errorf("the colour of %s is %.20q, which is none; write it as #rrggbb", what, text)
	}
	return color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 0xff}, nil
}

// trace adds a shape's rings under a map to the context's path.
func trace(c *gg.Context, s *geometry.Shape, m geometry.Map) { traceOutline(c, s.Outline(), m) }

func traceOutline(c *gg.Context, mp orb.MultiPolygon, m geometry.Map) {
	for _, poly := range mp {
		for _, ring := range poly {
			for i, v := range ring[:len(ring)-1] {
				p := m.Apply(v)
				if i == 0 {
					c.MoveTo(p[0], p[1])
				} else {
					c.LineTo(p[0], p[1])
				}
			}
			c.ClosePath()
		}
	}
}
