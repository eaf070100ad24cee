package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"openwork/pattern/cutplan"
	"openwork/pattern/progress"
	"openwork/pattern/study/pages"
)

// studyInput asks for the full-scale study.
type studyInput struct {
	drafted
	Study choices[pages.Options] `json:"study"`

	path, font string
}

func (*studyInput) usual() *studyInput {
	return &studyInput{Study: choices[pages.Options]{pages.Defaults(), "the study"}}
}

func (in *studyInput) declare(f flagSet) {
	f.StringVar(&in.path, "o", "", "the PDF to write")

	o := &in.Study.options
	optionsFlag(f, "study", o)
	fontFlag(f, &in.font)
	f.StringVar(&o.Paper, "paper", "", "A4, A3, Letter or Tabloid; otherwise A4, or Letter in inches")
	f.StringVar(&o.Units, "units", "", "of figures and rules: mm or in")
	f.StringVar(&o.Way, "way", o.Way, "how pages lie: upright, lying, or fewer for whichever needs fewer pages")
	f.Float64Var(&o.Margin, "margin", o.Margin, "that the printer leaves on every side, in mm")
	f.Float64Var(&o.Overlap, "overlap", o.Overlap, "of neighbouring pages, in mm")
	f.Float64Var(&o.Correction, "correction", o.Correction,
		"for a printer that is off, in percent: 3.09 where it makes 97 mm of 100")
	f.StringVar((*string)(&o.Draw), "draw", string(o.Draw), "the openings: outlines, light or full")
	f.BoolVar(&o.Pattern, "pattern", o.Pattern, "the openings at all")
	f.BoolVar(&o.Cell, "cell", o.Cell, "the cells of the repeat")
	f.BoolVar(&o.Key, "key", o.Key, "openings numbered by their colour, so that one stencil serves for all colours")
	f.BoolVar(&o.Marks, "marks", o.Marks, "crop and joining marks")
}

func (in *studyInput) take(path string) error {
	if err := in.drafted.take(path); err != nil {
		return err
	}
	if err := lettered(&in.Study.options.Lettering, in.font, in.draft.Title); err != nil {
		return err
	}
	return isPDF("study", in.path)
}

// isPDF says when the file asked for is none.
func isPDF(verb, path string) error {
	if strings.ToLower(filepath.Ext(path)) != ".pdf" {
		return fmt.Errorf("%w: %s writes a PDF; give -o FILE.pdf", errUsage, verb)
	}
	return nil
}

// printed is a PDF and what it holds, of which a command line prints that alone.
type printed[Made any] struct {
	Made  Made   `json:"made"`
	Pages int    `json:"pages"`
	Type  string `json:"type"`

	data []byte
}

func (p printed[Made]) block() []byte { return p.data }

func (p printed[Made]) print(out io.Writer) error { return printJSON(out, p.Made) }

// studied is the output of study.
type studied struct{ printed[pages.Made] }

func (s *studied) files(in *studyInput) []outFile { return []outFile{{in.path, s.data}} }

// run writes the panel at full scale over ordinary pages.
func (in *studyInput) run(report progress.Func) (*studied, error) {
	l, err := in.layout()
	if err != nil {
		return nil, err
	}

	o := in.Study.options
	o.Progress = report
	if len(in.draft.Subjects) > 0 { // subject, mask and stencil fall together on the panel by these
		if s, err := cutplan.OfLayout(l); err == nil {
			o.Registration, _ = cutplan.Registration(s, cutplan.Defaults())
		}
	}
	var b bytes.Buffer
	made, err := pages.Write(l, &b, o)
	return &studied{printed[pages.Made]{made, made.Pages, pdfType, b.Bytes()}}, err
}

// pdfType is PDF's media type.
const pdfType = "application/pdf"
