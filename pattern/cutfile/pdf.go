package cutfile

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/pattern/cutplan"
	file "openwork/pattern/paper/pdf"
)

// FormatPDF is PDF 1.5.
const FormatPDF Format = "pdf"

// encodePDF writes a plan as PDF 1.5: one page of the sheet's size at true scale, hairlines, an optional-content layer
// for each layer of the plan. The page's own unit is made the millimetre at its head.
func encodePDF(p *cutplan.Plan) ([]byte, error) {
	width, height := p.Page.Max[0]-p.Page.Min[0], p.Page.Max[1]-p.Page.Min[1]
	if width > file.MaxPage || height > file.MaxPage {
		return nil, fmt.Errorf("a page of a PDF is at most %g mm wide and high, and the sheet is %s × %s; take SVG "+
			"or DXF",
			file.MaxPage, number(width), number(height))
	}
	content, used := pdfContent(p)
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	if _, err := z.Write(content); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	var groups, names strings.Builder
	for i, l := range used {
		fmt.Fprintf(&groups, "%d 0 R ", 6+i)
		fmt.Fprintf(&names, "/%s %d 0 R ", l, 6+i)
	}
	info := "/Title " + file.Text(p.Title)
	if text := p.Standing(); text != "" {
		info += " /Subject " + file.Text(text)
	}
	info += " /Keywords " + file.Text(strings.Join(p.FactLines(), "\n"))
	var objects [][]byte
	add := func(format string, a ...any) { objects = append(objects, fmt.Appendf(nil, format, a...)) }
	add("<< /Type /Catalog /Pages 2 0 R /OCProperties << /OCGs [ %s] /D << /Order [ %s] /ON [ %s] >> >> >>", &groups,
		&groups, &groups)
	add("<< /Type /Pages /Kids [ 3 0 R ] /Count 1 >>")
	add("<< /Type /Page /Parent 2 0 R /MediaBox [ 0 0 %s %s ] /Contents 4 0 R /Resources << /Properties << %s>> >> >>",
		decimal(width*file.PointsPerMM), decimal(height*file.PointsPerMM), &names)
	add("<< /Length %d /Filter /FlateDecode >>\nstream\n%s\nendstream", packed.Len(), packed.Bytes())
	add("<< %s >>", info)
	for _, l := range used {
		add("<< /Type /OCG /Name %s >>", file.Text(p.Lines.Of(l).Name))
	}
	return file.File(objects, 1, 5), nil
}

// decimal writes a number as PDF knows it, without an exponent.
func decimal(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) }

// pdfContent writes the page's marks: for each layer its contours in order. It returns the layers there are.
func pdfContent(p *cutplan.Plan) (out []byte, used []cutplan.Layer) {
	out = fmt.Appendf(out, "%s 0 0 %s 0 0 cm\n", strconv.FormatFloat(file.PointsPerMM, 'f', 10, 64),
		strconv.FormatFloat(file.PointsPerMM, 'f', 10, 64))
	at := page{origin: p.Page.Min}
	var pieces []curve.Piece
	pair := func(q orb.Point) {
		v := at.steps(q)
		out = appendSteps(out, v[0])
		out = append(out, ' ')
		out = appendSteps(out, v[1])
		out = append(out, ' ')
	}
	for _, l := range cutplan.Layers {
		begun := false
		for i := range p.Contours {
			c := &p.Contours[i]
			if c.Layer != l {
				continue
			}
			if !begun {
				begun = true
				used = append(used, l)
				line := p.Lines.Of(l)
				colour, _ := cutplan.RGB(line.Colour) // read before: Lines are checked
				out = fmt.Appendf(out, "%g w\n/OC /%s BDC\n%.4g %.4g %.4g RG\n", line.Width, l, float64(colour[0])/255,
					float64(colour[1])/255, float64(colour[2])/255)
			}
			var from orb.Point
			from, pieces = c.Pieces(pieces[:0])
			pair(from)
			out = append(out, "m\n"...)
			for k, q := range pieces {
				switch {
				case q.Kind == curve.Cubic:
					pair(q.C1)
					pair(q.C2)
					pair(q.To)
					out = append(out, "c\n"...)
				case c.Path.Closed() && k == len(pieces)-1:

					// Closing draws it.
				default:
					pair(q.To)
					out = append(out, "l\n"...)
				}
			}
			if c.Path.Closed() {
				out = append(out, "s\n"...)
			} else {
				out = append(out, "S\n"...)
			}
		}
		if begun {
			out = append(out, "EMC\n"...)
		}
	}
	return out, used
}

