package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/plates"
	"openwork/pattern/progress"
)

// plateFile is the cut file of one colour, and where it stands in the block of bytes.
type plateFile struct {
	plates.Plate
	filePart
}

// plates writes a cut file for each colour, end to end. What was said against the whole sheet is said against those
// plates that do not hold, each in its own words.
func (in *cutInput) plates(l *pattern.Layout, report progress.Func) (*cutOutput, error) {
	found, err := plates.Of(l, in.plateOptions(), report.Within(0, 0.5))
	if err != nil {
		return nil, err
	}
	format, o := in.asked(nil)
	out := &cutOutput{Type: format.Type(), Notes: []string{}, Plates: []plateFile{}}
	var all bytes.Buffer
	for i, p := range found {
		o.Unsound = p.Reasons
		file, err := appendFile(&all, func(w io.Writer) (cutplan.Made, error) {
			return cutfile.WriteSheet(p.Sheet, w, format, o)
		})
		if err != nil {
			return nil, fmt.Errorf("plate %d, %s: %w", p.Number, p.Name, err)
		}
		out.Plates = append(out.Plates, plateFile{p, file})
		out.Openings += file.Made.Openings
		for _, n := range file.Made.Notes {
			out.Notes = append(out.Notes, fmt.Sprintf("Plate %d, %s: %s", p.Number, p.Name, n))
		}
		if !p.Sound {
			out.Notes = append(out.Notes, fmt.Sprintf("Plate %d, %s, does not hold: %s", p.Number, p.Name,
				strings.Join(p.Reasons, " ")))
		}
		out.Notes = append(out.Notes, tiedNote(p)...)
		report.Within(0.5, 1).Of(i+1, len(found))
	}
	out.data = all.Bytes()
	return out, nil
}

// tiedNote says what becomes of a plate's ties.
func tiedNote(p plates.Plate) []string {
	if p.Ties.Number == 0 {
		return nil
	}
	count := func(n int, one, many string) string {
		if n == 1 {
			return "1 " + one
		}
		return fmt.Sprintf("%d %s", n, many)
	}
	var said []string
	if n := p.Ties.Under; n > 0 {
		said = append(said, count(n, "lies", "lie")+" under openings of plates laid later")
	}
	if n := p.Ties.Over; n > 0 {
		said = append(said, count(n, "is", "are")+" opened by the plate over them")
	}
	if n := p.Ties.Bare; n > 0 {
		said = append(said, count(n, "shows as a gap", "show as gaps")+" in the paste")
	}
	return []string{fmt.Sprintf("Plate %d, %s: of %s across its openings %s.", p.Number, p.Name,
		count(p.Ties.Number, "tie", "ties"), strings.Join(said, ", "))}
}

// plateOptions are what is asked of plates.
func (in *cutInput) plateOptions() plates.Options {
	return plates.Options{OverTies: in.OverTies, Lap: in.Lap}
}

// platesHold is holding for plates, each looked at as a sheet of its own. Each plate's file has its own reasons, so
// that none are handed on.
func (in *cutInput) platesHold(d draft.Draft, unsound bool) ([]string, error) {
	_, err := eachPlateHolds(in.plateOptions())(d, unsound)
	return nil, err
}

// eachPlateHolds returns holding for plates that are stepped, joined or nested: the reasons of all of them are said on
// each.
func eachPlateHolds(o plates.Options) func(draft.Draft, bool) ([]string, error) {
	return func(d draft.Draft, unsound bool) ([]string, error) {
		l, err := layoutOf(d)
		if err != nil {
			return nil, err
		}
		found, err := plates.Of(l, o, nil)
		if err != nil {
			return nil, err
		}
		var said []string
		for _, p := range found {
			for _, r := range p.Reasons {
				said = append(said, fmt.Sprintf("Plate %d, %s: %s", p.Number, p.Name, r))
			}
		}
		return said, refusal(found, unsound)
	}
}

// errNotPlates is the refusal of plates over ties where no plates are asked for.
var errNotPlates = fmt.Errorf("%w: -over-ties is for plates; ask for -plates too", errUsage)

// overTiesFlags declares what asks for plates over ties.
func overTiesFlags(f flagSet, overTies *bool, lap *float64) {
	f.BoolVar(overTies, "over-ties", false,
		"with -plates: a further one for each colour whose ties would show, that opens where they lie")
	f.Float64Var(lap, "lap", 0, "how far such a plate reaches into the openings beside a tie, in mm; 0: 1")
}

// platePlans returns what is cut of each plate of the colours.
func platePlans(l *pattern.Layout, cut cutplan.Options, f cutfile.Format) (out []*cutplan.Plan, err error) {
	found, err := plates.Of(l, plates.Options{}, nil)
	if err != nil {
		return nil, err
	}
	for _, one := range found {
		p, err := cutplan.New(one.Sheet, cut, f.Curves())
		if err != nil {
			return nil, fmt.Errorf("plate %d, %s: %w", one.Number, one.Name, err)
		}
		out = append(out, p)
	}
	return out, nil
}

// refusal is the error of plates that do not hold; none where they are to be cut all the same.
func refusal(found []plates.Plate, unsound bool) error {
	var reasons []string
	for _, p := range found {
		if !p.Sound {
			reasons = append(reasons, fmt.Sprintf("plate %d, %s:\n%s", p.Number, p.Name, reasonLines(p.Report)))
		}
	}
	if len(reasons) == 0 || unsound {
		return nil
	}
	return fmt.Errorf("%w, and no file was written (with -unsound it would be):\n%s", errUnsound,
		strings.Join(reasons, "\n"))
}
