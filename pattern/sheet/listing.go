package sheet

import (
	"container/heap"
	"slices"
)

// MaxListed is how many problems of one kind and severity a report lists; the rest are counted. A person who sees two
// hundred of a kind mends the kind, and a report stays some hundred kilobytes.
const MaxListed = 200

// Total is how many problems of a kind and severity there are.
type Total struct {
	Kind     Kind     `json:"kind"`
	Severity Severity `json:"severity"`
	Count    int      `json:"count"`
	AtLeast  bool     `json:"atLeast"` // counting ended early, so that there may be more
}

// Listing gathers problems. Of each kind and severity it keeps the worst MaxListed and counts the rest. The zero value
// is ready.
type Listing struct {
	rows  map[row]*listed
	added int
}

type row struct {
	kind     Kind
	severity Severity
}

// listed holds the worst problems of one row, the least bad of them first, as a heap.
type listed struct {
	kept  []numbered
	total Total
}

// numbered is a problem and when it was added.
type numbered struct {
	Problem
	n int
}

func (l *listed) Len() int           { return len(l.kept) }
func (l *listed) Less(i, j int) bool { return worse(l.kept[j].Problem, l.kept[i].Problem) }
func (l *listed) Swap(i, j int)      { l.kept[i], l.kept[j] = l.kept[j], l.kept[i] }
func (l *listed) Push(v any)         { l.kept = append(l.kept, v.(numbered)) }
func (l *listed) Pop() any {
	last := l.kept[len(l.kept)-1]
	l.kept = l.kept[:len(l.kept)-1]
	return last
}

// worse reports whether p is worse than q, of the same kind.
func worse(p, q Problem) bool {
	if p.Kind.LargerIsWorse() {
		return p.Measured > q.Measured
	}
	return p.Measured < q.Measured
}

func (l *Listing) row(kind Kind, severity Severity) *listed {
	key := row{kind, severity}
	r := l.rows[key]
	if r == nil {
		if l.rows == nil {
			l.rows = map[row]*listed{}
		}
		r = &listed{total: Total{Kind: kind, Severity: severity}}
		l.rows[key] = r
	}
	return r
}

// Wants reports whether a problem with this measure would be listed, not only counted; it saves making its sentence.
func (l *Listing) Wants(kind Kind, severity Severity, measured float64) bool {
	r := l.row(kind, severity)
	return len(r.kept) < MaxListed || worse(Problem{Kind: kind, Measured: measured}, r.kept[0].Problem)
}

// Counted returns how many problems of a kind and severity were added or counted so far.
func (l *Listing) Counted(kind Kind, severity Severity) int { return l.row(kind, severity).total.Count }

// Add counts a problem and lists it when it is among the worst.
func (l *Listing) Add(p Problem) {
	r := l.row(p.Kind, p.Severity)
	r.total.Count++
	l.added++
	switch {
	case len(r.kept) < MaxListed:
		heap.Push(r, numbered{p, l.added})
	case worse(p, r.kept[0].Problem):
		r.kept[0] = numbered{p, l.added}
		heap.Fix(r, 0)
	}
}

// Count adds n problems that are not listed. exact is false when there may be more.
func (l *Listing) Count(kind Kind, severity Severity, n int, exact bool) {
	r := l.row(kind, severity)
	r.total.Count += n
	r.total.AtLeast = r.total.AtLeast || !exact
}

// Result returns the listed problems in the order in which they were added, and the totals, faults first and what
// matters most first among them.
func (l *Listing) Result() (problems []Problem, totals []Total) {
	var all []numbered
	totals = []Total{}
	for _, r := range l.rows {
		all = append(all, r.kept...)
		if r.total.Count > 0 {
			totals = append(totals, r.total)
		}
	}
	slices.SortFunc(all, func(a, b numbered) int { return a.n - b.n })
	problems = make([]Problem, len(all))
	for i, p := range all {
		problems[i] = p.Problem
	}
	slices.SortFunc(totals, func(a, b Total) int {
		if a.Severity != b.Severity {
			if a.Severity == Fault {
				return -1
			}
			return 1
		}
		return a.Kind.Rank() - b.Kind.Rank()
	})
	return problems, totals
}
