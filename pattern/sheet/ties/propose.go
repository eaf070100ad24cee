// Package ties proposes ties for what would drop out of a sheet. Lengths in mm, places on the panel with y upward.
//
// Islands are told apart by kind: the holes of one silhouette, however often it is laid, and what the group's
// operations carry onto each other. Of each kind one is tied. Places along its edge are tried with the straight way
// from there across the opening to other sheet; what is kept is short, meets both edges squarely, ends in sound sheet
// and crosses nothing else. A hole that one polygon of one copy closes in gets its ties in the silhouette, so that
// every copy has them; any other gets ties of the field. Then the whole panel is checked; ties that made a fault which
// was not there give way to others, each held against a check of the whole panel, as long as there are others.
//
// The same draft gives the same ties. What it costs is bounded: for each manner no more than maxRounds rounds of a
// survey and a check, and those of better; usually it is one of each, and the first check. Whoever asks may bound it
// further.
//
// What is worse with the ties all the same is said with them, as the check of the panel counts it.
package ties

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
)

// Proposal is ties for a sheet, and how the panel stands with them.
type Proposal struct {
	Ties  []draft.Tie // the draft's own, and after them those added
	Added int
	After sheet.Report // of panel.Measure, of the draft with these ties
	// kinds of islands from TwoFrom mm on that hang on one tie, since there is no room for a second
	Single int
	Grown  []sheet.Total // faults of which there are more than before: of each kind, by how many
	Checks int           // of the panel, made on the way
}

// Propose returns the draft's own ties, and after them what it takes for no island to be left. A draft without islands
// has its own ties back. It fails as panel.Check does, and with the place of an island that cannot be tied: one round
// which there is no sheet that is held.
func Propose(l *pattern.Layout) ([]draft.Tie, error) {
	before, err := panel.Measure(l)
	if err != nil {
		return nil, err
	}
	p, err := For(l, before, math.MaxInt)
	return p.Ties, err
}

// For is Propose for a layout of which the panel's report is known. It says what is worse with the ties: on a crowded
// panel there may be no place for them that leaves everything else as it was. Once it has made so many checks and
// surveys of the panel it takes the best it has, or the first it finds.
func For(l *pattern.Layout, before sheet.Report, checks int) (Proposal, error) {
	own := slices.Clone(l.Draft.Ties)
	if before.Counts.Islands == 0 {
		return Proposal{Ties: own, After: before}, nil
	}
	p := &proposer{start: l, shapes: l.Shapes, maxChecks: checks}
	var best *proposal
	for _, p.manner = range manners {
		if best != nil && p.spent() {
			break
		}
		found, err := p.tieAll(before)
		if err != nil {
			if best != nil {
				break
			}
			return Proposal{}, err
		}
		if best == nil || found.worse(best) < 0 {
			best = found
		}
		if len(found.fresh) == 0 || (p.manner.again && best.more == 0) {
			break
		}
		p.ban(found.l, len(own), found.fresh)
	}

	best = p.better(best, before)
	all := best.l.Draft.Ties
	grown := sheet.Grown(before.Totals, best.after.Totals, sheet.Fault)
	return Proposal{Ties: all, Added: len(all) - len(own), After: best.after, Single: best.singles(), Grown: grown,
		Checks: p.checks}, nil
}

// proposer is one proposal in the making.
type proposer struct {
	start     *pattern.Layout
	shapes    *pattern.Shapes
	banned    []draft.Tie // made a new fault in an earlier attempt
	noMotif   bool        // ties of silhouettes failed; all are the field's
	manner    manner
	first     *scene // of the draft as it was
	checks    int    // and surveys of the panel, made so far
	maxChecks int
}

func (p *proposer) spent() bool { return p.checks >= p.maxChecks }

// measure checks the panel.
func (p *proposer) measure(l *pattern.Layout) (sheet.Report, error) {
	p.checks++
	return panel.Measure(l)
}

// manner is how a proposal is made. Those that follow are tried while there is a new fault.
type manner struct {
	single bool // one tie for each island: it leaves an opening in one piece, and less of it to come near itself
	again  bool // places that made a new fault in the manner before are passed over
}

var manners = []manner{{}, {again: true}, {single: true, again: true}}

