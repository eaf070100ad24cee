package main

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/plates"
	"openwork/pattern/progress"
	"openwork/pattern/stepping"
)

// stepsInput asks for a draft's stepping sheet and the map of its places.
type stepsInput struct {
	cutting
	Sheets choices[stepping.Options] `json:"sheets"` // without Cut
	Paper  string                    `json:"paper"`  // that the map is printed on; empty: A4, or Letter in inches

	mapPath, font, repeats string
}

func (*stepsInput) usual() *stepsInput {
	return &stepsInput{cutting: usualCutting(), Sheets: choices[stepping.Options]{what: "the sheets"}}
}

func (in *stepsInput) declare(f flagSet) {
	f.StringVar(&in.path, "o", "", "the file to write; "+itsEnding())
	in.cutting.declare(f)

	in.choose(f)
	f.StringVar(&in.mapPath, "map", "", "the PDF to write the map of the places to")
	f.StringVar(&in.Paper, "paper", "", "of the map: A4, A3, Letter or Tabloid; otherwise A4, or Letter in inches")
	fontFlag(f, &in.font)
}

// choose declares the flags of the sheet itself.
func (in *stepsInput) choose(f flagSet) {
	o := &in.Sheets.options
	bedFlag(f, &o.Bed)
	f.StringVar(&in.repeats, "repeats", "",
		"cells along a and b on the stepping sheet, as 2x3, or most for as many as fit the bed; otherwise the "+
			"smallest piece")
	f.StringVar(&o.Lays, "lays", "", "fewest: the repeats on a sheet that fits the bed and is laid least often")
	f.BoolVar(&o.Plates, "plates", false,
		"a sheet for each colour, -1, -2 and so on before the ending, all laid by the same marks")
	f.Float64Var(&o.Margin, "margin", 0, "of sheet round the stepping sheet's openings, in mm; 0: 20")
}

func (in *stepsInput) take(path string) error {
	check := holding
	if in.Sheets.options.Plates {
		check = eachPlateHolds(plates.Options{})
	}
	if err := in.takeChecked(path, check); err != nil {
		return err
	}
	if err := lettered(&in.Sheets.options.Lettering, in.font, in.draft.Title); err != nil {
		return err
	}
	if in.mapPath != "" {
		if err := isPDF("steps' map", in.mapPath); err != nil {
			return err
		}
	}
	return in.chosen()
}

// chosen reads the repeats that are asked for.
func (in *stepsInput) chosen() error {
	o := &in.Sheets.options
	switch in.repeats {
	case "":
		return nil
	case "most":
		o.Most = true
		return nil
	}
	a, b, err := twoNumbers(in.repeats)
	if o.Repeats = [2]int{int(a), int(b)}; err == nil && (float64(o.Repeats[0]) != a || float64(o.Repeats[1]) != b) {
		err = fmt.Errorf("%w: repeats are counted in whole numbers, as 2x3", errUsage)
	}
	return err
}

// twoNumbers reads "600x900".
func twoNumbers(s string) (a, b float64, err error) {
	left, right, ok := strings.Cut(strings.ToLower(s), "x")
	if ok {
		if a, err = strconv.ParseFloat(left, 64); err == nil {
			b, err = strconv.ParseFloat(right, 64)
		}
	}
	if !ok || err != nil {
		return 0, 0, fmt.Errorf("%w: %.40q is not two numbers; write them as 600x900", errUsage, s)
	}
	return a, b, nil
}

// bedFlag declares -bed; what it sets is nil until it is given.
func bedFlag(f flagSet, bed **draft.Bed) {
	const usage = "what the machine takes, in mm, either way round: 600x900; otherwise the draft's sheet.bed"
	f.Func("bed", usage, func(s string) error {
		w, h, err := twoNumbers(s)
		*bed = &draft.Bed{Width: w, Height: h}
		return err
	})
}

// stepsOutput is the map of the places, and what the cut file holds.
type stepsOutput struct {
	*stepping.Stepping
	Type string       `json:"type"`
	Made cutplan.Made `json:"made"` // of plates the first one's
	// Files are those of plates, end to end; none where one sheet serves for all colours.
	Files []steppedPlate `json:"files,omitempty"`
	Map   int            `json:"mapFrom"` // where in the block of bytes the map, a PDF, begins: after the cut files

	data []byte
}

// steppedPlate is the cut file of one colour's stepping sheet.
type steppedPlate struct {
	Plate int `json:"plate"`
	filePart
}

// run makes a draft's stepping sheet: its cut file and its map, end to end.
func (in *stepsInput) run(report progress.Func) (*stepsOutput, error) {
	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	format, cut := in.asked(nil)
	o := in.Sheets.options
	o.Cut = cut
	inOneUnit(&o.Units, &o.Cut.Units, &in.Paper)
	s, err := stepping.Steps(l, o, report.Within(0, 0.8))
	if err != nil {
		return nil, err
	}

	var b bytes.Buffer
	out := &stepsOutput{Stepping: s, Type: format.Type()}
	if len(s.Plates) == 0 {
		if out.Made, err = s.Write(&b, format); err != nil {
			return nil, err
		}
	}
	for k, p := range s.Plates {
		file, err := appendFile(&b, func(w io.Writer) (cutplan.Made, error) { return s.WritePlate(p, w, format) })
		if err != nil {
			return nil, fmt.Errorf("plate %d, %s: %w", p.Number, p.Name, err)
		}
		if k == 0 {
			out.Made = file.Made
		}
		out.Files = append(out.Files, steppedPlate{p.Number, file})
	}
	out.Map = b.Len()
	if err := s.Map(&b, in.Paper); err != nil {
		return nil, err
	}
	report.At(1)
	out.data = b.Bytes()
	return out, nil
}

func (s *stepsOutput) block() []byte { return s.data }

func (s *stepsOutput) files(in *stepsInput) []outFile {
	out := []outFile{{in.path, s.data[:s.Map]}}
	if len(s.Files) > 0 {
		out = nil
	}
	for _, p := range s.Files {
		out = append(out, outFile{numbered(in.path, p.Plate), p.in(s.data)})
	}
	if in.mapPath != "" {
		out = append(out, outFile{in.mapPath, s.data[s.Map:]})
	}
	return out
}
