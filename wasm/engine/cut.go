package main

import (
	"bytes"
	"io"

	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/progress"
)

// cutInput asks for a draft's cut file.
type cutInput struct {
	cutting
	Mask   bool    `json:"mask"`   // the subjects' mask, in place of the stencil
	Growth float64 `json:"growth"` // mm by which the mask is larger than its subject
	font   string
}

func (*cutInput) usual() *cutInput { return &cutInput{cutting: usualCutting()} }

func (in *cutInput) declare(f flagSet) {
	f.StringVar(&in.path, "o", "", "the file to write; "+itsEnding())
	in.cutting.declare(f)
	in.maskFlags(f)
	fontFlag(f, &in.font)
}

func (in *cutInput) take(path string) error {
	take := in.cutting.take
	if in.Mask {
		take = in.takeMask
	}
	if err := take(path); err != nil {
		return err
	}
	drawn := &in.Cut.options.Lettering
	return letteredFor(drawn, in.font, cutplan.Lacks(in.draft.Title, *drawn))
}

// cutOutput is a cut file and what it holds, of which a command line prints that alone.
type cutOutput struct {
	Made     cutplan.Made `json:"made"`
	Notes    []string     `json:"notes"`
	Openings int          `json:"openings"`
	Type     string       `json:"type"`

	data []byte
}

// run writes a draft's cut file.
func (in *cutInput) run(report progress.Func) (*cutOutput, error) {
	if in.Mask {
		return in.runMask(report)
	}
	l, err := in.layout()
	if err != nil {
		return nil, err
	}

	format, o := in.asked(report)
	var b bytes.Buffer
	made, err := cutfile.Write(l, &b, format, o)
	return &cutOutput{Made: made, Notes: made.Notes, Openings: made.Openings, Type: format.Type(), data: b.Bytes()}, err
}

func (c *cutOutput) block() []byte { return c.data }

func (c *cutOutput) files(in *cutInput) []outFile { return []outFile{{in.path, c.data}} }

func (c *cutOutput) print(out io.Writer) error { return printJSON(out, c.Made) }
