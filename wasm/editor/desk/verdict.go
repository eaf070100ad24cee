package desk

import (
	"openwork/pattern"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/sentences"
	"openwork/pattern/sheet/whole"
	"openwork/wasm/editor/desk/say"
)

// Verdict is how the sheet stands, in a word for the page and in plain words for the person.
type Verdict = sentences.Verdict

// verdict says how the sheet stands now. While the whole panel has not been gone through it says what the cell shows,
// and that the rest is still to come: it never shows a state that is no longer true.
func (s *Session) verdict() Verdict {
	switch {
	case s.refusal != nil:
		return Verdict{State: "error", Head: "Cannot be laid out.", Line: pattern.Sentence(s.refusal.Error())}
	case len(s.Draft().Motifs) == 0:
		return Verdict{State: "empty", Head: "Nothing to cut yet.", Line: "Bring in a drawing, or open a draft."}
	case s.reportErr != "":
		return Verdict{State: "error", Head: "Not checked.", Line: pattern.Sentence(s.reportErr)}
	case s.report != nil:
		return s.words().Verdict(*s.report, say.WithoutStrips(s.faults()), sentences.Scope{})
	case s.Seen() != nil:
		return s.seenVerdict(s.Seen())
	}

	rest := "The whole panel is being looked at."
	if s.InHand() {
		rest = "The edges are looked at when you let go."
	}
	if s.Live().Partial {
		rest = "More copies lie close together than can be looked at at once. " + rest
	}
	return s.words().Verdict(s.liveReport(), say.WithoutStrips(s.shown()), sentences.Scope{Cell: true, Rest: rest})
}

// seenVerdict says what a frame's look at the whole panel showed. Where that was all of it, it is what the check in the
// engine will say; where not, the line says so, and nothing is said to hold.
func (s *Session) seenVerdict(r *whole.Report) Verdict {
	scope := sentences.Scope{Frame: true}
	if r.Partial {
		scope.Partial = true
		scope.Rest = "Where openings run together or the edge cuts them, not all is looked at yet" + s.whenRest()
	}
	return s.words().Verdict(r.Report, say.WithoutStrips(s.shown()), scope)
}

// whenRest says when the engine looks at the rest.
func (s *Session) whenRest() string {
	if s.InHand() {
		return "; that is done when you let go."
	}
	return "; that is being done."
}

// known is the report on the whole panel as it is now: the engine's, or what a frame's look at all of it showed; nil
// when there is none.
func (s *Session) known() *sheet.Report {
	switch {
	case s.report != nil:
		return s.report
	case s.Seen() != nil && !s.Seen().Partial:
		return &s.Seen().Report
	}
	return nil
}

// liveReport is what the cell and its neighbours show, each thing once for all its images.
func (s *Session) liveReport() sheet.Report {
	var r sheet.Report
	var listing sheet.Listing
	for _, p := range s.liveProblems() {
		listing.Add(p)
	}
	if s.Live().Partial && len(s.Live().Overlaps) > 0 {
		listing.Count(sheet.Overlap, sheet.Fault, 0, false)
	}

	r.Problems, r.Totals = listing.Result()
	if n := s.Live().Narrowest; n.Found {
		r.NarrowestBetween = &n.D
	}

	n, _ := r.Count(sheet.Fault)
	r.Sound = n == 0
	return r
}
