package main

import (
	"bytes"

	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/progress"
	"openwork/pattern/subject"
)

// maskFlags declares what makes a cut file one of the mask.
func (in *cutInput) maskFlags(f flagSet) {
	f.BoolVar(&in.Mask, "mask", false,
		"the subjects' mask in place of the stencil: of those behind which the pattern runs "+
			"on, or of all; with the stencil's own registration marks")
	f.Float64Var(&in.Growth, "growth", 0,
		"by how much the mask is larger than its subject all round, in mm; less than "+
			"0: smaller. It is not the room that the pattern keeps")
}

// maskHolds looks whether the sheet of a draft's mask holds; see holding.
func (in *cutInput) maskHolds(d draft.Draft, unsound bool) ([]string, error) {
	mask, err := subject.Mask(d, in.Growth)
	if err != nil {
		return nil, err
	}
	r, err := subject.CheckMask(mask)
	if err != nil {
		return nil, err
	}
	return reasonsOf(r, unsound)
}

// runMask writes the mask's cut file: on the stencil's sheet, with the marks where the stencil's plan has them.
func (in *cutInput) runMask(report progress.Func) (*cutOutput, error) {
	mask, err := subject.Mask(in.draft, in.Growth)
	if err != nil {
		return nil, err
	}
	stencil, err := sheetOf(in.draft)
	if err != nil {
		return nil, err
	}
	s, err := sheetOf(mask)
	if err != nil {
		return nil, err
	}
	s.Field = stencil.Field
	report.At(0.3)

	out := &cutOutput{}
	if in.path == "" { // for the page, which has not asked before
		r, err := subject.CheckMask(mask)
		if err != nil {
			return nil, err
		}
		if !r.Sound {
			in.Unsound = r.Reasons()
		}
	}
	format, o := in.asked(report.Within(0.3, 1))
	marks, err := cutplan.Registration(stencil, o)
	if err != nil {
		return nil, err
	}
	if o.Holes.At = marks; marks == nil {
		o.Holes.Diameter = 0
	}
	fixed := o.Fixings
	o.Fixings = cutplan.Fixings{}
	o.Weed, o.LeadIn = -1, 0 // what drops out is no waste here: nothing may be cut into it

	var b bytes.Buffer
	made, err := cutfile.WriteSheet(s, &b, format, o)
	if err == nil && fixed != o.Fixings {
		made.Notes = append(made.Notes,
			"Holes for pins, hanging or a frame are in the stencil alone; the mask falls in "+
				"place by the registration marks.")
	}
	if in.path == "" && len(in.Unsound) > 0 {
		made.Notes = append([]string{"The sheet of the mask does not hold, and the file says so:"},
			append(in.Unsound, made.Notes...)...)
	}
	out.Made, out.Notes, out.Openings, out.Type, out.data = made, made.Notes, made.Openings, format.Type(), b.Bytes()
	return out, err
}

// sheetOf returns the sheet of a draft, its openings united.
func sheetOf(d draft.Draft) (cutplan.Sheet, error) {
	l, err := layoutOf(d)
	if err != nil {
		return cutplan.Sheet{}, err
	}
	return cutplan.OfLayout(l)
}
