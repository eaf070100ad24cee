package cutfile

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
)

// pointsToMM: a PDF unit is 1/72 in (ISO 32000).
const pointsPerMM = 72 / 25.4

// pdf writes the job as PDF 1.5: one page of the sheet's size at true scale, hairlines, an optional-content layer for each
// layer of the job. The page's own unit is made the millimetre at its head.
func pdf(j *Job) ([]byte, error) {
	width, height := j.Page.Max[0]-j.Page.Min[0], j.Page.Max[1]-j.Page.Min[1]
	if width > mostPage || height > mostPage {
		return nil, fmt.Errorf("a page of a PDF is at most %g mm wide and high, and the sheet is %s × %s; take SVG or DXF", mostPage, number(width), number(height))
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
	info := "/Title " + pdfText(j.Title)
	if len(j.Unsound) > 0 {
		info += " /Subject " + pdfText(unsoundText(j))
	}
	objects := []string{
		fmt.Sprintf("<< /Type /Catalog /Pages 2 0 R /OCProperties << /OCGs [ %s] /D << /Order [ %s] /ON [ %s] >> >> >>", &groups, &groups, &groups),
		"<< /Type /Pages /Kids [ 3 0 R ] /Count 1 >>",
		fmt.Sprintf("<< /Type /Page /Parent 2 0 R /MediaBox [ 0 0 %s %s ] /Contents 4 0 R /Resources << /Properties << %s>> >> >>",
			real(width*pointsPerMM), real(height*pointsPerMM), &names),
		fmt.Sprintf("<< /Length %d /Filter /FlateDecode >>\nstream\n%s\nendstream", packed.Len(), packed.Bytes()),
		"<< " + info + " >>",
	}
	for _, l := range used {
		objects = append(objects, fmt.Sprintf("<< /Type /OCG /Name %s >>", pdfText(string(l))))
	}
	var out bytes.Buffer
	out.WriteString("%PDF-1.5\n%\xe2\xe3\xcf\xd3\n") // four bytes over 127 tell that it is no plain text
	var at []int
	for i, o := range objects {
		at = append(at, out.Len())
		fmt.Fprintf(&out, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	table := out.Len()
	fmt.Fprintf(&out, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, a := range at {
		fmt.Fprintf(&out, "%010d 00000 n \n", a)
	}
	fmt.Fprintf(&out, "trailer\n<< /Size %d /Root 1 0 R /Info 5 0 R >>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, table)
	return out.Bytes(), nil
}

// real writes a number as PDF knows it, without an exponent.
func real(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) }

// pdfText writes a text string as UTF-16 with its mark, in hexadecimal.
func pdfText(s string) string {
	var b strings.Builder
	b.WriteString("<FEFF")
	for _, r := range s {
		if r > 0xffff {
			r -= 0x10000
			fmt.Fprintf(&b, "%04X%04X", 0xd800+r>>10, 0xdc00+r&0x3ff)
			continue
		}
		fmt.Fprintf(&b, "%04X", r)
	}
	return b.String() + ">"
}

// pdfContent writes the page's marks: for each layer its contours in order. It returns the layers there are.
func pdfContent(j *Job) (out []byte, used []Layer) {
	out = fmt.Appendf(out, "%s 0 0 %s 0 0 cm\n%g w\n", strconv.FormatFloat(pointsPerMM, 'f', 10, 64), strconv.FormatFloat(pointsPerMM, 'f', 10, 64), hairline)
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
