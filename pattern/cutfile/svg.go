package cutfile

import (
	"encoding/xml"
	"fmt"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
)

// svg writes the job as SVG: the user unit is the millimetre, one group for each layer that has contours, one path for each
// opening with what drops out of it first, cubic curves, relative coordinates.
func svg(j *Job) []byte {
	width, height := number(j.Page.Max[0]-j.Page.Min[0]), number(j.Page.Max[1]-j.Page.Min[1])
	w := &svgWriter{page: page{orb.Point{j.Page.Min[0], j.Page.Max[1]}, true}}
	w.text("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"+
		"<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">\n"+
		"<title>%s</title>\n", width, height, width, height, escaped(j.Title))
	if text := standing(j); text != "" {
		w.text("<desc>%s</desc>\n", escaped(text))
	}
	for _, l := range layers {
		begun := false
		last := -1
		for i := range j.Contours {
			c := &j.Contours[i]
			if c.Layer != l {
				continue
			}
			if !begun {
				w.text("<g id=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%g\">\n", l, j.Colours.of(l), hairline)
				begun = true
			}
			// What drops out of an opening shares its path when it is cut right before it.
			if last < 0 || !together(&j.Contours[last], c) {
				if last >= 0 {
					w.text("\"/>\n")
				}
				w.text("<path class=\"%s\" d=\"", classOf(j, i))
			}
			w.contour(c)
			last = i
		}
		if begun {
			w.text("\"/>\n</g>\n")
		}
	}
	w.text("</svg>\n")
	return w.out
}

// together reports whether a contour follows another in one path.
func together(a, b *Contour) bool {
	if a.Layer != Cut || b.Layer != Cut {
		return false
	}
	return a.Class == classSheet && b.Class == classSheet ||
		(a.Class == classIsland || a.Class == classOpening) && (b.Class == classIsland || b.Class == classOpening) && a.unit == b.unit
}

// classOf returns the class of the path that begins with contour i: that of the last contour in it.
func classOf(j *Job, i int) string {
	for i+1 < len(j.Contours) && together(&j.Contours[i], &j.Contours[i+1]) {
		i++
	}
	return j.Contours[i].Class
}

// standing tells why the sheet does not hold, or that nobody has looked; empty for a sheet that holds.
func standing(j *Job) string {
	switch {
	case len(j.Unsound) > 0:
		return "This sheet does not hold: " + strings.Join(j.Unsound, " ")
	case j.Unchecked:
		return notChecked
	}
	return ""
}

// notChecked is what a file says of a sheet that nobody has looked at.
const notChecked = "It was not checked whether this sheet holds."

func escaped(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		return ""
	}
	return b.String()
}

type svgWriter struct {
	page   page
	out    []byte
	pieces []curve.Piece
}

func (w *svgWriter) text(format string, a ...any) { w.out = fmt.Appendf(w.out, format, a...) }

// contour writes one contour: its first point, then steps from point to point, so that rounding does not add up.
func (w *svgWriter) contour(c *Contour) {
	from, pieces := c.Pieces(w.pieces[:0])
	w.pieces = pieces
	at := w.page.steps(from)
	first := at
	w.out = append(w.out, 'M')
	w.pair(at)
	closed := c.Path.Closed()
	letter := byte(' ')
	for k, q := range pieces {
		to := w.page.steps(q.To)
		switch {
		case q.Kind == curve.Cubic:
			if letter != 'c' {
				letter = 'c'
				w.out = append(w.out, letter)
			} else {
				w.out = append(w.out, ' ')
			}
			for _, p := range [...]orb.Point{q.C1, q.C2} {
				v := w.page.steps(p)
				w.pair([2]int64{v[0] - at[0], v[1] - at[1]})
				w.out = append(w.out, ' ')
			}
			w.pair([2]int64{to[0] - at[0], to[1] - at[1]})
		case closed && k == len(pieces)-1 && to == first:
			// Closing draws it.
		default:
			if letter != 'l' {
				letter = 'l'
				w.out = append(w.out, letter)
			} else {
				w.out = append(w.out, ' ')
			}
			w.pair([2]int64{to[0] - at[0], to[1] - at[1]})
		}
		at = to
	}
	if closed {
		w.out = append(w.out, 'Z')
	}
}

func (w *svgWriter) pair(v [2]int64) {
	w.out = appendSteps(w.out, v[0])
	if v[1] >= 0 {
		w.out = append(w.out, ' ')
	}
	w.out = appendSteps(w.out, v[1])
}
