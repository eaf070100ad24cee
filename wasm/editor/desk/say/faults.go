package say

import (
	"fmt"

	"openwork/pattern/sheet"
	"openwork/pattern/sheet/sentences"
)

// Fault is a fault or warning of the repeat and the places where it shows on the panel, or a weak strip of the sheet.
type Fault struct {
	sentences.Fault
	Strip *sheet.Strip // of a weak strip, nil for all else
}

// Note is the severity of what asks for no change of the pattern: weak strips, and a sheet larger than the bed.
const Note = "note"

// WeakKind is a strip that bends: the editor's own kind, listed after the faults and warnings.
const WeakKind sheet.Kind = "weak"

// maxStrips is how many strips are listed as weak.
const maxStrips = 3

// Severity is "fault", "warning" or "note".
func (f Fault) Severity() string {
	if f.Strip != nil || f.First.IsNote() {
		return Note
	}
	return string(f.First.Severity)
}

// Gather puts together problems that are one fault, as sentences.Gather does.
func Gather(problems []sheet.Problem) []Fault {
	gathered := sentences.Gather(problems)
	out := make([]Fault, len(gathered))
	for i, f := range gathered {
		out[i].Fault = f
	}
	return out
}

// Weakest makes notes of the strips that bend the most, the first of a list.
func Weakest(strips []sheet.Strip) []Fault {
	var out []Fault
	for _, s := range strips[:min(len(strips), maxStrips)] {
		p := sheet.Problem{Kind: WeakKind, Severity: sheet.Warning, At: s.At, Measured: s.Width, Ends: &s.Ends}
		out = append(out, Fault{sentences.Fault{First: p, Places: []sheet.Problem{p}}, &s})
	}
	return out
}

// WithoutStrips returns the faults and warnings of a list, without the weak strips.
func WithoutStrips(list []Fault) []sentences.Fault {
	out := make([]sentences.Fault, 0, len(list))
	for _, f := range list {
		if f.Strip == nil {
			out = append(out, f.Fault)
		}
	}
	return out
}

// Row is a fault's line in the list.
func (w Words) Row(f Fault) string {
	if f.Strip != nil {
		return w.strip(*f.Strip)
	}
	return w.Fault(f.Fault)
}

// strip says how a strip bends.
func (w Words) strip(s sheet.Strip) string {
	held := "held at both ends"
	if s.Free {
		held = "held at one end only"
	}

	text := fmt.Sprintf("Long strip of sheet, %s by %s, %s times as long as wide, %s",
		w.Length(s.Length), w.Measure(s.Width), sheet.Trim(s.Length/s.Width, 0), held)
	if s.InPlane != nil && s.Lifted != nil {
		text += fmt.Sprintf("; a newton (a push of 100 g) moves it about %s sideways and %s out of the sheet",
			w.Measure(*s.InPlane), w.Measure(*s.Lifted))
	}
	return text + ". One of the weakest places; compare, do not trust the figure."
}

// Label is the word beside the sign of a problem or a weak strip; "" for none.
func (w Words) Label(p sheet.Problem) string {
	if p.Kind == WeakKind {
		return "long strip " + w.Measure(p.Measured)
	}
	return w.Words.Label(p)
}

// Places says at how many places a fault shows, where that is more than one. r is the report on the whole panel, nil
// while there is none. last is set for the last row of a kind and severity: of what is not listed, which is none the
// worse, some may be the same, and a row that stands for the rest has it all.
func Places(f Fault, last bool, r *sheet.Report) string {
	n, orMore := len(f.Places), false
	if last && r != nil {
		total := r.Of(f.First.Kind, f.First.Severity)
		unlisted := max(0, total.Count-sheet.MaxListed)
		orMore = total.AtLeast
		if f.More {
			n += unlisted
		} else {
			orMore = orMore || unlisted > 0
		}
	}

	switch {
	case orMore:
		return "at " + sheet.Count(n, "place", "places") + " or more"
	case n < 2:
		return ""
	}
	return "at " + sheet.Count(n, "place", "places")
}
