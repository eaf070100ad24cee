// Package cutfile writes what a cutting shop asks for: closed contours in millimetres at true scale, the kerf allowed
// for, inner before outer, the sheet's own outline last.
package cutfile

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"sort"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/offset"
	"openwork/pattern"
	"openwork/pattern/sheet/panel"
)

const (
	// hairline in mm: what a cut line is drawn with; common practice is 0.01–0.1.
	hairline = 0.05
	// arcTolerance in mm, of the round corners that the kerf leaves: a fortieth of a usual kerf.
	arcTolerance = 0.005
	// cutColour and markColour tell the two groups apart on screen; the shop sets its own.
	cutColour  = "#c00000"
	markColour = "#0000c0"
	// crossArm in mm, of the registration crosses in the margin.
	crossArm = 4.0
)

// Made tells what a cut file holds: openings written, openings that the kerf would take whole, and the area in mm² that
// the written contours enclose (holes taken off, before the beam widens them to what the draft asks).
type Made struct {
	Openings int
	Lost     int
	Area     float64
}

// SVG writes the layout's sheet as an SVG file: one path for every opening, holes first, in the group "cut", and the
// sheet's outline as that group's last path; registration crosses in the group "mark". The user unit is the millimetre.
// Openings shrink by half the kerf and the sheet's outline grows by it, so that the cut pieces come out at size.
func SVG(l *pattern.Layout, w io.Writer) (Made, error) {
	var made Made
	if err := pattern.RefuseStock(l.Draft.Sheet.Stock); err != nil {
		return made, err
	}
	openings, err := Contours(l)
	if err != nil {
		return made, err
	}
	d := l.Draft
	sheet := d.SheetBound()
	outer := sheet.Pad(d.Sheet.Kerf / 2)
	f := &svgFile{w: bufio.NewWriter(w), left: outer.Min[0], top: outer.Max[1]}
	f.open(d.Title, outer)
	f.printf("<g id=\"cut\" fill=\"none\" stroke=\"%s\" stroke-width=\"%g\">\n", cutColour, hairline)
	for _, o := range openings {
		if len(o) == 0 {
			made.Lost++
			continue
		}
		made.Openings++
		made.Area += geometry.Area(o)
		f.path("opening", o)
	}
	f.path("sheet", geometry.RectOutline(outer))
	f.printf("</g>\n<g id=\"mark\" fill=\"none\" stroke=\"%s\" stroke-width=\"%g\">\n", markColour, hairline)
	f.crosses(sheet, d.Field.Margin)
	f.printf("</g>\n</svg>\n")
	if f.err != nil {
		return made, f.err
	}
	return made, f.w.Flush()
}

// Contours returns the openings with half the kerf taken off, row by row; one that the kerf takes whole is empty. Each
// distinct shape is offset once and carried to its copies.
func Contours(l *pattern.Layout) ([]orb.MultiPolygon, error) {
	openings, err := panel.Openings(l)
	if err != nil {
		return nil, err
	}
	half := l.Draft.Sheet.Kerf / 2
	known := map[*geometry.Shape]orb.MultiPolygon{}
	out := make([]orb.MultiPolygon, 0, len(openings))
	sortRows(openings)
	for _, o := range openings {
		cut, ok := known[o.Shape]
		if !ok {
			cut = o.Shape.Outline()
			if half > 0 {
				if cut, err = offset.Offset(cut, -half, arcTolerance); err != nil {
					return nil, fmt.Errorf("the kerf could not be taken off the opening at (%.1f, %.1f) mm: %w",
						o.Bound().Center()[0], o.Bound().Center()[1], err)
				}
			}
			known[o.Shape] = cut
		}
		out = append(out, geometry.Transform(cut, geometry.Translate(o.Shift[0], o.Shift[1])))
	}
	return out, nil
}

// sortRows orders openings in rows from the top, each row running back the way the one before came.
func sortRows(openings []panel.Opening) {
	if len(openings) == 0 {
		return
	}
	height := 0.0
	for _, o := range openings {
		b := o.Bound()
		height += (b.Max[1] - b.Min[1]) / float64(len(openings))
	}
	row := func(o panel.Opening) int { return int(math.Floor(-o.Bound().Center()[1] / math.Max(height, 1e-3))) }
	sort.SliceStable(openings, func(i, j int) bool {
		a, b := row(openings[i]), row(openings[j])
		if a != b {
			return a < b
		}
		if a%2 == 0 {
			return openings[i].Bound().Min[0] < openings[j].Bound().Min[0]
		}
		return openings[i].Bound().Min[0] > openings[j].Bound().Min[0]
	})
}

// svgFile writes with the sheet's upper left corner as origin and y downward; the first error stays.
type svgFile struct {
	w         *bufio.Writer
	left, top float64
	err       error
}

func (f *svgFile) printf(format string, a ...any) {
	if f.err == nil {
		_, f.err = fmt.Fprintf(f.w, format, a...)
	}
}

func (f *svgFile) open(title string, outer orb.Bound) {
	width, height := outer.Max[0]-outer.Min[0], outer.Max[1]-outer.Min[1]
	var t strings.Builder
	if err := xml.EscapeText(&t, []byte(title)); err != nil && f.err == nil {
		f.err = err
	}
	f.printf("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"+
		"<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">\n"+
		"<title>%s</title>\n", number(width), number(height), number(width), number(height), t.String())
}

// path writes one outline, holes before what surrounds them.
func (f *svgFile) path(class string, mp orb.MultiPolygon) {
	f.printf("<path class=\"%s\" d=\"", class)
	for _, p := range mp {
		for i := len(p) - 1; i >= 0; i-- {
			for k, v := range p[i][:len(p[i])-1] {
				letter := "L"
				if k == 0 {
					letter = "M"
				}
				f.printf("%s%s %s", letter, number(v[0]-f.left), number(f.top-v[1]))
			}
			f.printf("Z")
		}
	}
	f.printf("\"/>\n")
}

// crosses sets a registration cross in the middle of the margin at each corner of the sheet, where there is room.
func (f *svgFile) crosses(sheet orb.Bound, margin float64) {
	arm := math.Min(crossArm, margin/2-1)
	if arm < 1 {
		return
	}
	in := margin / 2
	for _, p := range []orb.Point{{sheet.Min[0] + in, sheet.Max[1] - in}, {sheet.Max[0] - in, sheet.Max[1] - in},
		{sheet.Max[0] - in, sheet.Min[1] + in}, {sheet.Min[0] + in, sheet.Min[1] + in}} {
		x, y := p[0]-f.left, f.top-p[1]
		f.printf("<path class=\"registration\" d=\"M%s %sL%s %sM%s %sL%s %s\"/>\n", number(x-arm), number(y), number(x+arm), number(y),
			number(x), number(y-arm), number(x), number(y+arm))
	}
}

// number writes a coordinate to 0.001 mm.
func number(v float64) string {
	s := strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
	if s == "-0" {
		return "0"
	}
	return s
}
