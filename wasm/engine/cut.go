package main

import (
	"bytes"
	"fmt"
	"io"

	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/progress"
)

// cutInput asks for a draft's cut file.
type cutInput struct {
	cutting
	Plates bool    `json:"plates"` // a file for each colour
	Mask   bool    `json:"mask"`   // the subjects' mask, in place of the stencil
	Growth float64 `json:"growth"` // mm by which the mask is larger than its subject

	OverTies bool    `json:"overTies"` // further plates that open where the ties of others show
	Lap      float64 `json:"lap"`      // mm by which those reach into the openings beside a tie

	font string
}

func (*cutInput) usual() *cutInput { return &cutInput{cutting: usualCutting()} }

func (in *cutInput) declare(f flagSet) {
	f.StringVar(&in.path, "o", "", "the file to write; "+itsEnding())
	in.cutting.declare(f)
	in.maskFlags(f)
	f.BoolVar(&in.Plates, "plates", false,
		"a file for each colour, -1, -2 and so on before the ending, all with registration at the same places")
	overTiesFlags(f, &in.OverTies, &in.Lap)
	fontFlag(f, &in.font)
}

func (in *cutInput) take(path string) error {
	check := holding
	switch {
	case in.Mask && in.Plates:
		return fmt.Errorf("%w: a mask is one file, and plates are others; ask for one of the two", errUsage)
	case in.OverTies && !in.Plates:
		return errNotPlates
	case in.Mask:
		check = in.maskHolds
	case in.Plates:
		check = in.platesHold
	}
	if err := in.takeChecked(path, check); err != nil {
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
	Plates   []plateFile  `json:"plates,omitempty"` // with what is asked for by colour

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

	if in.Plates {
		return in.plates(l, report)
	}
	format, o := in.asked(report)
	var b bytes.Buffer
	made, err := cutfile.Write(l, &b, format, o)
	return &cutOutput{Made: made, Notes: made.Notes, Openings: made.Openings, Type: format.Type(), data: b.Bytes()}, err
}

func (c *cutOutput) block() []byte { return c.data }

func (c *cutOutput) files(in *cutInput) []outFile {
	if !in.Plates {
		return []outFile{{in.path, c.data}}
	}
	var out []outFile
	for _, p := range c.Plates {
		out = append(out, outFile{numbered(in.path, p.Number), p.in(c.data)})
	}
	return out
}

func (c *cutOutput) print(out io.Writer) error {
	if c.Plates != nil {
		return printJSON(out, c.Plates)
	}
	return printJSON(out, c.Made)
}
