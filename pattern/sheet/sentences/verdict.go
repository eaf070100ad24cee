package sentences

import (
	"strings"

	"openwork/pattern"
	"openwork/pattern/sheet"
)

// Verdict is how a sheet stands, in a word for a program and in plain words for a person.
type Verdict struct {
	State string `json:"state"` // "empty", "waiting", "holds", "fails" or "error"
	Head  string `json:"head"`
	Line  string `json:"line"`
	// Link are the words at the end of the line that lead to a step of the job, and Step is its name; "" for none.
	Link string `json:"link"`
	Step string `json:"step"`
}

// Scope is how much of the panel a report speaks of.
type Scope struct {
	// Cell: of one cell and its neighbours, each thing once for all its images; the rest is still to be looked at. The
	// narrowest bridge is then of those between copies only.
	Cell bool
	// Frame: of the whole panel, looked at in one frame. The narrowest bridge is then of those between openings only.
	Frame bool
	// Partial: something was not looked at, so that there may be more of everything and nothing is promised.
	Partial bool

	Rest string // the sentence that says what is still to come; "" for none
}

// Verdict says how the sheet stands by a report, whose problems make these faults. It holds when the report counts no
// fault. Within the cell alone nothing is promised: the state is then "waiting".
func (w Words) Verdict(r sheet.Report, faults []Fault, scope Scope) Verdict {
	v := w.stands(r, faults, scope)
	if scope.Rest != "" {
		v.Line += " " + scope.Rest
	}
	return v
}

func (w Words) stands(r sheet.Report, faults []Fault, scope Scope) Verdict {
	n, _ := r.Count(sheet.Fault)
	switch {
	case r.Of(sheet.Empty, sheet.Fault).Count > 0:
		v := Verdict{State: "empty", Head: "Nothing would be cut.", Line: pattern.Sentence(w.Empty(sheet.Problem{})),
			Link: "Step 3, panel", Step: "panel"}
		if len(w.Draft.Motifs) == 0 {
			v.Head, v.Link, v.Step = "Nothing to cut yet.", "", ""
		} else if r.Counts.Copies > 0 {
			v.Line, v.Link, v.Step = "Every opening on the panel is covered by ties: take some of them out.", "", ""
		}
		return v
	case n > 0:
		v := Verdict{State: "fails", Head: "Does not hold yet.", Line: w.count(r, faults, sheet.Fault, scope)}
		if OnlyUnmeasured(r) {
			v.Head = "Not certain yet."
			v.Line = Unmeasured(r) + ": move or redraw a little what lies there. " +
				w.well(r, "Elsewhere nothing", scope)
		}
		return v
	}

	v := Verdict{State: "holds", Head: "This sheet holds.", Line: w.well(r, "Nothing", scope)}
	switch {
	case scope.Partial:
		v = Verdict{State: "waiting", Head: "No fault so far.", Line: w.well(r, "Nothing seen so far", scope)}
	case scope.Cell:
		v = Verdict{State: "waiting", Head: "No fault so far.", Line: w.well(r, "In the cell nothing", scope)}
	}
	if said := w.count(r, faults, sheet.Warning, scope); said != "" {
		v.Line += " " + said
	}
	if r.Of(sheet.Size, sheet.Warning).Count > 0 {
		v.Line += " The sheet is larger than the bed: lay it with a stepping sheet or in joined parts,"
		v.Link, v.Step = "both in the step Make", "make"
	}
	return v
}

// Unmeasured says how many places could not be measured, without a full stop.
func Unmeasured(r sheet.Report) string {
	t := r.Of(sheet.Unclear, sheet.Fault)
	said := sheet.Count(t.Count, "place", "places") + " could not be measured"
	if t.AtLeast {
		said = "At least " + said
	}
	return said
}

// OnlyUnmeasured reports whether nothing is at fault but places that could not be measured.
func OnlyUnmeasured(r sheet.Report) bool {
	n, _ := r.Count(sheet.Fault)
	return n > 0 && n == r.Of(sheet.Unclear, sheet.Fault).Count
}

