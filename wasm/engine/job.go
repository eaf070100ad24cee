package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"

	"openwork/pattern/cutplan"
	"openwork/pattern/jobsheet"
	"openwork/pattern/joined"
	"openwork/pattern/progress"
	"openwork/pattern/stepping"
)

// jobInput asks for the job sheet, and says of what cut file.
type jobInput struct {
	drafted

	options jobsheet.Options
	path    string
	font    string

	as    string // steps or join; empty: the whole sheet
	steps stepsInput
}

func (*jobInput) usual() *jobInput {
	return &jobInput{options: jobsheet.Defaults(), steps: *new(stepsInput).usual()}
}

// UnmarshalJSON reads the choices for the cut file and then those for the job sheet, which may have others for the cut
// file.
func (in *jobInput) UnmarshalJSON(sent []byte) error {
	var raw struct {
		drafted
		Cut json.RawMessage `json:"cut"`
		Job json.RawMessage `json:"job"`
	}
	if err := json.Unmarshal(sent, &raw); err != nil {
		return err
	}
	in.drafted = raw.drafted

	if len(raw.Cut) > 0 {
		if err := readChoices(raw.Cut, &in.options.Cut, "the cut file"); err != nil {
			return err
		}
	}
	if len(raw.Job) > 0 {
		return readChoices(raw.Job, &in.options, "the job sheet")
	}
	return nil
}

// declare declares job's flags; those of the cut file that it goes with are cut's.
func (in *jobInput) declare(f flagSet) {
	f.StringVar(&in.path, "o", "", "the PDF to write")

	o := &in.options
	optionsFlag(f, "job sheet", o)
	fontFlag(f, &in.font)
	f.StringVar(&o.Paper, "paper", "", "A4, A3, Letter or Tabloid; otherwise A4, or Letter in inches")
	f.StringVar(&o.Units, "units", "", "of figures: mm or in")
	f.StringVar(&o.CutFile, "cut-file", "", "the name of the cut file that it goes with")
	f.Float64Var(&o.CutSpeed, "speed", o.CutSpeed, "of cutting, in mm/s; 0: by the stock and its thickness")
	f.Float64Var(&o.MarkSpeed, "mark-speed", o.MarkSpeed, "of marking and scoring, in mm/s")
	f.Float64Var(&o.Acceleration, "acceleration", o.Acceleration, "of the head, in mm/s²")
	f.Float64Var(&o.Cornering, "cornering", o.Cornering, "how far the head rounds a corner off, in mm")
	f.Float64Var(&o.Setup, "setup", o.Setup, "time to set up, in minutes")
	f.Float64Var(&o.Minimum, "minimum", 0, "charge, whatever the time")
	f.Float64Var(&o.TravelSpeed, "travel", o.TravelSpeed, "speed between cuts, in mm/s")
	f.Float64Var(&o.Pierce, "pierce", o.Pierce, "time of a piercing, in s")
	f.Float64Var(&o.Rate, "rate", 0, "of the machine, for an hour; 0: not known")
	f.Float64Var(&o.Price, "price", 0, "of the stock for this sheet")
	f.StringVar(&o.Currency, "currency", "", "of rate and price")
	f.Float64Var(&o.Density, "density", 0, "of the stock, in kg/m³; 0: by the stock's name")
	f.StringVar(&o.Address, "address", "", "of the page that opens links, for the QR code")
	f.StringVar(&o.Date, "date", "", "the date on the sheet")
	f.Float64Var(&o.Cut.Holes.Diameter, "holes", o.Cut.Holes.Diameter,
		"diameter of the cut file's registration holes in mm; 0: none")
	f.StringVar((*string)(&o.Cut.Holes.Layer), "holes-on", string(cutplan.Mark), "the layer they are on: cut, or mark")
	f.Float64Var(&o.Cut.Label.Height, "label", o.Cut.Label.Height, "height of the cut file's label in mm; 0: no label")
	f.IntVar(&o.Panels, "panels", 0, "how many panels paste is reckoned for; 0: one")
	f.StringVar((*string)(&o.Order), "lay", "",
		"the order in which plates are laid: light for light to dark, or listed; otherwise dark to light")
	f.StringVar(&in.as, "as", "", "how the sheet is made: steps or join, as the verbs do; otherwise whole")
	in.steps.choose(f)
	f.Float64Var(&o.Cut.LeadIn, "lead-in", 0, "how far the beam runs in from inside the waste, in mm; 0: not at all")
	f.StringVar((*string)(&o.Cut.Trim), "trim", "",
		"the sheet's outline is not cut: mark or none, as the verb cut has it")
	f.BoolVar(&o.Cut.Mirrored, "mirrored", false, "the cut file is mirrored, for cutting from the back")
	f.StringVar((*string)(&o.Cut.Order), "order", "", "of cutting: short or spread; otherwise by the stock")
	f.Float64Var(&o.Cut.Apart, "apart", 0,
		"how far two cuts in a row lie apart in the cut file, in mm; 0: by the order")
}

func (in *jobInput) take(path string) error {
	if err := in.drafted.take(path); err != nil {
		return err
	}
	if path != "-" {
		in.options.File = filepath.Base(path)
	}
	in.options.Cut.Label.Date = in.options.Date
	if err := lettered(&in.options.Lettering, in.font, in.draft.Title); err != nil {
		return err
	}
	if err := in.chosen(); err != nil {
		return err
	}
	return isPDF("job", in.path)
}

// chosen finds what the job sheet says of a sheet that is stepped or joined.
func (in *jobInput) chosen() error {
	if in.as == "" {
		return nil
	}
	if err := in.steps.chosen(); err != nil {
		return err
	}
	l, err := in.layout()
	if err != nil {
		return err
	}
	o := in.steps.Sheets.options
	o.Cut = in.options.Cut
	if o.Units == "" {
		o.Units = in.options.Units
	}
	switch in.as {
	case "steps":
		s, err := stepping.Steps(l, o, nil)
		if err != nil {
			return err
		}
		in.options.Chosen = s.Chosen
	case "join":
		j, err := joined.Join(l, joined.Options{Bed: o.Bed, Units: o.Units, Cut: o.Cut, Plates: o.Plates}, nil)
		if err != nil {
			return err
		}
		in.options.Chosen = j.Chosen
	default:
		return fmt.Errorf("%w: a sheet is made by steps or by join, not by %.20q", errUsage, in.as)
	}
	return nil
}

// jobOutput is the output of job.
type jobOutput struct{ printed[jobsheet.Made] }

func (j *jobOutput) files(in *jobInput) []outFile { return []outFile{{in.path, j.data}} }

// run writes the job sheet.
func (in *jobInput) run(report progress.Func) (*jobOutput, error) {
	l, err := in.layout()
	if err != nil {
		return nil, err
	}

	in.options.Progress = report
	var b bytes.Buffer
	made, err := jobsheet.Write(l, &b, in.options)
	return &jobOutput{printed[jobsheet.Made]{made, made.Pages, pdfType, b.Bytes()}}, err
}
