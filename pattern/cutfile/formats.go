// Package cutfile writes a plan of what is cut as a file that a shop reads: SVG, DXF or PDF. Every file is read back
// before it is handed over.
package cutfile

import (
	"fmt"
	"io"
	"strings"

	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan"
)

// Format of a cut file: its name, which is the ending of a file too.
type Format string

// formats is the table of formats, the usual one first. A format is a row here and a file of its own.
var formats = []format{
	{FormatSVG, "image/svg+xml", curve.Cubic, encodeSVG, readSVG, svgLayer},
	{FormatDXF, "image/vnd.dxf", curve.Arc, encodeDXF, readDXF, dxfLayer},
	{FormatPDF, "application/pdf", curve.Cubic, encodePDF, readPDF, pdfLayer},
}

// format is a row of the table: the media type, the curves that a plan for it has, and how a file is written and read
// back.
type format struct {
	name   Format
	media  string
	curves curve.Kind
	encode func(*cutplan.Plan) ([]byte, error)
	read   func([]byte) (*contents, error)
	layer  func(*cutplan.Plan, cutplan.Layer) string // the name under which it is read back
}

func svgLayer(p *cutplan.Plan, l cutplan.Layer) string { return p.Lines.Of(l).Name }

// pdfLayer returns the key by which a page refers to a layer; its name stands elsewhere.
func pdfLayer(_ *cutplan.Plan, l cutplan.Layer) string { return string(l) }

// row returns a format's row of the table.
func (f Format) row() (format, error) {
	for _, r := range formats {
		if r.name == f {
			return r, nil
		}
	}
	return format{}, fmt.Errorf("there is no format %.20q; there are %s", string(f), Named(", ", " and ", ""))
}

// Formats returns the formats, the usual one first.
func Formats() []Format {
	var out []Format
	for _, r := range formats {
		out = append(out, r.name)
	}
	return out
}

// Named lists the formats' names with something before each, and something else between the last two than between
// others.
func Named(between, last, before string) string {
	out := ""
	for k, r := range formats {
		switch k {
		case 0:
		case len(formats) - 1:
			out += last
		default:
			out += between
		}
		out += before + string(r.name)
	}
	return out
}

// FormatOf returns the format that a file's name asks for by its ending.
func FormatOf(name string) (Format, error) {
	for _, r := range formats {
		if strings.HasSuffix(strings.ToLower(name), "."+string(r.name)) {
			return r.name, nil
		}
	}
	return "", fmt.Errorf("a cut file ends in %s, and %.60q does not", Named(", ", " or ", "."), name)
}

// Type returns the format's media type, empty when there is no such format.
func (f Format) Type() string {
	r, _ := f.row()
	return r.media
}

// Curves returns the kind of curve that a plan for the format has.
func (f Format) Curves() curve.Kind {
	r, _ := f.row()
	return r.curves
}

// Write plans a layout's sheet and writes its cut file. The file is read again before it is handed over, and compared
// with the plan by contours, areas, lengths and extents of each layer: where they differ there is an error and no file.
func Write(l *pattern.Layout, w io.Writer, f Format, o cutplan.Options) (cutplan.Made, error) {
	p, err := cutplan.ForLayout(l, o, f.Curves())
	if err != nil {
		return cutplan.Made{}, err
	}
	return handOver(p, w, f, o)
}

// WriteSheet plans a sheet and writes its cut file, as Write does.
func WriteSheet(s cutplan.Sheet, w io.Writer, f Format, o cutplan.Options) (cutplan.Made, error) {
	p, err := cutplan.New(s, o, f.Curves())
	if err != nil {
		return cutplan.Made{}, err
	}
	return handOver(p, w, f, o)
}

// WritePlan writes the cut file of a plan that was made with the format's kind of curve, as Write does.
func WritePlan(p *cutplan.Plan, w io.Writer, f Format) (cutplan.Made, error) {
	return handOver(p, w, f, cutplan.Options{})
}

// handOver encodes a plan, reads it back and writes it.
func handOver(p *cutplan.Plan, w io.Writer, f Format, o cutplan.Options) (cutplan.Made, error) {
	data, err := Encode(p, f)
	if err != nil {
		return cutplan.Made{}, err
	}
	o.Progress.At(partWritten)
	if err := ReadBack(p, f, data); err != nil {
		return cutplan.Made{}, err
	}
	o.Progress.At(1)
	if _, err = w.Write(data); err != nil {
		return cutplan.Made{}, err
	}
	return p.Made, nil
}

// SVG writes the cut file as SVG with the usual furniture.
func SVG(l *pattern.Layout, w io.Writer) (cutplan.Made, error) {
	return Write(l, w, FormatSVG, cutplan.Defaults())
}

// Encode writes a plan, made with the format's kind of curve, in a format.
func Encode(p *cutplan.Plan, f Format) ([]byte, error) {
	r, err := f.row()
	if err != nil {
		return nil, err
	}
	for _, c := range p.Contours {
		for _, q := range c.Path.Pieces {
			if q.Kind != curve.Line && q.Kind != r.curves {
				return nil, fmt.Errorf("the plan was made with the wrong kind of curve for %s", f)
			}
		}
	}
	return r.encode(p)
}

// ReadBack parses a file again and says where it differs from the plan.
func ReadBack(p *cutplan.Plan, f Format, data []byte) error {
	r, err := f.row()
	if err != nil {
		return err
	}
	got, err := r.read(data)
	if err == nil {
		err = compare(meant(p, r.layer), got)
	}
	if err != nil {
		return fmt.Errorf("the %s file that was written does not say what was meant, so it is not handed over: %w",
			strings.ToUpper(string(f)), err)
	}
	return nil
}
