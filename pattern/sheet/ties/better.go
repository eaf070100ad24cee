package ties

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
)

// placed is a proposed tie, with the island it was chosen for.
type placed struct {
	tie    draft.Tie
	sc     *scene // as the panel was then
	kind   *kind
	island int
}

// proposal is a set of ties that leaves no island, and how the panel stands with it.
type proposal struct {
	all   []placed
	l     *pattern.Layout
	after sheet.Report
	fresh []sheet.Problem // faults listed that were not there before
	more  int             // of all kinds of which there are more faults than before, by how many
}

// worse orders proposals: those by which kinds of fault grow less come first, then those with fewer new ones.
func (a *proposal) worse(b *proposal) int {
	return cmp.Or(cmp.Compare(a.more, b.more), cmp.Compare(len(a.fresh), len(b.fresh)))
}

// of lays the draft with the ties given and measures the panel; nil when that leaves islands or cannot be laid.
func (p *proposer) of(all []placed, before sheet.Report) *proposal {
	d := p.start.Draft
	d.Ties = slices.Clone(d.Ties)
	for _, t := range all {
		d.Ties = append(d.Ties, t.tie)
	}
	l, err := p.layout(d, p.start.Draft)
	if err != nil {
		return nil
	}
	r, err := p.measure(l)
	if err != nil || r.Counts.Islands > 0 {
		return nil
	}
	return proposalOf(all, l, before, r)
}

func proposalOf(all []placed, l *pattern.Layout, before, after sheet.Report) *proposal {
	more := 0
	for _, t := range sheet.Grown(before.Totals, after.Totals, sheet.Fault) {
		more += t.Count
	}
	return &proposal{all, l, after, freshFaults(before, after), more}
}

// singles returns how many kinds of islands that should have two ties have one.
func (a *proposal) singles() (n int) {
	seen := map[*kind]bool{}
	for _, t := range a.all {
		if seen[t.kind] {
			continue
		}
		seen[t.kind] = true
		island := t.sc.s.Islands[t.island]
		if long, _ := extents(island.Ring[0]); long < TwoFrom {
			continue
		}
		ties, ring := 0, orb.MultiPolygon{island.Ring}
		for _, other := range a.all {
			for _, image := range a.l.TieImages(other.tie, island.Bound) {
				if geometry.Contains(ring, image.From) != geometry.Contains(ring, image.To) {
					ties++
				}
			}
		}
		if ties < 2 {
			n++
		}
	}
	return n
}

// better takes ties that stand by new faults, one after the other, and holds against each what the whole panel says of
// leaving it out and of other places for it, as long as that makes fewer new faults. Each try is a check of the panel;
// they are bounded by the panel's size.
func (p *proposer) better(best *proposal, before sheet.Report) *proposal {
	reach := width(best.l.Draft.Sheet) + best.l.Draft.Sheet.Bridge + best.l.Draft.Sheet.Opening
	left := p.tries()
	settled := map[draft.Tie]bool{}
	for len(best.fresh) > 0 && left > 0 && !p.spent() {
		worst, largest := -1, 0
		for i, t := range best.all {
			if settled[t.tie] {
				continue
			}
			n := 0
			for _, f := range best.fresh {
				if nearFault(best.l, t.tie, f, reach) {
					n++
				}
			}
			if n > largest {
				worst, largest = i, n
			}
		}
		if worst < 0 {
			break
		}
		found := best
		for _, other := range best.all[worst].others() {
			if left == 0 || p.spent() {
				break
			}
			left--
			all := slices.Clone(best.all)
			if other == nil {
				all = slices.Delete(all, worst, worst+1)
			} else {
				all[worst].tie = *other
			}
			if q := p.of(all, before); q != nil && q.worse(found) < 0 {
				if found = q; len(q.fresh) == 0 {
					break
				}
			}
		}
		settled[best.all[worst].tie] = true
		if found != best {
			best = found
			clear(settled) // what stood in the way of others may be gone
		}
	}
	return best
}

// tries returns how many checks of the panel better may ask for: fewer on a large one.
func (p *proposer) tries() int {
	copies, err := p.start.Copies()
	if err != nil {
		return minTries
	}
	points := make([]int, len(p.start.Draft.Motifs))
	for i, m := range p.start.Draft.Motifs {
		s, _ := p.start.Draft.Silhouette(m.Silhouette)
		points[i] = geometry.Points(s.Outline)
	}
	n := 0
	for _, c := range copies {
		n += points[c.Motif]
	}
	return max(minTries, min(maxTries, triesWork/max(1, n)))
}

// others returns what may stand in a tie's place: nothing (nil), a wider one, then the places along its island's edge
// that are a third of a width apart, those first that seem to make the fewest new faults near it.
func (t placed) others() []*draft.Tie {
	sc := t.sc
	k := *t.kind
	if k.hole != nil {
		if _, ok := sc.ownPiece(t.island); !ok {
			k.hole = nil
		}
	}
	type other struct {
		tie  draft.Tie
		harm int
		at   candidate
	}
	var all []other
	c := chooser{sc: sc, island: t.island, window: sc.s.Islands[t.island].Bound.Pad(far * sc.wide)}
	for _, w := range sc.candidatesOf(&k, t.island) {
		if len(all) == maxOthers {
			break
		}
		if slices.ContainsFunc(all, func(o other) bool { return o.at.near(w.middle) && o.at.own == w.own }) {
			continue
		}
		if tie, ok := sc.tieOf(w, t.island); ok && tie != t.tie {
			images, _ := c.room(tie)
			all = append(all, other{tie, sc.narrow(t.island, images), w})
		}
	}

	slices.SortStableFunc(all, func(a, b other) int { return cmp.Compare(a.harm, b.harm) })
	out := []*draft.Tie{nil}

	// A wider tie takes in what is left of the opening beside it.
	for _, wider := range [...]float64{1.5, 2} {
		tie := t.tie
		tie.Width = geometry.Snap(tie.Width * wider)
		out = append(out, &tie)
	}
	for _, o := range all[:min(len(all), measuredOthers)] {
		out = append(out, &o.tie)
	}
	return out
}