// well says that nothing is at fault, and the narrowest bridge.
func (w Words) well(r sheet.Report, nothing string, scope Scope) string {
	said := nothing + " runs together or drops out"
	between := ""
	switch {
	case scope.Cell:
		between = " between copies"
	case scope.Frame:
		between = " between openings"
	}
	if d := Narrowest(r); d != nil {
		said += "; the narrowest bridge" + between + " is " + w.Measure(*d) + ", at least " +
			w.Length(w.Draft.Sheet.Bridge) + " needed"
	}
	return said + "."
}

// Narrowest is the narrowest bridge of a report, between openings or within one; nil when there is none.
func Narrowest(r sheet.Report) *float64 {
	if d := r.NarrowestWithin; d != nil && (r.NarrowestBetween == nil || *d < *r.NarrowestBetween) {
		return d
	}
	return r.NarrowestBetween
}

// count says how many faults or warnings there are, and at how many places, kind by kind, each with its worst figure;
// "" when there are none. Notes are not counted.
func (w Words) count(r sheet.Report, faults []Fault, severity sheet.Severity, scope Scope) string {
	var said []string
	for _, t := range counted(r, severity) {
		said = append(said, w.total(r, t))
	}
	if len(said) == 0 {
		return ""
	}
	list := sheet.List(said)
	lead := Places(r, faults, severity)
	switch {
	case scope.Cell:
		list = "in the cell: " + list
	case scope.Partial:
		list = "at least so far: " + list
	case strings.Contains(lead, "place"):
		list = lead + ": " + list
	}
	if ListedInPart(r, severity) {
		list += ". Of each kind the " + sheet.Number(sheet.MaxListed) + " worst are listed"
	}
	return pattern.Sentence(list)
}

// Places says how many faults or warnings there are and at how many places, in a few words: "4 faults at 85 places",
// "3 faults" where each shows at one; "faults at 12,400 places" where there are more than are told apart. "" when there
// are none.
func Places(r sheet.Report, faults []Fault, severity sheet.Severity) string {
	n, more := Different(faults, severity)
	places, exact := 0, true
	for _, t := range counted(r, severity) {
		places += t.Count
		exact = exact && !t.AtLeast
	}
	noun := string(severity)
	at := sheet.Count(places, "place", "places")
	if !exact {
		at += " or more"
	}
	switch {
	case places == 0:
		return ""
	case more || ListedInPart(r, severity) || !exact:
		return noun + "s at " + at
	case n == places:
		return sheet.Count(n, noun, noun+"s")
	}
	return sheet.Count(n, noun, noun+"s") + " at " + at
}

// counted returns the totals of a severity, without notes, in the order of what matters most.
func counted(r sheet.Report, severity sheet.Severity) (out []sheet.Total) {
	for _, kind := range sheet.Kinds() {
		t := r.Of(kind, severity)
		if t.Count > 0 && !(sheet.Problem{Kind: kind, Severity: severity}).IsNote() {
			out = append(out, t)
		}
	}
	return out
}

// ListedInPart reports whether there are more problems of a severity than are listed, of some kind.
func ListedInPart(r sheet.Report, severity sheet.Severity) bool {
	for _, t := range counted(r, severity) {
		if t.Count > sheet.MaxListed {
			return true
		}
	}
	return false
}

// total counts the problems of a kind and says the worst figure.
func (w Words) total(r sheet.Report, t sheet.Total) string {
	words := sheet.SpeechOf(t.Kind, t.Severity)
	said := sheet.Count(t.Count, words.One, words.Many)
	if t.AtLeast {
		said = "at least " + said
	}
	if words.Worst == nil {
		return said
	}
	worst, found := 0.0, false
	for _, p := range r.Problems {
		if p.Kind != t.Kind || p.Severity != t.Severity {
			continue
		}
		if p.Kind == sheet.Opening && p.Measured == 0 {
			return said // an opening too narrow as a whole has no figure
		}
		if !found || p.Measured < worst {
			worst, found = p.Measured, true
		}
	}

	if !found {
		return said
	}
	return said + " (" + words.Worst(w.Words, t.Count, worst) + ")"
}
