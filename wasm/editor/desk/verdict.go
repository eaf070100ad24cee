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
func (k *Session) verdict() Verdict {
	switch {
	case k.asking != nil:
		return Verdict{State: "error", Head: "Cannot be laid out.", Line: pattern.Sentence(k.asking.text)}
	case len(k.Draft().Motifs) == 0:
		return Verdict{State: "empty", Head: "Nothing to cut yet.", Line: "Bring in a drawing, or open a draft."}
	case k.reportErr != "":
		return Verdict{State: "error", Head: "Not checked.", Line: pattern.Sentence(k.reportErr)}
	case k.report != nil:
		return k.words().Verdict(*k.report, say.WithoutStrips(k.groups), sentences.Scope{})
	case k.seen != nil:
		return k.seenVerdict(k.seen)
	}
	rest := "The whole panel is being looked at."
	if k.InHand() {
		rest = "The edges are looked at when you let go."
	}
	if k.live.Partial {
		rest = "More copies lie close together than can be looked at at once. " + rest
	}
	return k.words().Verdict(k.liveReport(), say.WithoutStrips(k.shown()), sentences.Scope{Cell: true, Rest: rest})
}

// seenVerdict says what a frame's look at the whole panel showed. Where that was all of it, it is what the check in the
// engine will say; where not, the line says so, and nothing is said to hold.
func (k *Session) seenVerdict(r *whole.Report) Verdict {
	scope := sentences.Scope{Frame: true}
	if r.Partial {
		scope.Partial = true
		scope.Rest = "Where openings run together or the edge cuts them, not all is looked at yet" + k.whenRest()
	}
	return k.words().Verdict(r.Report, say.WithoutStrips(k.shown()), scope)
}

// whenRest says when the engine looks at the rest.
func (k *Session) whenRest() string {
	if k.InHand() {
		return "; that is done when you let go."
	}
	return "; that is being done."
}

// known is the report on the whole panel as it is now: the engine's, or what a frame's look at all of it showed; nil when there
// is none.
func (k *Session) known() *sheet.Report {
	switch {
	case k.report != nil:
		return k.report
	case k.seen != nil && !k.seen.Partial:
		return &k.seen.Report
	}
	return nil
}

// liveReport is what the cell and its neighbours show, each thing once for all its images.
func (k *Session) liveReport() sheet.Report {
	var r sheet.Report
	var listing sheet.Listing
	for _, p := range k.liveProblems() {
		listing.Add(p)
	}
	if k.live.Partial && len(k.live.Overlaps) > 0 {
		listing.Count(sheet.Overlap, sheet.Fault, 0, false)
	}
	r.Problems, r.Totals = listing.Result()
	if k.live.Narrowest.Found {
		r.NarrowestBetween = &k.live.Narrowest.D
	}
	n, _ := r.Count(sheet.Fault)
	r.Sound = n == 0
	return r
}