// maxInflated bounds what a page's content may grow to when it is read back.
const maxInflated = 1 << 30

// readPDF reads back what encodePDF writes: the page's box, and the operators of its one stream.
func readPDF(data []byte) (*contents, error) {
	c := &contents{}
	var x, y, w, h float64
	_, box, ok := bytes.Cut(data, []byte("/MediaBox [ "))
	if n, err := fmt.Sscanf(string(box[:min(len(box), 80)]), "%f %f %f %f", &x, &y, &w, &h); !ok || n != 4 ||
		err != nil {
		return nil, fmt.Errorf("the page's box cannot be read")
	}
	c.width, c.height = (w-x)*25.4/72, (h-y)*25.4/72
	_, packed, ok := bytes.Cut(data, []byte("\nstream\n"))
	if !ok {
		return nil, fmt.Errorf("there is no stream")
	}
	z, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, err
	}
	defer z.Close()
	content, err := io.ReadAll(io.LimitReader(z, maxInflated))
	if err != nil {
		return nil, err
	}
	return c, readOperators(content, c)
}

// readOperators goes through a page's content.
func readOperators(content []byte, c *contents) error {
	s := scanner{data: content}
	scale := 1.0 // mm for each of the page's units in force
	var stack []float64
	var name string
	var p pen
	take := func(n int) ([]orb.Point, error) {
		if len(stack) != n {
			return nil, fmt.Errorf("an operator takes %d numbers and has %d", n, len(stack))
		}
		var out []orb.Point
		for k := 0; k+1 < n; k += 2 {
			out = append(out, orb.Point{stack[k] * scale, stack[k+1] * scale})
		}
		return out, nil
	}

	for {
		b, more := s.peek()
		if !more {
			return nil
		}
		if b == '-' || b == '.' || b >= '0' && b <= '9' {
			v, err := s.number()
			if err != nil {
				return err
			}
			stack = append(stack, v)
			continue
		}
		from := s.at
		for s.at < len(content) && content[s.at] > ' ' {
			s.at++
		}
		word := string(content[from:s.at])
		if strings.HasPrefix(word, "/") {
			name = word[1:]
			continue
		}
		var err error
		var at []orb.Point
		switch word {
		case "cm":
			if len(stack) != 6 || stack[0] != stack[3] || stack[1] != 0 || stack[2] != 0 || stack[4] != 0 ||
				stack[5] != 0 {
				return fmt.Errorf("the page is not scaled evenly")
			}
			if scale = stack[0] * 25.4 / 72; math.Abs(scale-1) < 1e-9 {
				scale = 1
			}
		case "BDC":
			p.t = c.layer(name)
		case "EMC":
			p.t = nil
		case "w", "RG":
		case "m", "l", "c", "s", "S":
			if p.t == nil {
				return fmt.Errorf("something is drawn outside the layers")
			}
			switch word {
			case "m":
				if at, err = take(2); err == nil {
					p.move(at[0])
				}
			case "l":
				if at, err = take(2); err == nil {
					p.line(at[0])
				}
			case "c":
				if at, err = take(6); err == nil {
					p.curve(at[0], at[1], at[2])
				}
			case "s":
				p.close()
			case "S":
				p.lift()
			}
		default:
			err = fmt.Errorf("the page holds the operator %.20q", word)
		}
		if err != nil {
			return err
		}
		stack = stack[:0]
	}
}
