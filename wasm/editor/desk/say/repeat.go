package say

import (
	"fmt"
	"math"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// Fit says how whole repeats of a lay fill the field, and how much is left over.
func (w Words) Fit(lay string) string {
	fit, l, ok := pattern.RepeatsOf(w.Draft, lay)
	if !ok {
		return "The field is turned, so that whole repeats do not run along its sides."
	}

	if math.Mod(math.Abs(w.Draft.Field.Turn)+45, 180) > 90 { // a quarter turn: the repeat's height runs across
		l.Width, l.Height = l.Height, l.Width
	}

	across, a := w.fitSide(fit.Across, l.Width)
	down, b := w.fitSide(fit.Down, l.Height)
	switch {
	case a && b:
		return fmt.Sprintf("%s across and %s down fill the field exactly.", across, down)
	case a:
		return fmt.Sprintf("%s across fill the width exactly; down there are %s.", across, down)
	case b:
		return fmt.Sprintf("%s down fill the height exactly; across there are %s.", down, across)
	}
	return fmt.Sprintf("Across there are %s; down, %s.", across, down)
}

// fitSlack in mm is half the hundredth of a millimetre that a fit leaves after rounding, on both ends of a side.
const fitSlack = 0.01

// fitSide writes how many repeats of a size fill a side, and whether they do so exactly.
func (w Words) fitSide(n, size float64) (string, bool) {
	whole := math.Round(n)
	if whole >= 1 && math.Abs(n-whole)*size < fitSlack {
		return sheet.Trim(whole, 0), true
	}
	whole = math.Floor(n)
	return fmt.Sprintf("%s and %s left over", sheet.Trim(whole, 0), w.Measure((n-whole)*size)), false
}

const (
	// samePercent is below what a change of a side is written as none, at one decimal.
	samePercent = 0.05
	// sameRatio is how much both sides' changes may differ by and be one change of size: far below what is written.
	sameRatio = 1e-6
)

// Resized says how much the cell changed, for the commands that set it to fit.
func Resized(was, is draft.Repeat) string {
	part := func(a, b float64, more, less string) string {
		p := (b/a - 1) * 100
		switch {
		case math.Abs(p) < samePercent:
			return ""
		case p > 0:
			return sheet.Trim(p, 1) + " % " + more
		}
		return sheet.Trim(-p, 1) + " % " + less
	}

	height := func(r draft.Repeat) float64 { return r.Cell().Area() / r.A }

	var words []string
	for _, w := range []string{
		part(was.A, is.A, "wider", "narrower"),
		part(height(was), height(is), "higher", "lower"),
	} {
		if w != "" {
			words = append(words, w)
		}
	}
	if len(words) == 0 {
		return "The cell fits as it is."
	}

	if w, h := is.A/was.A, height(is)/height(was); math.Abs(w-h) < sameRatio {
		return "The cell is " + part(was.A, is.A, "larger", "smaller") + "."
	}
	return "The cell is " + sheet.List(words) + "."
}
