package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/nest"
	"openwork/pattern/plates"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
	"openwork/pattern/stepping"
)

// nestInput asks for sheets, or parts of them, laid on stock.
type nestInput struct {
	cutting
	Stock  nest.Stock                `json:"stock"`
	Copies int                       `json:"copies"` // 0: 1
	As     string                    `json:"as"`     // steps or join; empty: the whole sheet
	Sheets choices[stepping.Options] `json:"sheets"` // bed, repeats and the like of these; units
	Also   []nestAlso                `json:"also"`   // other drafts on the same stock, whole

	steps stepsInput
}

// nestAlso is another draft, and how often its sheet is wanted.
type nestAlso struct {
	Text   string `json:"draft"`
	Copies int    `json:"copies"`

	draft draft.Draft
}

func (*nestInput) usual() *nestInput {
	return &nestInput{cutting: usualCutting(), Stock: nest.Stock{Edge: 5, Space: 3}, Copies: 1,
		Sheets: choices[stepping.Options]{what: "the sheets"}, steps: *new(stepsInput).usual()}
}

func (in *nestInput) open() error {
	for i := range in.Also {
		if err := decode(in.Also[i].Text, &in.Also[i].draft); err != nil {
			return err
		}
	}
	return in.cutting.open()
}

func (in *nestInput) declare(f flagSet) {
	f.StringVar(&in.path, "o", "",
		"the files to write, one for each sheet of stock; -1, -2 and so on come before the ending, which says what "+
			"they are: "+cutfile.Named(", ", " or ", ""))
	in.cutting.declare(f)
	f.Func("stock", "how large a sheet of stock is, in mm: 1200x900", func(s string) (err error) {
		in.Stock.Width, in.Stock.Height, err = twoNumbers(s)
		return err
	})
	f.IntVar(&in.Stock.Count, "stocks", 0, "how many sheets of stock there are; 0: as many as are needed")
	f.Float64Var(&in.Stock.Edge, "edge", in.Stock.Edge, "left along the stock's sides, in mm")
	f.Float64Var(&in.Stock.Space, "space", in.Stock.Space, "left between pieces, in mm")
	f.IntVar(&in.Copies, "copies", 1, "how often the sheet, or each of its parts, is wanted")
	f.StringVar(&in.As, "as", "", "how the sheet is made: steps or join, as the verbs do; otherwise whole")
	f.Func("with", "another draft, whose whole sheet is laid on the same stock, and how often: FILE=2; may be repeated",
		func(s string) error {
			name, count := s, "1"
			if k := strings.LastIndexByte(s, '='); k >= 0 {
				name, count = s[:k], s[k+1:]
			}
			n, err := strconv.Atoi(count)
			if err != nil {
				return fmt.Errorf("%w: %.40q is not a number of copies; write it as FILE=2", errUsage, count)
			}
			d, err := readDraft(name)
			in.Also = append(in.Also, nestAlso{Copies: n, draft: d})
			return err
		})
	in.steps.choose(f)
}

func (in *nestInput) take(path string) error {
	check := holding
	if in.steps.Sheets.options.Plates {
		check = eachPlateHolds(plates.Options{})
	}
	if err := in.takeChecked(path, check); err != nil {
		return err
	}
	for _, a := range in.Also {
		unsound, err := holding(a.draft, in.even)
		if err != nil {
			return err
		}
		in.Unsound = append(in.Unsound, unsound...)
	}
	if err := in.steps.chosen(); err != nil {
		return err
	}
	in.Sheets.options = in.steps.Sheets.options
	return nil
}

// nestOutput is where the pieces lie, and where in the block of bytes the cut file of each sheet of stock stands.
type nestOutput struct {
	nest.Nesting
	Pieces []nest.Piece `json:"pieces"`
	Type   string       `json:"type"`
	Files  []nestFile   `json:"files"`
	Chosen []string     `json:"chosen"` // for the job sheet: what is cut from what
	Notes  []string     `json:"notes"`

	data []byte
}

// nestFile is the cut file of one sheet of stock.
type nestFile struct {
	Sheet int `json:"sheet"`
	filePart
}

// run lays the pieces on stock and writes a cut file for each sheet of it.
func (in *nestInput) run(report progress.Func) (*nestOutput, error) {
	format, cut := in.asked(nil)
	plans, pieces, err := in.plans(format, cut)
	if err != nil {
		return nil, err
	}
	report.At(0.6)
	n, err := nest.Pack(in.Stock, pieces)
	if err != nil {
		return nil, err
	}
	report.At(0.8)

	out := &nestOutput{Nesting: n, Pieces: pieces, Type: format.Type(), Files: []nestFile{}, Notes: []string{}}
	var all bytes.Buffer
	for k, s := range n.Sheets {
		var lying []cutplan.Lying
		for _, p := range s {
			lying = append(lying, cutplan.Lying{Plan: plans[p.Piece], At: orb.Point(p.At), Quarters: p.Turns()})
		}
		title := in.draft.Title
		if len(n.Sheets) > 1 {
			title += fmt.Sprintf(", sheet %d of %d", k+1, len(n.Sheets))
		}
		plan := cutplan.Gather(title, in.Stock.Width, in.Stock.Height, lying)
		file, err := appendFile(&all, func(w io.Writer) (cutplan.Made, error) {
			return cutfile.WritePlan(plan, w, format)
		})
		if err != nil {
			return nil, err
		}
		out.Files = append(out.Files, nestFile{k + 1, file})
		report.Within(0.8, 1).Of(k+1, len(n.Sheets))
	}
	out.data = all.Bytes()
	out.say(in)
	return out, nil
}

// say sets the sentences on what lies where.
func (n *nestOutput) say(in *nestInput) {
	u := sheet.Unit{Inches: in.Sheets.options.Units == "in"}
	var what []string
	for i, p := range n.Pieces {
		if done := p.Count - n.Left[i]; done > 0 {
			what = append(what, fmt.Sprintf("%d × %s, %s", done, p.Name, u.Size(p.Width, p.Height)))
		}
		if n.Left[i] > 0 {
			n.Notes = append(n.Notes, fmt.Sprintf("%d of %d × %s found no room on the stock there is.", n.Left[i],
				p.Count, p.Name))
		}
	}
	n.Chosen = []string{fmt.Sprintf("Cut from %s of %s, %s from the sides and %s apart: %s.",
		sheet.Count(len(n.Sheets), "sheet of stock", "sheets of stock"), u.Size(in.Stock.Width, in.Stock.Height),
		u.Measure(in.Stock.Edge), u.Measure(in.Stock.Space), strings.Join(what, "; "))}
	if in.Cut.options.Trim != cutplan.TrimCut {
		n.Notes = append(n.Notes, "Outlines are cut: what is cut from a larger stock has none of its edge.")
	}
	if len(n.Sheets) > n.Bound {
		n.Notes = append(n.Notes, fmt.Sprintf("%d sheets of stock at least are needed by area; on fewer than %d no "+
			"way was found.", n.Bound, len(n.Sheets)))
	}
}

func (n *nestOutput) block() []byte { return n.data }

func (n *nestOutput) files(in *nestInput) []outFile {
	ending := filepath.Ext(in.path)
	var out []outFile
	for _, f := range n.Files {
		name := fmt.Sprintf("%s-%d%s", strings.TrimSuffix(in.path, ending), f.Sheet, ending)
		out = append(out, outFile{name, f.in(n.data)})
	}
	return out
}
