package main

import (
	"fmt"
	"strings"

	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// holding looks whether a draft's sheet holds before it is cut. Where it does not, the error is errUnsound with the
// reasons; with unsound it is nil, and the sentences are those that the cut file carries. A panel without an opening is
// refused either way: there is nothing to cut.
func holding(d draft.Draft, unsound bool) ([]string, error) {
	r, err := checkReport(d)
	if err != nil {
		return nil, err
	}
	return reasonsOf(r, unsound)
}

// reasonsOf is holding for a report that is known.
func reasonsOf(r sheet.Report, unsound bool) ([]string, error) {
	switch {
	case r.Sound:
		return nil, nil
	case r.Of(sheet.Empty, sheet.Fault).Count > 0:
		return nil, fmt.Errorf("%w, and no file was written:\n%s", errUnsound, reasonLines(r))
	case unsound:
		return r.Reasons(), nil
	}
	return nil, fmt.Errorf("%w, and no file was written (with -unsound it would be):\n%s", errUnsound, reasonLines(r))
}

// maxPlaces faults of a kind are listed with their places, the worst of them; the rest are counted.
const maxPlaces = 5

// reasonLines are the lines that tell a person why a sheet does not hold: for each kind how many there are, and below
// it where the worst are.
func reasonLines(r sheet.Report) string {
	var out []string
	for _, k := range r.Faults(maxPlaces) {
		switch head := k.Count(); {
		case len(k.Worst) == 0:
			out = append(out, head)
		case k.Total.Count > len(k.Worst):
			out = append(out, head+", the worst:")
		default:
			out = append(out, head+":")
		}
		for _, p := range k.Worst {
			out = append(out, fmt.Sprintf("  at (%.1f, %.1f) mm: %s", p.At[0], p.At[1], p.Text))
		}
	}
	return strings.Join(out, "\n")
}
