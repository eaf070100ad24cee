package cutfile

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	file "openwork/pattern/paper/pdf"
)

// pdf writes the job as PDF 1.5: one page of the sheet's size at true scale, hairlines, an optional-content layer for each
// layer of the job. The page's own unit is made the millimetre at its head.
func pdf(j *Job) ([]byte, error) {
	width, height := j.Page.Max[0]-j.Page.Min[0], j.Page.Max[1]-j.Page.Min[1]
	if width > file.MaxPage || height > file.MaxPage {
		return nil, fmt.Errorf("a page of a PDF is at most %g mm wide and high, and the sheet is %s × %s; take SVG or DXF", file.MaxPage, number(width), number(height))
	}
	content, used := pdfContent(j)
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
	info := "/Title " + file.Text(j.Title)
	if text := standing(j); text != "" {
		info += " /Subject " + file.Text(text)
	}
	var objects [][]byte
	add := func(format string, a ...any) { objects = append(objects, fmt.Appendf(nil, format, a...)) }
	add("<< /Type /Catalog /Pages 2 0 R /OCProperties << /OCGs [ %s] /D << /Order [ %s] /ON [ %s] >> >> >>", &groups, &groups, &groups)
	add("<< /Type /Pages /Kids [ 3 0 R ] /Count 1 >>")
	add("<< /Type /Page /Parent 2 0 R /MediaBox [ 0 0 %s %s ] /Contents 4 0 R /Resources << /Properties << %s>> >> >>",
		real(width*file.PointsPerMM), real(height*file.PointsPerMM), &names)
	add("<< /Length %d /Filter /FlateDecode >>\nstream\n%s\nendstream", packed.Len(), packed.Bytes())
	add("<< %s >>", info)
	for _, l := range used {
		add("<< /Type /OCG /Name %s >>", file.Text(string(l)))
	}
	return file.File(objects, 1, 5), nil
}

// real writes a number as PDF knows it, without an exponent.
func real(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) }

// pdfContent writes the page's marks: for each layer its contours in order. It returns the layers there are.
func pdfContent(j *Job) (out []byte, used []Layer) {
	out = fmt.Appendf(out, "%s 0 0 %s 0 0 cm\n%g w\n", strconv.FormatFloat(file.PointsPerMM, 'f', 10, 64), strconv.FormatFloat(file.PointsPerMM, 'f', 10, 64), hairline)
	p := page{origin: j.Page.Min}
	var pieces []curve.Piece
	pair := func(q orb.Point) {
		v := p.steps(q)
		out = appendSteps(out, v[0])
		out = append(out, ' ')
		out = appendSteps(out, v[1])
		out = append(out, ' ')
	}
	for _, l := range layers {
		begun := false
		for i := range j.Contours {
			c := &j.Contours[i]
			if c.Layer != l {
				continue
			}
			if !begun {
				begun = true
				used = append(used, l)
				colour, _ := rgb(j.Colours.of(l)) // read before: Colours are checked
				out = fmt.Appendf(out, "/OC /%s BDC\n%.4g %.4g %.4g RG\n", l, float64(colour[0])/255, float64(colour[1])/255, float64(colour[2])/255)
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
