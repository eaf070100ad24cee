package main

import (
	"fmt"
	"strings"

	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/link"
	"openwork/pattern/measure"
	"openwork/pattern/paper"
	"openwork/pattern/progress"
)

// cutting is what the inputs of the verbs that write cut files have in common.
type cutting struct {
	drafted
	Format cutfile.Format           `json:"format"` // empty: the first of the table
	Cut    choices[cutplan.Options] `json:"cut"`
	// why the sheet does not hold, as the person knows; the cut file carries it
	Unsound []string `json:"unsound"`

	path string
	even bool // write the file though the sheet does not hold
}

func usualCutting() cutting {
	return cutting{Cut: choices[cutplan.Options]{cutplan.Defaults(), "the cut file"}}
}

func (in *cutting) declare(f flagSet) {
	o := &in.Cut.options
	optionsFlag(f, "cut file", o)
	f.BoolVar(&o.Polygons, "polygons", false, "straight edges only, no curves")
	f.Float64Var(&o.Tolerance, "tolerance", 0, "how far curves may lie from the outlines, in mm, from 0.001; 0: 0.02")
	f.StringVar((*string)(&o.Order), "order", "",
		"of cutting: short or spread; otherwise spread for thin film and card under a laser")
	f.Float64Var(&o.Apart, "apart", 0,
		"how far two cuts in a row lie apart, in mm, so that none is hot; 0: by the order")
	f.StringVar(&o.Colours.Cut, "cut-colour", "", "of the layer cut, as #rrggbb")
	f.StringVar(&o.Colours.Score, "score-colour", "", "of the layer score")
	f.StringVar(&o.Colours.Mark, "mark-colour", "", "of the layer mark")
	for _, l := range []struct {
		name string
		line *cutplan.Line
	}{{"cut", &o.Lines.Cut}, {"score", &o.Lines.Score}, {"mark", &o.Lines.Mark}} {
		f.Float64Var(&l.line.Width, l.name+"-width", 0, "of the lines of the layer "+l.name+", in mm; 0: 0.025")
		f.StringVar(&l.line.Name, l.name+"-layer", "", "what the layer "+l.name+" is called in the file")
	}
	f.Float64Var(&o.Holes.Diameter, "holes", o.Holes.Diameter, "diameter of the registration holes in mm; 0: none")
	f.StringVar((*string)(&o.Holes.Layer), "holes-on", string(o.Holes.Layer), "the layer they are on: cut, or mark")
	x := &o.Fixings
	f.IntVar(&x.Pins.Count, "pins", 0,
		"holes for pins near the corners: 2, 3 or 4, one round, the others slots; 0: none")
	f.Float64Var(&x.Pins.Diameter, "pin", 0, "diameter of the pin holes in mm; 0: 6")
	f.Float64Var(&x.Pins.Slot, "slot", 0, "by how much slots are longer than wide, in mm; 0: 4; -1: all round")
	f.IntVar(&x.Hang.Count, "hang", 0, "holes to hang the sheet by, in its upper margin; 0: none")
	f.Float64Var(&x.Hang.Diameter, "hang-hole", 0, "diameter of these in mm; 0: 5")
	f.Float64Var(&x.Frame.Apart, "frame", 0, "holes for a frame along all sides, so many mm apart at most; 0: none")
	f.Float64Var(&x.Frame.Diameter, "frame-hole", 0, "diameter of these in mm; 0: 3")
	f.Float64Var(&o.Label.Height, "label", o.Label.Height, "height of the label's letters in mm; 0: no label")
	f.StringVar((*string)(&o.Label.Layer), "label-on", string(o.Label.Layer), "the layer it is on: mark, score or cut")
	f.StringVar(&o.Label.Date, "date", "", "the date on the label and in the file")
	f.StringVar(&o.Units, "units", "", "of figures on labels and maps, in the file and in sentences: mm or in")
	f.StringVar(&o.Link, "address", "", "of the page that opens links, for the draft's link in the file")
	f.BoolVar(&o.Bar, "bar", o.Bar, "a check bar of 100 mm")
	f.Float64Var(&o.Overcut, "overcut", 0,
		"how far a contour is cut on past where it began, in mm; 0: 0.3 for a knife; less: none")
	f.Float64Var(&o.Weed, "weed", 0, "between lines that part the waste, in mm; 0: 100 for a knife; less: none")
	f.IntVar(&o.Tabs.Number, "tabs", 0, "that hold what drops out, of each contour; 0: 2 for a waterjet; less: none")
	f.Float64Var(&o.Tabs.Width, "tab", 0, "width of a tab, in mm; 0: 0.8")
	f.Float64Var(&o.LeadIn, "lead-in", 0,
		"how far the beam runs in from inside the waste, in mm; 0: it begins on the contour")
	f.StringVar((*string)(&o.Trim), "trim", "", "where the stock's edge is the sheet's: mark draws the outline on "+
		"the layer mark, none leaves it out; otherwise it is cut")
	f.BoolVar(&o.Mirrored, "mirrored", false,
		"for cutting from the back; words stay readable from there, and a mark says so")
	f.BoolVar(&in.even, "unsound", false, "write the file even though the sheet does not hold; it carries the reasons")
}

// itsEnding is said of a file to write.
func itsEnding() string { return "its ending says what it is: " + cutfile.Named(", ", " or ", "") }

func (in *cutting) take(path string) error { return in.takeChecked(path, holding) }

// takeChecked is take with another check of whether what is cut holds.
func (in *cutting) takeChecked(path string, check func(draft.Draft, bool) ([]string, error)) (err error) {
	if err := in.drafted.take(path); err != nil {
		return err
	}
	if err = in.byEnding(); err != nil {
		return err
	}
	in.Unsound, err = check(in.draft, in.even)
	return err
}

// byEnding takes the format from the file's ending.
func (in *cutting) byEnding() (err error) {
	if in.Format, err = cutfile.FormatOf(in.path); err != nil {
		return fmt.Errorf("%w: %w; give -o FILE.svg", errUsage, err)
	}
	return nil
}

// linked returns the link that opens a draft: what the page gives, which is the address that links open behind or a
// whole link, and what is missing after it. A draft that has none gives none.
func linked(address string, d draft.Draft) string {
	if strings.Contains(address, "#") {
		return address
	}
	s, err := link.Encode(d)
	if err != nil {
		return ""
	}
	return address + s
}

// inOneUnit gives the sheets and their cut files the unit of whichever says one, and the map the paper that is usual
// with it where none is asked for.
func inOneUnit(sheets, cut, on *string) {
	if *sheets == "" {
		*sheets = *cut
	}
	if *cut == "" {
		*cut = *sheets
	}
	if *on == "" {
		*on = paper.Usual(*sheets == measure.Inches)
	}
}

// asked returns the format, and what the shop asks for with the reasons why the sheet does not hold.
func (in cutting) asked(report progress.Func) (cutfile.Format, cutplan.Options) {
	o := in.Cut.options
	o.Unsound = append(o.Unsound, in.Unsound...)
	o.Progress = report
	o.Link = linked(o.Link, in.draft)
	if in.Format == "" {
		return cutfile.Formats()[0], o
	}
	return in.Format, o
}