// tieAll returns ties for all islands.
func (p *proposer) tieAll(before sheet.Report) (*proposal, error) {
	l := p.start
	var all []placed
	for range maxRounds {
		sc, err := p.sceneOf(l)
		if err != nil {
			return nil, err
		}
		more := sc.tie()
		if len(more) == 0 {
			return nil, cannot(sc.s.Islands[0].At)
		}
		next := l.Draft
		next.Ties = slices.Clone(l.Draft.Ties)
		for _, t := range more {
			next.Ties = append(next.Ties, t.tie)
		}
		laid, err := p.layout(next, l.Draft)
		if err != nil {
			if p.noMotif || !slices.ContainsFunc(more, func(t placed) bool { return t.tie.Silhouette != "" }) {
				return nil, err
			}
			p.noMotif, p.first = true, nil // the silhouette would vanish under its ties
			continue
		}
		l, all = laid, append(all, more...)
		if r, err := p.measure(l); err != nil {
			return nil, err
		} else if r.Counts.Islands == 0 {
			return proposalOf(all, l, before, r), nil
		}
	}

	return nil, fmt.Errorf("no end was found of tying pieces of sheet to each other; make the repeat larger or the " +
		"silhouettes smaller")
}

// sceneOf surveys a layout; the first is kept.
func (p *proposer) sceneOf(l *pattern.Layout) (*scene, error) {
	if l == p.start && p.first != nil {
		p.first.reset()
		return p.first, nil
	}
	p.checks++
	s, err := panel.Look(l)
	if err != nil {
		return nil, err
	}
	sc := newScene(p, l, &s)
	if l == p.start {
		p.first = sc
	}
	return sc, nil
}

func (p *proposer) layout(d, was draft.Draft) (*pattern.Layout, error) {
	if err := d.CheckAfter(was); err != nil {
		return nil, err
	}
	return pattern.NewLayout(d, p.shapes)
}

func cannot(at orb.Point) error {
	return fmt.Errorf("the piece of sheet at (%.1f, %.1f) mm, which would drop out, cannot be tied: no tie from "+
		"there reaches sheet that is held; "+
		"make the repeat larger or the silhouettes smaller", at[0], at[1])
}

// freshFaults returns the faults of after, islands aside, that before does not have.
func freshFaults(before, after sheet.Report) []sheet.Problem {
	was := map[sheet.Kind][]sheet.Problem{}
	for _, p := range before.Problems {
		if p.Severity == sheet.Fault {
			was[p.Kind] = append(was[p.Kind], p)
		}
	}
	var fresh []sheet.Problem
	for _, p := range after.Problems {
		if p.Severity == sheet.Fault && p.Kind != sheet.Island &&
			!slices.ContainsFunc(was[p.Kind], func(q sheet.Problem) bool { return sameFault(p, q) }) {
			fresh = append(fresh, p)
		}
	}
	return fresh
}

// sameFault reports whether two faults of a kind are one: at one place, or, of those that have no ends, of the same
// copies: these are reported at some point of what a tie may have divided.
func sameFault(p, q sheet.Problem) bool {
	if p.Ends == nil && q.Ends == nil && p.Between != nil && q.Between != nil {
		return *p.Between == *q.Between
	}
	return math.Hypot(p.At[0]-q.At[0], p.At[1]-q.At[1]) <= samePlace
}

// ban notes the proposed ties near new faults.
func (p *proposer) ban(l *pattern.Layout, own int, fresh []sheet.Problem) {
	reach := width(l.Draft.Sheet) + l.Draft.Sheet.Bridge + l.Draft.Sheet.Opening
	for _, t := range l.Draft.Ties[own:] {
		if !slices.Contains(p.banned, t) &&
			slices.ContainsFunc(fresh, func(f sheet.Problem) bool { return nearFault(l, t, f, reach) }) {
			p.banned = append(p.banned, t)
		}
	}
}

// nearFault reports whether an image of the tie lies within reach of a fault.
func nearFault(l *pattern.Layout, t draft.Tie, f sheet.Problem, reach float64) bool {
	at := orb.Point(f.At)
	window := orb.Bound{Min: at, Max: at}.Pad(reach)
	for _, i := range l.TieImages(t, window) {
		if distanceTo(i.From, i.To, at) <= reach {
			return true
		}
	}
	return false
}

// width is how wide a tie has to be on the panel: as wide as the sheet's narrowest bridge, and never less than it is
// thick.
func width(s draft.Sheet) float64 { return math.Max(s.Bridge, s.Thickness) + spare }
