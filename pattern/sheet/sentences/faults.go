// Package sentences says in plain words what a check found: a sentence for each problem, the words with which problems
// of a kind are counted, and the verdict on the whole. Every number has its noun, and none says more than the report
// does.
//
// A *place* is one problem of the report. A *fault*, or a warning, is what repeats: alike in kind and figure, it shows
// at one place or at many.
package sentences

import (
	"math"
	"slices"
	"strings"

	"openwork/pattern"
	"openwork/pattern/sheet"
)

// Fault is one fault or warning of the repeat, and the places where it shows on the panel.
type Fault struct {
	First  sheet.Problem
	Places []sheet.Problem
	More   bool // stands for all that are left of its kind and severity, none worse than those before it
}

const (
	// measuredSlack in mm or mm²: problems alike in kind whose figures differ by less are one fault of the repeat.
	// Images of one fault differ by rounding only.
	measuredSlack = 1e-3

	// MaxFaults is how many faults of one kind and severity are told apart; what is left of the kind is one row. A
	// person who goes through twenty of a kind mends the kind.
	MaxFaults = 20
)

// Gather puts together problems that are one fault: same kind, same severity, same figure, and where nothing is
// measured the same words. Faults come before warnings and these before notes, then by kind, the worst first; of each
// kind and severity at most MaxFaults, and one more for all that are left.
func Gather(problems []sheet.Problem) []Fault {
	sorted := make([]*sheet.Problem, len(problems))
	for i := range problems {
		sorted[i] = &problems[i]
	}
	slices.SortStableFunc(sorted, compare)

	var out []Fault
	apart := 0 // faults told apart of the kind and severity in hand
	for i, p := range sorted {
		if i == 0 || !sameKind(p, sorted[i-1]) {
			apart = 0
		}
		last := len(out) - 1
		switch {
		case apart > 0 && alike(&out[last].First, p), apart > MaxFaults:
			out[last].Places = append(out[last].Places, *p)
		default:
			out = append(out, Fault{First: *p, Places: []sheet.Problem{*p}})
			apart++
			out[len(out)-1].More = apart > MaxFaults
		}
	}
	return out
}

// Different returns how many faults of a severity there are; more is true when there are more than are told apart.
func Different(faults []Fault, severity sheet.Severity) (n int, more bool) {
	for _, f := range faults {
		switch {
		case f.First.Severity != severity || f.First.IsNote():
		case f.More:
			more = true
		default:
			n++
		}
	}
	return n, more
}

// Words writes sentences about one draft, in one unit.
type Words struct{ sheet.Words }

// Fault is the sentence about a fault of the repeat.
func (w Words) Fault(f Fault) string {
	if !f.More {
		return w.Sentence(f.First)
	}
	words := sheet.SpeechOf(f.First.Kind, f.First.Severity)
	return pattern.Sentence("more " + words.Many + ", none worse than those above")
}

func compare(p, q *sheet.Problem) int {
	switch {
	case p.Severity != q.Severity:
		if p.Severity == sheet.Fault {
			return -1
		}
		return 1
	case p.IsNote() != q.IsNote():
		if q.IsNote() {
			return -1
		}
		return 1
	case p.Kind != q.Kind:
		if d := p.Kind.Rank() - q.Kind.Rank(); d != 0 {
			return d
		}
		return strings.Compare(string(p.Kind), string(q.Kind))
	case math.Abs(p.Measured-q.Measured) > 0:
		if (p.Measured > q.Measured) == p.Kind.LargerIsWorse() {
			return -1
		}
		return 1
	case p.Measured == 0:
		return strings.Compare(p.Text, q.Text)
	}
	return 0
}

func sameKind(p, q *sheet.Problem) bool { return p.Kind == q.Kind && p.Severity == q.Severity }

func alike(p, q *sheet.Problem) bool {
	if math.Abs(p.Measured-q.Measured) >= measuredSlack {
		return false
	}
	return p.Measured > measuredSlack || p.Text == q.Text
}
