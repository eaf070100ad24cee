package subject

import (
	"fmt"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
)

// CheckMask goes over the sheet of a mask as over any other, in words for a mask. A piece that a hole of the subject
// leaves inside the mask is waste, and no island: it is not among the problems.
func CheckMask(mask draft.Draft) (sheet.Report, error) {
	l, err := pattern.NewLayout(mask, nil)
	if err != nil {
		return sheet.Report{}, err
	}
	r, err := panel.Check(l)
	if err != nil {
		return sheet.Report{}, err
	}

	kept := []sheet.Problem{}
	for _, p := range r.Problems {
		switch p.Kind {
		case sheet.Island:
			continue
		case sheet.Opening:
			p.Text = fmt.Sprintf("The mask narrows to %.3g mm here; a strip of this sheet narrower than %g mm tears.",
				p.Measured, p.Required)
			if p.Measured == 0 {
				p.Text = fmt.Sprintf("A part of the mask is nowhere as wide as %g mm, and tears.", p.Required)
			}
		case sheet.Release:
			continue // no paste comes into it
		}
		p.Mend = nil
		kept = append(kept, p)
	}
	totals := []sheet.Total{}
	faults := 0
	for _, t := range r.Totals {
		if t.Kind == sheet.Island || t.Kind == sheet.Release {
			continue
		}
		if totals = append(totals, t); t.Severity == sheet.Fault {
			faults += t.Count
		}
	}
	r.Problems, r.Totals, r.Sound, r.Counts.Islands = kept, totals, faults == 0, 0
	return r, nil
}
