package cutfile

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/pattern/cutplan"
)

// FormatSVG is SVG 1.1.
const FormatSVG Format = "svg"

// encodeSVG writes a plan as SVG: the user unit is the millimetre, one group for each layer that has contours, one path
// for each opening with what drops out of it first, cubic curves, relative coordinates.
func encodeSVG(p *cutplan.Plan) ([]byte, error) {
	width, height := number(p.Page.Max[0]-p.Page.Min[0]), number(p.Page.Max[1]-p.Page.Min[1])
	w := &svgWriter{page: page{orb.Point{p.Page.Min[0], p.Page.Max[1]}, true}}
	w.text("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"+
		"<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s "+
		"%s\">\n"+
		"<title>%s</title>\n", width, height, width, height, escaped(p.Title))
	if text := p.Standing(); text != "" {
		w.text("<desc>%s</desc>\n", escaped(text))
	}
	w.text("<metadata>\n")
	for _, line := range p.FactLines() {
		w.text("%s\n", escaped(line))
	}
	w.text("</metadata>\n")

	for _, l := range cutplan.Layers {
		begun := false
		last := -1
		for i := range p.Contours {
			c := &p.Contours[i]
			if c.Layer != l {
				continue
			}
			if !begun {
				line := p.Lines.Of(l)
				w.text("<g id=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%g\">\n", line.Name, line.Colour,
					line.Width)
				begun = true
			}

			// What drops out of an opening shares its path when it is cut right before it.
			if last < 0 || !cutplan.Together(&p.Contours[last], c) {
				if last >= 0 {
					w.text("\"/>\n")
				}
				w.text("<path class=\"%s\" d=\"", classOf(p, i))
			}
			w.contour(c)
			last = i
		}
		if begun {
			w.text("\"/>\n</g>\n")
		}
	}

	w.text("</svg>\n")
	return w.out, nil
}

// classOf returns the class of the path that begins with contour i: that of the last contour in it.
func classOf(p *cutplan.Plan, i int) string {
	for i+1 < len(p.Contours) && cutplan.Together(&p.Contours[i], &p.Contours[i+1]) {
		i++
	}
	return p.Contours[i].Class
}

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
func (w *svgWriter) contour(c *cutplan.Contour) {
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

// readSVG reads back what encodeSVG writes: groups by their id, paths of M, l, c and Z. It is no reader for other
// files.
func readSVG(data []byte) (*contents, error) {
	c := &contents{}
	var t *tally
	for {
		at := bytes.IndexByte(data, '<')
		if at < 0 {
			return c, nil
		}
		end := bytes.IndexByte(data[at:], '>')
		if end < 0 {
			return nil, fmt.Errorf("a tag is not closed")
		}
		tag := data[at+1 : at+end]
		data = data[at+end+1:]
		switch name, _, _ := bytes.Cut(tag, []byte(" ")); string(name) {
		case "svg":
			n, err := fmt.Sscanf(attribute(tag, "viewBox"), "0 0 %f %f", &c.width, &c.height)
			if n != 2 || err != nil {
				return nil, fmt.Errorf("the viewBox cannot be read: %v", err)
			}
			var w, h float64
			if _, err := fmt.Sscanf(attribute(tag, "width")+" "+attribute(tag, "height"), "%fmm %fmm", &w,
				&h); err != nil || w != c.width || h != c.height {
				return nil, fmt.Errorf("width and height are not those of the viewBox in mm")
			}
		case "g":
			t = c.layer(attribute(tag, "id"))
		case "/g":
			t = nil
		case "path":
			if t == nil {
				return nil, fmt.Errorf("a path stands in no group")
			}
			if err := readPath([]byte(attribute(tag, "d")), c.height, t); err != nil {
				return nil, err
			}
		}
	}
}

// attribute returns the value of an attribute of a tag, empty when there is none.
func attribute(tag []byte, name string) string {
	_, rest, ok := bytes.Cut(tag, []byte(" "+name+"=\""))
	if !ok {
		return ""
	}
	value, _, _ := bytes.Cut(rest, []byte("\""))
	return string(value)
}

// readPath adds a path's data to a tally, y turned upward.
func readPath(d []byte, height float64, t *tally) error {
	p := &pen{t: t}
	s := scanner{data: d}
	var at [2]float64 // as the file has it, y downward
	point := func(from [2]float64) ([2]float64, error) {
		x, err := s.number()
		if err != nil {
			return at, err
		}
		y, err := s.number()
		return [2]float64{from[0] + x, from[1] + y}, err
	}

	up := func(q [2]float64) orb.Point { return orb.Point{q[0], height - q[1]} }
	letter := byte(0)
	for {
		next, more := s.peek()
		if !more {
			return nil
		}
		if next >= 'A' {
			letter = next
			s.at++
		}
		switch letter {
		case 'M':
			q, err := point([2]float64{})
			if err != nil {
				return err
			}
			at = q
			p.move(up(q))
		case 'l':
			q, err := point(at)
			if err != nil {
				return err
			}
			at = q
			p.line(up(q))
		case 'c':
			var q [3][2]float64
			for k := range q {
				var err error
				if q[k], err = point(at); err != nil {
					return err
				}
			}
			at = q[2]
			p.curve(up(q[0]), up(q[1]), up(q[2]))
		case 'Z':
			if !p.down {
				return fmt.Errorf("a contour is closed before it begins")
			}
			p.at = snapped(p.at, p.first)
			p.close()
			letter = 0
		default:
			return fmt.Errorf("a path holds %q", next)
		}
	}
}

// snapped returns q for a p that differs from it by the rounding of sums only.
func snapped(p, q orb.Point) orb.Point {
	if math.Abs(p[0]-q[0]) < step/100 && math.Abs(p[1]-q[1]) < step/100 {
		return q
	}
	return p
}
