// Package fit composes: it looks for the cell, and the places and turns of motifs, with which a plane group's field
// keeps its narrowest bridge and is as tight, as large or as even as can be found.
//
// A silhouette grown by half the bridge packs without overlap exactly when its copies keep the bridge, so this is
// densest packing in a plane group. A search throws random starts in which copies may lie over each other, and lets
// each down by a sequence of linear programmes over the contacts between copies (after S. Torquato and Y. Jiao,
// "Dense packings of the Platonic and Archimedean solids", Nature 460, 2009, 876), first on simplified outlines, then
// on the full ones. Whatever is handed out has been laid out and its copies' distances measured exactly, as a file
// would keep it.
package fit

import (
	"errors"
	"fmt"
	"slices"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/evenness"
	"openwork/pattern/progress"
	"openwork/pattern/symmetry"
)

// Find is what a fit makes best.
type Find string

const (
	Tightest Find = "tightest" // the least cell, silhouettes at their size
	Largest  Find = "largest"  // the largest common scale of the motifs, the cell kept
	Evenest  Find = "evenest"  // the widest narrowest gap, then the smallest widest one; cell and scale kept
)

// Finds are all of them.
func Finds() []Find { return []Find{Tightest, Largest, Evenest} }

// DefaultEffort is the effort of a question that names none.
const DefaultEffort = 30

// MaxEffort bounds a question.
const MaxEffort = 100000

// Question is what is to be fitted. The zero Hold holds nothing, no Groups are the draft's own, no Effort is
// DefaultEffort.
type Question struct {
	Draft  draft.Draft
	Find   Find
	Groups []string // symbols
	Hold   Hold
	Leave  bool // motifs on mirrors and rotation points may leave them
	Effort int  // rounds of the search in each group, of one motif; of several a multiple
	Seed   uint64
	Stop   func() bool // ends the search early; nil never does

	bodies bodyStore
	shapes *pattern.Shapes
}

// Answer is a fitted draft. Its copies keep the draft's bridge.
type Answer struct {
	Group     string        `json:"group"`
	Find      Find          `json:"find"`
	Cover     float64       `json:"cover"`     // opening area per cell area
	Scale     float64       `json:"scale"`     // of the motifs against the draft asked about
	Narrowest float64       `json:"narrowest"` // mm between different copies
	Evenness  evenness.Gaps `json:"evenness"`
	Special   bool          `json:"special"` // a motif lies on a mirror or a rotation point
	Draft     draft.Draft   `json:"draft"`

	merit float64
}

// ErrNoFit is wrapped by the errors of questions that have no answer within their holds.
var ErrNoFit = errors.New("no fit was found")

// Fit answers a question, the best first: one answer for each group asked about that has one, and where a single group
// is asked about, up to maxAnswers that differ. It fails when there is none, and says which hold stands in the way if
// letting go of one would give one.
func Fit(q *Question, report progress.Func) ([]Answer, error) {
	groups, err := q.check()
	if err != nil {
		return nil, err
	}
	var answers []Answer
	var first error
	for i, g := range groups {
		part := report.Within(float64(i)/float64(len(groups)), float64(i+1)/float64(len(groups)))
		keep := 1
		if len(groups) == 1 {
			keep = maxAnswers
		}
		found, err := q.fitGroup(g, keep, part)
		if err != nil && first == nil {
			first = fmt.Errorf("%s: %w", g.Symbol, err)
		}
		answers = append(answers, found...)
		if q.stopped() {
			break
		}
	}
	report.At(1)
	if len(answers) == 0 {
		if first == nil {
			first = ErrNoFit
		}
		return nil, first
	}
	slices.SortStableFunc(answers, better)
	return answers, nil
}

// maxAnswers is how many different answers a single group gives.
const maxAnswers = 4

// better orders answers: by cover, or by scale, or by how even they are.
func better(a, b Answer) int {
	of := func(x Answer) float64 {
		if x.Find == Evenest {
			return x.Narrowest - 1e-6*x.Evenness.Widest
		}
		return x.Cover
	}
	switch {
	case of(a) > of(b):
		return -1
	case of(a) < of(b):
		return 1
	}
	return 0
}

