package desk

import (
	"strings"

	"openwork/pattern"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/sentences"
	"openwork/pattern/sheet/whole"
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
		return k.words().Verdict(*k.report, told(k.groups), sentences.Scope{})
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
	return k.words().Verdict(k.liveReport(), told(k.shown()), sentences.Scope{Cell: true, Rest: rest})
}

// seenVerdict says what a frame's look at the whole panel showed. Where that was all of it, it is what the check in the
// engine will say; where not, the line says so, and nothing is said to hold.
func (k *Session) seenVerdict(r *whole.Report) Verdict {
	scope := sentences.Scope{Frame: true}
	if r.Partial {
		scope.Partial = true
		scope.Rest = "Where openings run together or the edge cuts them, not all is looked at yet" + k.whenRest()
	}
	return k.words().Verdict(r.Report, told(k.shown()), scope)
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

// readiness is what the closed last step of the ticket says.
func (k *Session) readiness() string {
	v := k.verdict()
	switch {
	case v.State == "empty":
		return strings.TrimSuffix(v.Head, ".")
	case k.report == nil:
		return "Cut file and picture"
	case v.State == "holds":
		said := "Ready to cut: " + count(k.report.Counts.Openings, "opening", "openings")
		if k.report.Of(sheet.Size, sheet.Warning).Count > 0 {
			said += "; larger than the bed"
		}
		return said
	case sentences.OnlyUnmeasured(*k.report):
		return "Not certain: " + sentences.Unmeasured(*k.report)
	}
	return "Not ready: " + sentences.Places(*k.report, told(k.groups), sheet.Fault)
}

// whichState is how the way through the faults is named: all of them, or the one that is gone to. Where it is narrow the
// noun is left out.
type whichState struct {
	Noun string `json:"noun"`
	Rest string `json:"rest"`
	All  string `json:"all"` // a line over the whole list
}

// which names the rows that are shown: faults where there are any, else warnings, else notes.
func (k *Session) which(groups []faultGroup, at int) whichState {
	out := whichState{All: k.allText(groups)}
	rows, before := map[string]int{}, 0
	for i, g := range groups {
		rows[g.severity()]++
		if i <= at && g.severity() == groups[at].severity() {
			before++
		}
	}
	if at >= 0 {
		name := groups[at].severity()
		out.Noun, out.Rest = name+" ", sheet.Number(before)+" of "+sheet.Number(rows[name])
		return out
	}
	for _, severity := range []string{string(sheet.Fault), string(sheet.Warning), note} {
		if rows[severity] > 0 {
			out.Rest = k.rowsText(groups, severity)
			return out
		}
	}
	return out
}

// rowsText counts the faults, warnings or notes of a list: "1 fault", "over 20 warnings" where some are not told apart or not listed.
func (k *Session) rowsText(groups []faultGroup, severity string) string {
	n, over := 0, ""
	if r := k.known(); r != nil && sentences.ListedInPart(*r, sheet.Severity(severity)) {
		over = "over "
	}
	for _, g := range groups {
		switch {
		case g.severity() != severity:
		case g.more:
			over = "over "
		default:
			n++
		}
	}
	return over + count(n, severity, severity+"s")
}

// allText says what the list holds: "4 faults at 85 places, 2 warnings and 3 notes".
func (k *Session) allText(groups []faultGroup) string {
	var parts []string
	if r := k.known(); r != nil {
		for _, severity := range []sheet.Severity{sheet.Fault, sheet.Warning} {
			if said := sentences.Places(*r, told(groups), severity); said != "" {
				parts = append(parts, said)
			}
		}
	} else {
		for _, severity := range []sheet.Severity{sheet.Fault, sheet.Warning} {
			if said := k.rowsText(groups, string(severity)); !strings.HasPrefix(said, "no ") {
				parts = append(parts, said+" so far")
			}
		}
	}
	if said := k.rowsText(groups, note); !strings.HasPrefix(said, "no ") {
		parts = append(parts, said)
	}
	return pattern.Sentence(sheet.List(parts))
}
