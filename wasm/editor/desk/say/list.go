package say

import (
	"strings"

	"openwork/pattern"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/sentences"
)

// Which names the rows of the list of faults: all of them, or the one that is gone to. Where there is little room the
// noun is left out.
type Which struct {
	Noun string `json:"noun"`
	Rest string `json:"rest"`
	All  string `json:"all"` // a line over the whole list
}

// WhichOf names the rows of a list: faults where there are any, else warnings, else notes; at is the index of the one
// gone to, −1 for none. r is the report on the whole panel, nil while there is none.
func WhichOf(list []Fault, at int, r *sheet.Report) Which {
	out := Which{All: all(list, r)}
	rows, before := map[string]int{}, 0
	for i, f := range list {
		rows[f.Severity()]++
		if i <= at && f.Severity() == list[at].Severity() {
			before++
		}
	}

	if at >= 0 {
		name := list[at].Severity()
		out.Noun, out.Rest = name+" ", sheet.Number(before)+" of "+sheet.Number(rows[name])
		return out
	}

	for _, severity := range []string{string(sheet.Fault), string(sheet.Warning), Note} {
		if rows[severity] > 0 {
			out.Rest = counted(list, severity, r)
			return out
		}
	}
	return out
}

// counted counts the faults, warnings or notes of a list: "1 fault", "over 20 warnings" where some are put together
// or not listed.
func counted(list []Fault, severity string, r *sheet.Report) string {
	n, over := 0, ""
	if r != nil && sentences.ListedInPart(*r, sheet.Severity(severity)) {
		over = "over "
	}

	for _, f := range list {
		switch {
		case f.Severity() != severity:
		case f.More:
			over = "over "
		default:
			n++
		}
	}
	return over + sheet.Count(n, severity, severity+"s")
}

// all says what a list holds: "4 faults at 85 places, 2 warnings and 3 notes".
func all(list []Fault, r *sheet.Report) string {
	var parts []string
	for _, severity := range []sheet.Severity{sheet.Fault, sheet.Warning} {
		if r != nil {
			if said := sentences.Places(*r, WithoutStrips(list), severity); said != "" {
				parts = append(parts, said)
			}
		} else if said := counted(list, string(severity), r); !strings.HasPrefix(said, "no ") {
			parts = append(parts, said+" so far")
		}
	}

	if said := counted(list, Note, r); !strings.HasPrefix(said, "no ") {
		parts = append(parts, said)
	}
	return pattern.Sentence(sheet.List(parts))
}

// Readiness is what the closed last step of the job says: by the verdict, the list and the report on the whole panel,
// nil while there is none.
func Readiness(v sentences.Verdict, list []Fault, r *sheet.Report) string {
	switch {
	case v.State == "empty":
		return strings.TrimSuffix(v.Head, ".")
	case r == nil:
		return "Cut file and picture"
	case v.State == "holds":
		said := "Ready to cut: " + sheet.Count(r.Counts.Openings, "opening", "openings")
		if r.Of(sheet.Size, sheet.Warning).Count > 0 {
			said += "; larger than the bed"
		}
		return said
	case sentences.OnlyUnmeasured(*r):
		return "Not certain: " + sentences.Unmeasured(*r)
	}
	return "Not ready: " + sentences.Places(*r, WithoutStrips(list), sheet.Fault)
}
