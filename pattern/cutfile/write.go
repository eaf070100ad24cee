package cutfile

import (
	"fmt"
	"io"
	"strings"

	"openwork/geometry/curve"
	"openwork/pattern"
)

// Format of a cut file.
type Format string

// The formats.
const (
	FormatSVG Format = "svg"
	FormatDXF Format = "dxf"
	FormatPDF Format = "pdf"
)

// FormatOf returns the format that a file's name asks for by its ending.
func FormatOf(name string) (Format, error) {
	for _, f := range []Format{FormatSVG, FormatDXF, FormatPDF} {
		if strings.HasSuffix(strings.ToLower(name), "."+string(f)) {
			return f, nil
		}
	}
	return "", fmt.Errorf("a cut file ends in .svg, .dxf or .pdf, and %.60q does not", name)
}

// Type returns the format's media type.
func (f Format) Type() string {
	switch f {
	case FormatDXF:
		return "image/vnd.dxf"
	case FormatPDF:
		return "application/pdf"
	}
	return "image/svg+xml"
}

// Formats returns the formats, the usual one first.
func Formats() []Format { return []Format{FormatSVG, FormatDXF, FormatPDF} }

// Named lists the formats' names with something before each, and something else between the last two than between others.
func Named(between, last, before string) string {
	out := ""
	for k, f := range Formats() {
		switch k {
		case 0:
		case len(Formats()) - 1:
			out += last
		default:
			out += between
		}
		out += before + string(f)
	}
	return out
}

// Write writes the cut file of a layout's sheet. The file is read again before it is handed over, and compared with the job
// by contours, areas, lengths and extents of each layer: where they differ there is an error and no file.
func Write(l *pattern.Layout, w io.Writer, f Format, o Options) (Made, error) {
	kind := curve.Cubic
	if f == FormatDXF {
		kind = curve.Arc
	}
	j, err := Build(l, o, kind)
	if err != nil {
		return Made{}, err
	}
	return handOver(j, w, f, o)
}

// handOver encodes a job, reads it back and writes it.
func handOver(j *Job, w io.Writer, f Format, o Options) (Made, error) {
	data, err := Encode(j, f)
	if err != nil {
		return Made{}, err
	}
	o.Progress.At(partWritten)
	if err := ReadBack(j, f, data); err != nil {
		return Made{}, err
	}
	o.Progress.At(1)
	if _, err = w.Write(data); err != nil {
		return Made{}, err
	}
	return j.Made, nil
}

// SVG writes the cut file as SVG with the usual furniture.
func SVG(l *pattern.Layout, w io.Writer) (Made, error) { return Write(l, w, FormatSVG, Defaults()) }

// Encode writes a job in a format. A job for DXF has arcs, one for SVG or PDF cubic curves.
func Encode(j *Job, f Format) ([]byte, error) {
	for _, c := range j.Contours {
		for _, p := range c.Path.Pieces {
			if p.Kind == curve.Cubic && f == FormatDXF || p.Kind == curve.Arc && f != FormatDXF {
				return nil, fmt.Errorf("the job was made with the wrong kind of curve for %s", f)
			}
		}
	}
	switch f {
	case FormatSVG:
		return svg(j), nil
	case FormatDXF:
		return dxf(j), nil
	case FormatPDF:
		return pdf(j)
	}
	return nil, fmt.Errorf("there is no format %.20q; there are svg, dxf and pdf", string(f))
}

// ReadBack parses a file again and says where it differs from the job.
func ReadBack(j *Job, f Format, data []byte) error {
	var got *contents
	var err error
	switch f {
	case FormatSVG:
		got, err = readSVG(data)
	case FormatDXF:
		got, err = readDXF(data)
	default:
		got, err = readPDF(data)
	}
	if err == nil {
		err = compare(meant(j), got)
	}
	if err != nil {
		return fmt.Errorf("the %s file that was written does not say what was meant, so it is not handed over: %w", strings.ToUpper(string(f)), err)
	}
	return nil
}
