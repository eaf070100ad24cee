package main

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
)

// firstPlace is where index.html wants the first picture, if it wants one.
const firstPlace = "<!-- first picture -->"

// putFirst draws the demonstration into the page, so that it is seen before the editor has started, drawn from its layout
// as the editor will draw it. The view box is the panel, y down; the colours are the style sheet's.
func putFirst(page, demo []byte) ([]byte, error) {
	if !bytes.Contains(page, []byte(firstPlace)) {
		return page, nil
	}
	d, err := pattern.Decode(bytes.NewReader(demo))
	if err != nil {
		return nil, fmt.Errorf("the demonstration: %w", err)
	}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		return nil, fmt.Errorf("the demonstration: %w", err)
	}
	copies, err := l.Copies()
	if err != nil {
		return nil, fmt.Errorf("the demonstration: %w", err)
	}
	return bytes.Replace(page, []byte(firstPlace), []byte(firstPicture(l, copies)), 1), nil
}

func firstPicture(l *pattern.Layout, copies []pattern.Copy) string {
	var b strings.Builder
	panel := l.Draft.PanelBound()
	down := geometry.Map{A: 1, D: -1, Y: panel.Max[1]} // panel mm, y up → the picture's
	box := func(name string, r orb.Bound) {
		fmt.Fprintf(&b, `<rect class="%s" x="%s" y="%s" width="%s" height="%s"/>`, name, short(r.Min[0]), short(panel.Max[1]-r.Max[1]),
			short(r.Max[0]-r.Min[0]), short(r.Max[1]-r.Min[1]))
	}
	fmt.Fprintf(&b, `<svg class="first" id="first" viewBox="0 0 %s %s" aria-hidden="true" focusable="false">`, short(panel.Max[0]), short(panel.Max[1]))
	box("first-sheet", l.Draft.SheetBound())
	box("first-panel", panel)
	b.WriteString(`<defs><clipPath id="first-field">`)
	box("", l.Draft.FieldBound())
	b.WriteString(`</clipPath>`)
	for i, o := range l.Orbits {
		fmt.Fprintf(&b, `<path id="first-%d" d="`, i)
		for _, poly := range o.Shape.Outline() {
			for _, ring := range poly {
				for j, p := range ring[:len(ring)-1] {
					b.WriteString(map[bool]string{true: "M", false: "L"}[j == 0])
					b.WriteString(short(p[0]) + " " + short(p[1]))
				}
				b.WriteByte('Z')
			}
		}
		b.WriteString(`"/>`)
	}
	b.WriteString(`</defs><g class="first-paint"`)
	if l.Draft.Field.Edge == pattern.Crop {
		b.WriteString(` clip-path="url(#first-field)"`)
	}
	b.WriteByte('>')
	for _, c := range copies {
		m := down.After(c.Map)
		fmt.Fprintf(&b, `<use href="#first-%d" transform="matrix(%.5g %.5g %.5g %.5g %s %s)"/>`, c.Motif, m.A, m.C, m.B, m.D, short(m.X), short(m.Y))
	}
	b.WriteString("</g></svg>")
	return b.String()
}

// short writes mm to a tenth, a fraction of a pixel on any screen.
func short(mm float64) string { return strconv.FormatFloat(math.Round(10*mm)/10+0, 'f', -1, 64) }
