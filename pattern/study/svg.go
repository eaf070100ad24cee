package study

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/appearance"
	"openwork/pattern/draft"
)

// SVG writes the panel as it will look, as an SVG drawing: one outline for each motif, used once for every copy. The
// user unit is the millimetre, y down, the view box the panel. Its parts have the classes sheet, panel, paint and
// subject, so that a page can give them its own colours.
func SVG(l *pattern.Layout, w io.Writer) error {
	copies, err := l.Copies()
	if err != nil {
		return err
	}
	out := bufio.NewWriter(w)
	printf := func(format string, args ...any) { fmt.Fprintf(out, format, args...) }
	panel := l.Draft.PanelBound()
	down := geometry.Map{A: 1, D: -1, Y: panel.Max[1]} // panel mm, y up → the drawing's
	box := func(attributes string, r orb.Bound) {
		printf(`<rect %sx="%s" y="%s" width="%s" height="%s"/>`, attributes, tenth(r.Min[0]),
			tenth(panel.Max[1]-r.Max[1]), tenth(r.Max[0]-r.Min[0]), tenth(r.Max[1]-r.Min[1]))
	}
	printf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s">`, tenth(panel.Max[0]), tenth(panel.Max[1]))
	box(fmt.Sprintf(`class="sheet" fill="#%02x%02x%02x" `, groundColour.R, groundColour.G, groundColour.B),
		l.Draft.SheetBound())
	palette := appearance.PaletteOf(l.Draft, appearance.Plain)
	ground := fmt.Sprintf(`class="sheet" fill="#%02x%02x%02x"`, groundColour.R, groundColour.G, groundColour.B)
	if palette.HasGround {
		ground = fmt.Sprintf(`fill="%s"`, appearance.Hex(palette.Ground))
		box(ground+" ", panel)
	}
	box(`class="panel" fill="none" `, panel)
	printf(`<defs><clipPath id="field">`)
	box("", l.Draft.FieldBound())
	printf(`</clipPath>`)
	for i, o := range l.Orbits {
		printf(`<path id="motif-%d" d="%s"/>`, i, geometry.SVGPath(o.Shape.Outline(), tenths))
	}
	printf(`</defs><g class="paint" fill="#%02x%02x%02x" fill-rule="evenodd"`, pasteColour.R, pasteColour.G,
		pasteColour.B)
	if l.Draft.Field.Edge == draft.Crop {
		printf(` clip-path="url(#field)"`)
	}
	printf(">")
	for _, c := range copies {
		m := down.After(c.Map)
		printf(`<use href="#motif-%d" transform="matrix(%.5g %.5g %.5g %.5g %s %s)"`, c.Motif, m.A, m.C, m.B, m.D,
			tenth(m.X), tenth(m.Y))
		if c.Colour >= 0 {
			printf(` fill="%s"`, appearance.Hex(palette.Colours[c.Colour]))
		}
		printf("/>")
	}
	printf("</g>")
	ties, err := l.TiesIn(panel)
	if err != nil {
		return err
	}
	path := func(mp orb.MultiPolygon) {
		printf(`<path d="%s"/>`, geometry.SVGPath(mp,
			func(p orb.Point) (x, y string) { return tenths(down.Apply(p)) }))
	}
	if len(ties)+len(l.Rooms) > 0 {
		printf(`<g %s fill-rule="evenodd">`, ground)
		for _, t := range ties {
			path(orb.MultiPolygon{{t[0]}})
		}
		for _, r := range l.Rooms {
			path(r.Shape.Outline())
		}
		printf("</g>")
	}
	if len(l.Draft.Subjects) > 0 {
		printf(`<g class="subject" fill="%s" fill-rule="evenodd">`, appearance.Hex(subjectColour))
		for _, s := range l.Draft.Subjects {
			path(s.Placed())
		}
		printf("</g>")
	}

	printf("</svg>\n")
	return out.Flush()
}

// tenths writes a point.
func tenths(p orb.Point) (x, y string) { return tenth(p[0]), tenth(p[1]) }

// tenth writes mm to a tenth, a fraction of a pixel on any screen.
func tenth(mm float64) string { return strconv.FormatFloat(math.Round(10*mm)/10+0, 'f', -1, 64) }
