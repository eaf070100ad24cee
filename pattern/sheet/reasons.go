package sheet

import (
	"fmt"
	"slices"
)

// KindFaults are a report's faults of one kind: how many there are, and the worst of them.
type KindFaults struct {
	Total Total
	Worst []Problem // whose sentences differ: images of one fault have one sentence
}

// Faults returns the faults of a report, a row for each kind, what matters most first, each with up to few of its
// worst.
func (r Report) Faults(few int) []KindFaults {
	var out []KindFaults
	for _, t := range r.Totals {
		if t.Severity != Fault {
			continue
		}
		k := KindFaults{Total: t}
		for _, p := range r.worstFirst(t) {
			if len(k.Worst) == few {
				break
			}
			if !slices.ContainsFunc(k.Worst, func(q Problem) bool { return q.Text == p.Text }) {
				k.Worst = append(k.Worst, p)
			}
		}
		out = append(out, k)
	}
	return out
}

// worstFirst returns the listed problems of a kind and severity, the worst first.
func (r Report) worstFirst(t Total) []Problem {
	var all []Problem
	for _, p := range r.Problems {
		if p.Severity == t.Severity && p.Kind == t.Kind {
			all = append(all, p)
		}
	}
	slices.SortStableFunc(all, func(p, q Problem) int {
		switch {
		case worse(p, q):
			return -1
		case worse(q, p):
			return 1
		}
		return 0
	})
	return all
}

// Count says how many faults of the kind there are: "3 overlaps", "at least 400 islands that would drop out".
func (k KindFaults) Count() string { return k.Total.String() }

// fewReasons of a kind are written out on a cut file, where they stand in the margin too; the rest are counted.
const fewReasons = 3

// Reasons are the sentences that a cut file carries of a sheet that does not hold: the worst few of each kind of fault,
// and how many more there are. None when it holds.
func (r Report) Reasons() []string {
	var out []string
	for _, k := range r.Faults(fewReasons) {
		for _, p := range k.Worst {
			out = append(out, p.Text)
		}
		k.Total.Count -= len(k.Worst)
		if k.Total.Count > 0 {
			noun := SpeechOf(k.Total.Kind, Fault).Noun(k.Total.Count)
			out = append(out, fmt.Sprintf("And %s more %s.", k.Total.figure(), noun))
		}
	}
	return out
}
