package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"openwork/pattern"
)

// Mend is one command that makes a sheet better, with what the check of the whole panel says of the very draft that the
// command makes.
type Mend struct {
	Command pattern.Command `json:"command"`
	Kinds   []Kind          `json:"kinds"`  // kinds of problem of which fewer are left
	Was     []Total         `json:"was"`    // problems now, as in Report.Totals
	Totals  []Total         `json:"totals"` // problems left
	Before  int             `json:"before"` // faults now
	After   int             `json:"after"`  // faults left
	Sound   bool            `json:"sound"`  // the sheet holds then
	// Narrowest is the narrowest strip of sheet left, mm: see Report.Narrowest. Nil when there is none.
	Narrowest *float64 `json:"narrowest"`
	// Changed is how much of the sheet is open now and not then, or then and not now, mm². It is estimated at some
	// thousand points, and orders mends only.
	Changed float64 `json:"changed"`
}

// NewMend returns a command's effect from the reports of the draft it was given and of the one it made; without
// Changed.
func NewMend(c pattern.Command, before, after Report) Mend {
	m := Mend{Command: c, Was: before.Totals, Totals: after.Totals, Sound: after.Sound, Narrowest: after.Narrowest()}
	m.Before, _ = before.Count(Fault)
	m.After, _ = after.Count(Fault)
	for _, kind := range Kinds() {
		fault := after.Of(kind, Fault).Count - before.Of(kind, Fault).Count
		warning := after.Of(kind, Warning).Count - before.Of(kind, Warning).Count
		if fault < 0 || (fault == 0 && warning < 0) {
			m.Kinds = append(m.Kinds, kind)
		}
	}
	return m
}

// Narrowest returns the narrowest strip of sheet in a report, mm: between two openings, within one, or
// between an opening and the sheet's edge where that is a fault; 0 where an opening leaves the sheet. Nil when there is
// none. Tongues held at one end only do not count.
func (r Report) Narrowest() *float64 {
	narrowest := math.Inf(1)
	for _, v := range []*float64{r.NarrowestBetween, r.NarrowestWithin} {
		if v != nil {
			narrowest = math.Min(narrowest, *v)
		}
	}
	for _, p := range r.Problems {
		if p.Severity == Fault && (p.Kind == Bridge || p.Kind == Edge) {
			narrowest = math.Min(narrowest, math.Max(0, p.Measured))
		}
	}
	if math.IsInf(narrowest, 1) {
		return nil
	}
	return &narrowest
}

// Lessens reports whether what is wrong after is less than what was wrong before. A sheet with faults must have fewer
// of them, and, counted together from what matters most (Kinds) down to any kind, never more: an island may give way to
// a thin bridge, not a thin bridge to an island, and one overlap not to two islands. A sheet without faults must stay
// without, and have fewer warnings by the same rule. What was only counted in part afterwards is not known to be less.
func Lessens(before, after Report) bool {
	severity := Fault
	if n, _ := before.Count(Fault); n == 0 {
		if n, _ := after.Count(Fault); n > 0 {
			return false
		}
		severity = Warning
	}
	more := 0
	for _, kind := range Kinds() {
		then := after.Of(kind, severity)
		more += then.Count - before.Of(kind, severity).Count
		if more > 0 || then.AtLeast {
			return false
		}
	}
	return more < 0
}

// Grown returns by how many more problems of a severity there are, of each kind of which there are more.
func Grown(before, after []Total, s Severity) []Total {
	was := Report{Totals: before}
	var out []Total
	for _, t := range after {
		if t.Severity != s {
			continue
		}
		if t.Count -= was.Of(t.Kind, s).Count; t.Count > 0 {
			out = append(out, t)
		}
	}
	return out
}

// Effect says in words how the panel will stand: whether the sheet holds, what is left by kind, with how many there
// were where there are more than now, and the narrowest strip of sheet, written by measure.
func (m Mend) Effect(measure func(mm float64) string) string {
	var text string
	switch {
	case m.Before == 0 && len(m.Totals) == 0:
		text = "leaves no warning"
	case m.Before == 0:
		text = "leaves " + Summary(m.Was, m.Totals, Warning)
	case m.Sound:
		text = "then the sheet holds"
	default:
		was := Total{Count: m.Before}
		_, exact := Report{Totals: m.Was}.Count(Fault)
		if was.AtLeast = !exact; m.Before == 1 {
			text = "fault"
		} else {
			text = "faults"
		}
		text = fmt.Sprintf("leaves %d of %s %s: %s", m.After, was.figure(), text, Summary(m.Was, m.Totals, Fault))
	}
	if m.Narrowest != nil {
		text += "; narrowest bridge " + measure(*m.Narrowest)
	}
	return text
}

// Summary lists what there is of a severity by kind, what matters most first; a kind of which there were fewer before
// is given with what there was of it: "2 overlaps, 5 bridges too thin (3 before)".
func Summary(before, now []Total, s Severity) string { return summary(before, now, s, false) }

// SummaryOfGrown is Summary of the kinds of which there were fewer before alone; empty when there is none.
func SummaryOfGrown(before, now []Total, s Severity) string { return summary(before, now, s, true) }

func summary(before, now []Total, s Severity, grown bool) string {
	was := Report{Totals: before}
	var out []string
	for _, t := range now {
		b := was.Of(t.Kind, s)
		switch text := t.String(); {
		case t.Severity != s:
		case b.Count == 0:
			out = append(out, text+" (none before)")
		case b.Count < t.Count:
			out = append(out, text+" ("+b.figure()+" before)")
		case !grown:
			out = append(out, text)
		}
	}
	return strings.Join(out, ", ")
}

// String is the count with its noun: "3 bridges too thin".
func (t Total) String() string { return t.figure() + " " + SpeechOf(t.Kind, t.Severity).Noun(t.Count) }

func (t Total) figure() string {
	if t.AtLeast {
		return "at least " + strconv.Itoa(t.Count)
	}
	return strconv.Itoa(t.Count)
}
