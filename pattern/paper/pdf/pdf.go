// Package pdf writes small PDF files (ISO 32000): pages of lines, areas and text in fonts that are embedded, and
// drawings that are kept once and placed many times. Lengths are millimetres, y upward from a page's lower left
// corner; what a file holds is kept to 0.0001 mm. The same calls give the same bytes.
package pdf

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"strings"

	"github.com/paulmach/orb"

	"openwork/pattern/letters"
)

// PointsPerMM: the unit of PDF is 1/72 in (ISO 32000).
const PointsPerMM = 72 / 25.4

// MaxPage in mm: a page is at most 14,400 units wide and high (ISO 32000, annex C).
const MaxPage = 5080.0

// Doc is a file in the making.
type Doc struct {
	title, subject string
	drawn          []letters.Drawn
	forms          []form
	pages          []*Page
}

type form struct {
	box     orb.Bound
	content []byte
}

// Form is a drawing kept once.
type Form int

// Page is one page; what is drawn on it is added to it.
type Page struct {
	Content
	width, height float64
}

// New begins a file. Title and subject may hold any letters.
func New(title, subject string) *Doc { return &Doc{title: title, subject: subject} }

// Draw gives the file pieces of text as outlines, for letters that the fonts lack: before the first page. In a text
// that letters.Mark has gone over they are written as letters are, and a reader finds the text again.
func (d *Doc) Draw(drawn []letters.Drawn) { d.drawn = drawn }

// Form keeps a drawing within a box, in its own frame, to be placed by Content.Place.
func (d *Doc) Form(box orb.Bound, draw func(c *Content)) Form {
	var c Content
	draw(&c)
	d.forms = append(d.forms, form{box, c.b})
	return Form(len(d.forms) - 1)
}

// Page adds a page of the given size in mm.
func (d *Doc) Page(width, height float64) *Page {
	p := &Page{Content: Content{drawn: d.drawn}, width: width, height: height}
	d.pages = append(d.pages, p)
	return p
}

// Pages returns how many pages there are.
func (d *Doc) Pages() int { return len(d.pages) }

// Bytes returns the file. It fails when it has no page, or one that PDF cannot hold.
func (d *Doc) Bytes() ([]byte, error) {
	if len(d.pages) == 0 {
		return nil, fmt.Errorf("a PDF needs a page, and this one has none")
	}
	const catalog, tree, info, resources, fontsAt = 1, 2, 3, 4, 5
	fonts, named, err := d.fonts(fontsAt)
	if err != nil {
		return nil, err
	}
	formsAt := fontsAt + len(fonts)
	pagesAt := formsAt + len(d.forms)
	objects := make([][]byte, pagesAt-1, pagesAt-1+2*len(d.pages))
	copy(objects[fontsAt-1:], fonts)
	set := func(n int, format string, a ...any) { objects[n-1] = fmt.Appendf(nil, format, a...) }
	set(catalog, "<< /Type /Catalog /Pages %d 0 R >>", tree)
	about := "/Title " + Text(d.title)
	if d.subject != "" {
		about += " /Subject " + Text(d.subject)
	}
	set(info, "<< %s >>", about)
	var drawings strings.Builder

	for i, f := range d.forms {
		fmt.Fprintf(&drawings, "/X%d %d 0 R ", i, formsAt+i)
		packed, err := pack(f.content)
		if err != nil {
			return nil, err
		}
		head := fmt.Appendf(nil, "/Type /XObject /Subtype /Form /Resources << >> /BBox [ ")
		for _, v := range []float64{f.box.Min[0], f.box.Min[1], f.box.Max[0], f.box.Max[1]} {
			head = append(number(head, v), ' ')
		}
		objects[formsAt+i-1] = stream(append(head, ']'), packed)
	}

	set(resources, "<< /Font << %s>> /XObject << %s>> >>", named, &drawings)
	var kids strings.Builder
	for i, p := range d.pages {
		if !(p.width > 0 && p.width <= MaxPage && p.height > 0 && p.height <= MaxPage) {
			return nil, fmt.Errorf("page %d would be %g × %g mm; a page of a PDF is at most %g mm wide and high", i+1,
				p.width, p.height, MaxPage)
		}
		packed, err := pack(append(fmt.Appendf(nil, "%.10f 0 0 %.10f 0 0 cm\n", PointsPerMM, PointsPerMM), p.b...))
		if err != nil {
			return nil, err
		}
		n := pagesAt + 2*i
		fmt.Fprintf(&kids, "%d 0 R ", n)
		objects = append(objects, fmt.Appendf(nil,
			"<< /Type /Page /Parent %d 0 R /MediaBox [ 0 0 %.6f %.6f ] /Contents %d 0 R /Resources %d 0 R >>",
			tree, p.width*PointsPerMM, p.height*PointsPerMM, n+1, resources), stream(nil, packed))
	}

	set(tree, "<< /Type /Pages /Kids [ %s] /Count %d >>", &kids, len(d.pages))
	return File(objects, catalog, info), nil
}

// File puts objects, numbered from 1, together as a file: head, objects, table, trailer.
func File(objects [][]byte, root, info int) []byte {
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
	fmt.Fprintf(&out, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R >>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1,
		root, info, table)
	return out.Bytes()
}

// Text writes a text string as UTF-16 with its mark, in hexadecimal.
func Text(s string) string {
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

func pack(content []byte) ([]byte, error) {
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	if _, err := z.Write(content); err != nil {
		return nil, err
	}
	err := z.Close()
	return packed.Bytes(), err
}

func stream(head, packed []byte) []byte {
	return fmt.Appendf(nil, "<< %s /Length %d /Filter /FlateDecode >>\nstream\n%s\nendstream", head, len(packed),
		packed)
}
