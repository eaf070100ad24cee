package desk

import (
	"openwork/pattern"
	"openwork/pattern/sheet"
)

// Verdict is how the sheet stands, in a word for the page and in plain words for the person.
type Verdict struct {
	State string `json:"state"` // "empty", "waiting", "holds", "fails" or "error"
	Head  string `json:"head"`
	Line  string `json:"line"`
}

// verdict says how the sheet stands now. While the whole panel has not been gone through it says what the cell shows,
// and that the rest is still to come: it never shows a state that is no longer true.
func (k *Desk) verdict() Verdict {
	switch {
	case k.asking != nil:
		return Verdict{"error", "Cannot be laid out.", pattern.Sentence(k.asking.text)}
	case len(k.Draft().Motifs) == 0:
		return Verdict{"empty", "Nothing to cut yet.", "Bring in a drawing, or open a draft."}
	case k.reportErr != "":
		return Verdict{"error", "Not checked.", pattern.Sentence(k.reportErr)}
	case k.report != nil:
		return k.panelVerdict(k.report)
	case k.seen != nil:
		return k.seenVerdict(k.seen)
	}
	head := "Holds within the cell so far."
	state := "waiting"
	if k.liveFails() {
		head, state = "Does not hold yet.", "fails"
	}
	line := k.cellLine()
	if k.InHand() {
		line += " The edges are looked at when you let go."
	} else {
		line += " The whole panel is being looked at."
	}
	return Verdict{state, head, line}
}

func (k *Desk) liveFails() bool {
	for _, p := range k.liveProblems() {
		if p.Severity == sheet.Fault {
			return true
		}
	}
	return false
}

// cellLine tells what the cell and its neighbours show.
func (k *Desk) cellLine() string {
	tally := map[sheet.Kind]int{}
	worst := map[sheet.Kind]float64{}
	for _, p := range k.liveProblems() {
		tally[p.Kind]++
		if w, ok := worst[p.Kind]; !ok || p.Measured < w {
			worst[p.Kind] = p.Measured
		}
	}
	return k.tell(tally, worst, " in a cell", k.live.Narrowest.D, k.live.Narrowest.Found)
}

// panelVerdict tells what the whole panel showed.
func (k *Desk) panelVerdict(r *sheet.Report) Verdict {
	tally := map[sheet.Kind]int{}
	worst := map[sheet.Kind]float64{}
	for _, p := range r.Problems {
		if p.Severity == sheet.Warning && p.Kind != sheet.Tip {
			continue
		}
		tally[p.Kind]++
		if w, ok := worst[p.Kind]; !ok || p.Measured < w {
			worst[p.Kind] = p.Measured
		}
	}
	d, has := 0.0, r.NarrowestBetween != nil
	if has {
		d = *r.NarrowestBetween
	}
	line := k.tell(tally, worst, "", d, has)
	if r.Sound {
		return Verdict{"holds", "This sheet holds.", line}
	}
	return Verdict{"fails", "Does not hold yet.", line}
}

// tell makes the sentences: what is wrong, the worst figure, and what is well.
func (k *Desk) tell(tally map[sheet.Kind]int, worst map[sheet.Kind]float64, where string, narrowest float64, has bool) string {
	need := k.Draft().Sheet
	var wrong []string
	if n := tally[sheet.Overlap]; n > 0 {
		wrong = append(wrong, count(n, "overlap", "overlaps")+where)
	}
	if n := tally[sheet.Island]; n > 0 {
		wrong = append(wrong, count(n, "island would drop out", "islands would drop out"))
	}
	if n := tally[sheet.Bridge]; n > 0 {
		w := " under " + k.measure(need.Bridge) + ", the narrowest " + k.measure(worst[sheet.Bridge])
		wrong = append(wrong, count(n, "bridge", "bridges")+where+w)
	}
	if n := tally[sheet.Opening]; n > 0 {
		w := count(n, "opening", "openings") + " too narrow for the paste"
		if v, ok := worst[sheet.Opening]; ok && v > 0 {
			w += " (" + k.measure(v) + ")"
		}
		wrong = append(wrong, w)
	}
	if n := tally[sheet.Edge]; n > 0 {
		wrong = append(wrong, count(n, "opening", "openings")+" too near the sheet's edge")
	}
	if tally[sheet.Size] > 0 {
		wrong = append(wrong, "the sheet does not fit the bed")
	}
	if len(wrong) > 0 {
		return pattern.Sentence(list(wrong))
	}
	line := "Nothing runs together, nothing drops out."
	if has {
		line = "The narrowest bridge is " + k.measure(narrowest) + " (at least " + k.length(need.Bridge) + " needed). " + line
	}
	if n := tally[sheet.Tip]; n > 0 {
		line += " " + pattern.Sentence(count(n, "tongue of sheet is", "tongues of sheet are")+" held at one end only")
	}
	return line
}

// groupText is one fault's line in the list.
func (k *Desk) groupText(g faultGroup) string {
	if g.strip != nil {
		return k.stripText(*g.strip)
	}
	return k.faultText(g.first)
}

// faultText is one fault's line in the list.
func (k *Desk) faultText(p sheet.Problem) string {
	need := k.Draft().Sheet
	var s string
	switch p.Kind {
	case sheet.Overlap:
		if p.Severity == sheet.Warning {
			return p.Text
		}
		s = "Two silhouettes run into each other over " + trim(p.Measured, 1) + " mm²"
	case sheet.Bridge:
		s = "Bridge of " + k.measure(p.Measured) + ", at least " + k.length(need.Bridge) + " needed"
	case sheet.Tip:
		s = "Tongue of sheet " + k.measure(p.Measured) + " wide, held at one end only"
	case sheet.Island:
		s = "Island of " + trim(p.Measured, 1) + " mm²: a piece of sheet that would drop out"
	case sheet.Opening:
		switch {
		case p.Measured == 0:
			return p.Text
		case p.Severity == sheet.Warning:
			s = "Opening runs out in a tail " + k.measure(p.Measured) + " wide; paste needs " + k.length(need.Opening)
		default:
			s = "Opening narrows to " + k.measure(p.Measured) + "; paste needs " + k.length(need.Opening)
		}
	case sheet.Edge:
		if p.Measured < 0 {
			s = "Opening leaves the sheet by " + k.measure(-p.Measured)
		} else {
			s = "Opening " + k.measure(p.Measured) + " from the sheet's edge, at least " + k.length(need.Bridge) + " needed"
		}
	default:
		return p.Text
	}
	return s + "."
}