// check completes a question and returns its groups.
func (q *Question) check() ([]symmetry.Group, error) {
	if q.Find == "" {
		q.Find = Tightest
	}
	if !slices.Contains(Finds(), q.Find) && q.Find != nearby {
		return nil, fmt.Errorf("%.40q cannot be found; what can: tightest, largest, evenest", q.Find)
	}
	if q.Effort == 0 {
		q.Effort = DefaultEffort
	}
	if q.Effort < 1 || q.Effort > MaxEffort {
		return nil, fmt.Errorf("effort: from 1 to %d, not %d", MaxEffort, q.Effort)
	}
	if len(q.Draft.Motifs) == 0 {
		return nil, errors.New("the draft has no motif to fit")
	}
	for _, id := range q.Hold.Motifs {
		if !slices.ContainsFunc(q.Draft.Motifs, func(m draft.Motif) bool { return m.ID == id }) {
			return nil, fmt.Errorf("no motif is called %.40q, so it cannot be held", id)
		}
	}
	if len(q.Groups) == 0 {
		q.Groups = []string{q.Draft.Repeat.Group}
	}
	if len(q.Groups) == 1 && q.Groups[0] == "all" {
		return symmetry.Groups(), nil
	}
	var groups []symmetry.Group
	for _, symbol := range q.Groups {
		g, err := symmetry.Find(symbol)
		if err != nil {
			return nil, err
		}
		groups = append(groups, g)
	}
	return groups, nil
}

func (q *Question) stopped() bool { return q.Stop != nil && q.Stop() }

// fitGroup answers for one group.
func (q *Question) fitGroup(g symmetry.Group, keep int, report progress.Func) ([]Answer, error) {
	if q.shapes == nil {
		q.shapes = pattern.NewShapes()
	}
	if err := q.repeatsRefused(g); err != nil {
		return nil, err
	}
	s, err := newSetting(q, g)
	if err != nil {
		return nil, err
	}
	h := newSearch(s, q.Seed)
	rounds := q.rounds()
	for i := range rounds {
		if h.descent.look.work > q.Effort*maxWork || !h.round(q.stopped) {
			break
		}
		h.checkBest()
		report.Of(i+1, rounds)
	}
	answers := h.best(keep)
	if len(answers) == 0 {
		return nil, q.hindrance(g)
	}
	return answers, nil
}

// rounds returns the rounds of a search. Every motif more has three unknowns more, and needs several times as many
// rounds.
func (q *Question) rounds() int {
	n := len(q.Draft.Motifs)
	if q.Find == Evenest {
		return q.Effort * min(n*n*n, maxPerEffort)
	}
	return q.Effort * min(n*n, maxPerEffort)
}

// maxPerEffort bounds the rounds of many motifs.
const maxPerEffort = 30

// maxWork bounds a search, in points looked at for each effort: a group takes one to a few million, very long bodies
// with many neighbours and many motifs a hundred times as many.
const maxWork = 3_000_000

// best returns up to keep answers of a search as the question holds them.
func (h *search) best(keep int) []Answer {
	if q := h.setting.question; q.Find == Tightest && q.Hold.Repeats {
		return h.inWholeRepeats(keep)
	}
	return h.answers(keep)
}

// hindrance says why there is no answer: what is held that, let go of, would leave one.
func (q *Question) hindrance(g symmetry.Group) error {
	var ways []string
	q.Hold.each(func(without Hold, about string) {
		other := &Question{Draft: q.Draft, Find: q.Find, Hold: without, Leave: q.Leave, Effort: hindranceRounds,
			Seed: q.Seed, Stop: q.Stop, shapes: q.shapes}
		s, err := newSetting(other, g)
		if err != nil {
			return
		}
		h := newSearch(s, q.Seed)
		for range min(q.Effort, hindranceRounds) {
			h.round(other.stopped)
		}
		if len(h.best(1)) > 0 {
			ways = append(ways, about)
		}
	})
	switch {
	case len(ways) > 0:
		return fmt.Errorf("%w that keeps %s; let go of that", ErrNoFit, join(ways))
	case q.Find == Evenest:
		return fmt.Errorf("%w: the cell is too small for the silhouettes at their size and a bridge of %g mm; find "+
			"the largest or the tightest first",
			ErrNoFit, q.Draft.Sheet.Bridge)
	}
	return fmt.Errorf("%w in which all copies keep %g mm", ErrNoFit, q.Draft.Sheet.Bridge)
}

// hindranceRounds bounds the search without a hold: that there is a fit shows soon.
const hindranceRounds = 4

// join puts words into a list with "or".
func join(words []string) string {
	text := ""
	for i, w := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			text += " or "
		default:
			text += ", "
		}
		text += w
	}
	return text
}
