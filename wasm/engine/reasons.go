package main

import (
	"fmt"
	"slices"

	"openwork/pattern/sheet"
)

// How many faults of a kind are written out in words, the worst of them; the rest are counted.
const (
	fewInFile = 3 // on a cut file, where they stand in the margin too
	fewTold   = 5 // to a person
)

// kindReasons is why a sheet does not hold, as far as one kind of fault goes.
type kindReasons struct {
	total sheet.Total
	worst []sheet.Problem // of those whose sentences differ
	few   int             // how many of these are told
}

// reasons returns the faults of a report, a row for each kind, what matters most first.
func reasons(r sheet.Report, few int) []kindReasons {
	var out []kindReasons
	for _, t := range r.Totals {
		if t.Severity != sheet.Fault {
			continue
		}
		var all []sheet.Problem
		for _, p := range r.Problems {
			if p.Severity == t.Severity && p.Kind == t.Kind {
				all = append(all, p)
			}
		}
		slices.SortStableFunc(all, func(p, q sheet.Problem) int {
			switch {
			case p.Measured == q.Measured:
				return 0
			case (p.Measured > q.Measured) == t.Kind.LargerIsWorse():
				return -1
			}
			return 1
		})
		k := kindReasons{total: t, few: few}
		for _, p := range all {
			// Images of one fault have one sentence.
			if !slices.ContainsFunc(k.worst, func(q sheet.Problem) bool { return q.Text == p.Text }) {
				k.worst = append(k.worst, p)
			}
		}
		k.worst = k.worst[:min(len(k.worst), few)]
		out = append(out, k)
	}
	return out
}

// count says how many faults of the kind there are: "3 overlaps", "at least 400 islands".
func (k kindReasons) count() string {
	least := ""
	if k.total.AtLeast {
		least = "at least "
	}
	return least + counted(k.total.Count, k.total.Kind)
}

// counted says how many places of a kind there are.
func counted(n int, kind sheet.Kind) string {
	words, ok := map[sheet.Kind][2]string{
		sheet.Empty:   {"panel without an opening", "panels without an opening"},
		sheet.Overlap: {"overlap", "overlaps"},
		sheet.Island:  {"island", "islands"},
		sheet.Bridge:  {"narrow bridge", "narrow bridges"},
		sheet.Unclear: {"place that could not be checked", "places that could not be checked"},
		sheet.Opening: {"narrow opening", "narrow openings"},
		sheet.Edge:    {"opening too near the sheet's edge", "openings too near the sheet's edge"},
	}[kind]
	switch {
	case !ok:
		return fmt.Sprintf("%d of the kind %s", n, kind)
	case n == 1:
		return "1 " + words[0]
	}
	return fmt.Sprintf("%d %s", n, words[1])
}

// fileReasons are the sentences that a cut file carries of a sheet that does not hold; none when it holds.
func fileReasons(r sheet.Report) []string {
	var out []string
	for _, k := range reasons(r, fewInFile) {
		for _, p := range k.worst {
			out = append(out, p.Text)
		}
		k.total.Count -= len(k.worst)
		if k.total.Count > 0 {
			out = append(out, fmt.Sprintf("And %s more.", k.count()))
		}
	}
	return out
}

// toldReasons are the lines that tell a person why a sheet does not hold: for each kind how many there are, and below it
// where the worst are.
func toldReasons(r sheet.Report) []string {
	var out []string
	for _, k := range reasons(r, fewTold) {
		head := k.count()
		if len(k.worst) > 0 && k.total.Count > len(k.worst) {
			head += ", the worst"
		}
		if len(k.worst) > 0 {
			head += ":"
		}
		out = append(out, head)
		for _, p := range k.worst {
			out = append(out, fmt.Sprintf("  at (%.1f, %.1f) mm: %s", p.At[0], p.At[1], p.Text))
		}
	}
	return out
}
