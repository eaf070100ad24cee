package ties

import (
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
)

// chooser picks candidates for one island.
type chooser struct {
	sc         *scene
	island     int
	lv         level
	candidates []candidate // cheapest first
	want       int
	heart      orb.Point
	window     orb.Bound
	angles     []float64
	rects      []draft.Tie // on the panel, all that a new one has to keep clear of
}

// next picks the candidate that is short and stands well apart from those picked, and returns its tie.
func (c *chooser) next() (draft.Tie, bool) {
	type pick struct {
		candidate
		score float64
	}
	var all []pick
	share := 2 * math.Pi / float64(c.want)
	for _, w := range c.candidates {
		// The first must reach what is held; then the others may tie to islands of the same kind, which it holds.
		if len(c.angles) == 0 && c.lv.held && !c.sc.held(w.part) {
			continue
		}
		gap := c.gap(w.middle)
		if len(c.angles) > 0 && (gap < spread*share || w.cost >= bannedCost) {
			continue
		}
		all = append(all, pick{w, w.cost + spreadWeight*math.Max(1, c.candidates[0].cost)*math.Max(0, 1-gap/share)})
	}

	sort.SliceStable(all, func(i, j int) bool { return all[i].score < all[j].score })

	// Of the cheapest that have room, the first that makes no new fault near the island is taken; else the one that
	// makes fewest, if it is the only tie: others are left out.
	var best *chosen
	now, looked := -1, 0
	var tried []orb.Point
	for _, p := range all[:min(maxPicks, len(all))] {
		if looked >= maxLooks || slices.ContainsFunc(tried, p.near) {
			continue
		}
		t, ok := c.sc.tieOf(p.candidate, c.island)
		if !ok {
			continue
		}
		images, ok := c.room(t)
		if !ok {
			continue
		}
		if now < 0 {
			now = c.sc.narrow(c.island, c.rects)
		}
		tried = append(tried, p.middle)
		looked++
		harm := c.sc.narrow(c.island, append(slices.Clip(c.rects), images...)) - now
		if best == nil || harm < best.harm {
			best = &chosen{t, images, p.middle, harm}
		}
		if harm <= 0 {
			break
		}
	}

	if best == nil || (best.harm > 0 && len(c.angles) > 0) {
		return draft.Tie{}, false
	}
	c.rects = append(c.rects, best.images...)
	had := len(c.angles)
	for _, i := range best.images {
		if c.sc.touchesIsland(i, c.island) {
			c.angles = append(c.angles, c.angle(orb.Point{(i.From[0] + i.To[0]) / 2, (i.From[1] + i.To[1]) / 2}))
		}
	}
	if len(c.angles) == had { // it runs over the whole island and ends beyond
		c.angles = append(c.angles, c.angle(best.middle))
	}
	return best.tie, true
}

// chosen is a tie that may be taken.
type chosen struct {
	tie    draft.Tie
	images []draft.Tie // near the island, on the panel
	middle orb.Point
	harm   int // new faults near the island, as far as reported
}

func (c *chooser) angle(p orb.Point) float64 { return math.Atan2(p[1]-c.heart[1], p[0]-c.heart[0]) }

// gap returns how far round the island a place is from the nearest picked, in radians.
func (c *chooser) gap(p orb.Point) float64 {
	nearest := math.Inf(1)
	for _, b := range c.angles {
		d := math.Mod(math.Abs(c.angle(p)-b), 2*math.Pi)
		nearest = math.Min(nearest, math.Min(d, 2*math.Pi-d))
	}
	return nearest
}

// room returns the tie's images near the island; false when, strictly, they come too near to each other or to others
// for the paste between them.
func (c *chooser) room(t draft.Tie) ([]draft.Tie, bool) {
	images := c.sc.l.TieImages(t, c.window)
	if !c.lv.strict {
		return images, true
	}
	need := math.Max(c.sc.l.Draft.Sheet.Opening, minAnchor) + spare
	for i, one := range images {
		for _, other := range images[i+1:] {
			if apart(one.Rect(), other.Rect(), need) < need {
				return nil, false
			}
		}
		for _, other := range c.rects {
			if apart(one.Rect(), other.Rect(), need) < need {
				return nil, false
			}
		}
	}
	return images, true
}

// touchesIsland reports whether an end of a tie on the panel lies in the island.
func (sc *scene) touchesIsland(t draft.Tie, island int) bool {
	i := sc.s.Islands[island]
	for _, p := range [2]orb.Point{t.From, t.To} {
		if i.Bound.Contains(p) && sc.part(p) == island {
			return true
		}
	}
	return false
}
