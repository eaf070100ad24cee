package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"openwork/pattern/progress"
	"openwork/pattern/study"
)

// pictureInput asks for a picture of the painted panel: PNG, or SVG where the file on a command line ends in it.
type pictureInput struct {
	drafted
	Options study.Options `json:"picture"`

	path string
	draw func() ([]byte, error) // nil: a PNG
}

func (in *pictureInput) declare(f flagSet) {
	f.StringVar(&in.path, "o", "", "the PNG or SVG to write")
	f.IntVar(&in.Options.Width, "width", 1200, "of the picture, in px, up to 8000")
	f.StringVar(&in.Options.Base, "base", "", "colour of the bare panel, as #rrggbb")
	f.StringVar(&in.Options.Paint, "paint", "", "colour of the paste, as #rrggbb")
	f.BoolVar(&in.Options.Flat, "flat", false, "in plain colours, without the paste standing out")
	f.BoolVar(&in.Options.Bar, "bar", false, "draw a scale bar")
	f.StringVar(&in.Options.Units, "units", "", "of the bar: mm or in")
	f.StringVar(&in.Options.View, "view", "", "of colours: values, or 2, 3, 5 or 9 for values in so many steps; "+
		"protan, deutan or tritan for the three kinds of colour blindness")
	f.BoolVar(&in.Options.Edge, "edge", false, "draw the sheet's edge, and the field's with dashes")
}

func (in *pictureInput) take(path string) error {
	if err := in.drafted.take(path); err != nil {
		return err
	}
	switch strings.ToLower(filepath.Ext(in.path)) {
	case ".png":
	case ".svg":
		in.draw = in.svg
	default:
		return fmt.Errorf("%w: picture writes PNG or SVG; give -o FILE.png or -o FILE.svg", errUsage)
	}
	return nil
}

func (in *pictureInput) svg() ([]byte, error) {
	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = study.SVG(l, &b)
	return b.Bytes(), err
}

// painted is a picture; nothing is printed of it.
type painted struct {
	Type string `json:"type"`

	data []byte
}

func (*pictureInput) usual() *pictureInput { return &pictureInput{} }

// run draws what the painted panel will look like.
func (in *pictureInput) run(report progress.Func) (*painted, error) {
	if in.draw != nil {
		data, err := in.draw()
		return &painted{"image/svg+xml", data}, err
	}

	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	in.Options.Progress = report
	err = study.Picture(l, in.Options, &b)
	return &painted{"image/png", b.Bytes()}, err
}

func (p *painted) block() []byte { return p.data }

func (p *painted) files(in *pictureInput) []outFile { return []outFile{{in.path, p.data}} }

func (p *painted) print(io.Writer) error { return nil }
