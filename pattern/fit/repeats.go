package fit

import (
	"fmt"
	"math"
	"slices"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

const (
	// repeatsFrom is how many of the best free cells are brought to whole repeats.
	repeatsFrom = 3
	// repeatsTries bounds the counts tried for one of them.
	repeatsTries = 12
	// repeatsEffort is the part of a question's effort that each count gets.
	repeatsEffort = 6
)

// inWholeRepeats brings the best of a search, whose cells are free, to cells that go into the field a whole number of
// times across and down: the most repeats first, each by looking for the evenest gaps in the cell that they ask for,
// until one keeps the bridge.
func (h *search) inWholeRepeats(keep int) []Answer {
	q := h.setting.question
	var out []Answer
	tried := map[[2]float64]bool{}
	for _, f := range h.pool[:min(len(h.pool), repeatsFrom)] {
		d, _, err := h.setting.draftOf(f)
		if err != nil {
			continue
		}
		d.Field = q.Draft.Field
		fits, lay, ok := pattern.RepeatsOf(d, "")
		if !ok {
			continue
		}
		for _, n := range counts(fits) {
			if tried[n] || q.stopped() {
				continue
			}
			tried[n] = true
			c := pattern.Command{Name: "repeats", Text: lay.Name,
				Values: map[string]float64{"across": n[0], "down": n[1]}}
			there, err := pattern.Apply(d, c)
			if err != nil || !wholeRepeats(there, lay.Name) {
				continue
			}
			hold := q.Hold
			hold.Repeats = false
			in := &Question{Draft: there, Find: Evenest, Hold: hold, Leave: q.Leave, Seed: q.Seed, Stop: q.Stop,
				shapes: q.shapes,
				Effort: max(1, q.Effort/repeatsEffort)}
			found, err := in.fitGroup(h.setting.group, 1, nil)
			if err != nil {
				continue
			}
			a := found[0]
			a.Find, a.merit = q.Find, 1/a.Cover
			out = append(out, a)
			break
		}
	}
	slices.SortStableFunc(out, better)
	return out[:min(len(out), keep)]
}

// wholeRepeats says whether a draft's field holds whole repeats both ways.
func wholeRepeats(d draft.Draft, lay string) bool {
	f, _, ok := pattern.RepeatsOf(d, lay)
	whole := func(v float64) bool { return math.Abs(v-math.Round(v)) < 1e-3 }
	return ok && whole(f.Across) && whole(f.Down)
}

// counts returns the whole numbers of repeats to try where so many would go across and down, the most repeats first.
func counts(f pattern.Fit) [][2]float64 {
	var out [][2]float64
	all := f.Across * f.Down
	for across := math.Floor(f.Across) - 1; across <= math.Ceil(f.Across); across++ {
		if across < 1 {
			continue
		}
		for down := math.Floor(all / across); down >= 1 && down > all/across-4; down-- {
			out = append(out, [2]float64{across, down})
		}
	}
	slices.SortStableFunc(out, func(a, b [2]float64) int {
		switch d := b[0]*b[1] - a[0]*a[1]; {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	return out[:min(len(out), repeatsTries)]
}

// repeatsRefused says why a group's cells cannot go into the field whole both ways; nil when they may.
func (q *Question) repeatsRefused(g symmetry.Group) error {
	if q.Find != Tightest || !q.Hold.Repeats {
		return nil
	}
	if _, _, ok := pattern.RepeatsOf(q.Draft, ""); !ok {
		return fmt.Errorf("%w in whole repeats while the field is turned by %g°; set its turn to 0 first", ErrNoFit,
			q.Draft.Field.Turn)
	}
	return nil
}
