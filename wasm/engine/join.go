package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/joined"
	"openwork/pattern/plates"
	"openwork/pattern/progress"
)

// joinInput asks for a draft's sheet in parts.
type joinInput struct {
	cutting
	Sheets choices[joined.Options] `json:"sheets"` // without Cut
	Paper  string                  `json:"paper"`  // that the map is printed on; empty: A4, or Letter in inches

	mapPath, font string
}

func (*joinInput) usual() *joinInput {
	return &joinInput{cutting: usualCutting(), Sheets: choices[joined.Options]{what: "the sheets"}}
}

func (in *joinInput) declare(f flagSet) {
	f.StringVar(&in.path, "o", "",
		"the files to write; -1, -2 and so on come before the ending, which says what they are: "+
			cutfile.Named(", ", " or ", ""))
	in.cutting.declare(f)
	bedFlag(f, &in.Sheets.options.Bed)
	f.BoolVar(&in.Sheets.options.Plates, "plates", false,
		"the parts of each colour by themselves: -1-2 before the ending is part 2 of plate 1")
	overTiesFlags(f, &in.Sheets.options.OverTies, &in.Sheets.options.Lap)
	f.StringVar(&in.mapPath, "map", "", "the PDF to write the assembly map to")
	f.StringVar(&in.Paper, "paper", "", "of the map: A4, A3, Letter or Tabloid; otherwise A4, or Letter in inches")
	fontFlag(f, &in.font)
}

func (in *joinInput) take(path string) error {
	check, o := holding, in.Sheets.options
	switch {
	case o.OverTies && !o.Plates:
		return errNotPlates
	case o.Plates:
		check = eachPlateHolds(plates.Options{OverTies: o.OverTies, Lap: o.Lap})
	}
	if err := in.takeChecked(path, check); err != nil {
		return err
	}
	if err := lettered(&in.Sheets.options.Lettering, in.font, in.draft.Title); err != nil || in.mapPath == "" {
		return err
	}
	return isPDF("join's map", in.mapPath)
}

// joinOutput is the parts, the joints, and where in the block of bytes each part's cut file and the assembly map stand.
type joinOutput struct {
	*joined.Joined
	Type  string     `json:"type"`
	Files []joinFile `json:"files"`
	Map   int        `json:"mapFrom"` // where in the block of bytes the map, a PDF, begins: after the cut files

	data []byte
}

// joinFile is the cut file of one part.
type joinFile struct {
	Part  int `json:"part"`
	Plate int `json:"plate,omitempty"` // 0 where there are none
	filePart
}

// run divides a draft's sheet, and writes the parts' cut files end to end.
func (in *joinInput) run(report progress.Func) (*joinOutput, error) {
	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	format, cut := in.asked(nil)
	o := in.Sheets.options
	o.Cut = cut
	inOneUnit(&o.Units, &o.Cut.Units, &in.Paper)
	j, err := joined.Join(l, o, report.Within(0, 0.7))
	if err != nil {
		return nil, err
	}

	out := &joinOutput{Joined: j, Type: format.Type(), Files: []joinFile{}}
	var all bytes.Buffer
	if len(j.Plates) == 0 {
		for k, p := range j.Parts {
			file, err := appendFile(&all, func(w io.Writer) (cutplan.Made, error) { return j.Write(k, w, format) })
			if err != nil {
				return nil, err
			}
			out.Files = append(out.Files, joinFile{p.Number, 0, file})
			report.Within(0.7, 1).Of(k+1, len(j.Parts))
		}
	}
	for i, plate := range j.Plates {
		for k, p := range plate.Parts {
			file, err := appendFile(&all, func(w io.Writer) (cutplan.Made, error) {
				return j.WritePlate(plate, k, w, format)
			})
			if err != nil {
				return nil, fmt.Errorf("plate %d, %s: %w", plate.Number, plate.Name, err)
			}
			out.Files = append(out.Files, joinFile{p.Number, plate.Number, file})
		}
		report.Within(0.7, 1).Of(i+1, len(j.Plates))
	}

	out.Map = all.Len()
	if err := j.Map(&all, in.Paper); err != nil {
		return nil, err
	}
	out.data = all.Bytes()
	return out, nil
}

func (j *joinOutput) block() []byte { return j.data }

func (j *joinOutput) files(in *joinInput) []outFile {
	var out []outFile
	for _, p := range j.Files {
		path := in.path
		if p.Plate > 0 {
			path = numbered(path, p.Plate)
		}
		out = append(out, outFile{numbered(path, p.Part), p.in(j.data)})
	}
	if in.mapPath != "" {
		out = append(out, outFile{in.mapPath, j.data[j.Map:]})
	}
	return out
}

// numbered returns a path with a number before its ending: a-2.svg.
func numbered(path string, n int) string {
	ending := filepath.Ext(path)
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(path, ending), n, ending)
}
