package ties

import (
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// level is how much is asked of a place for a tie.
type level struct {
	strict   bool // sound ends, square, one opening crossed, clear of other ties
	held     bool // the sheet it reaches is held
	straight bool // the shortest straight way, whatever lies between
}

// levels are gone through in this order, for all kinds of islands at each.
var levels = []level{{strict: true, held: true}, {held: true}, {strict: true}, {straight: true, held: true}, {},
	{straight: true}}

// tie returns ties for the kinds of islands: at each level of what is asked all that can be tied then, again as long as
// that gives others something to be tied to.
func (sc *scene) tie() []placed {
	for _, lv := range levels {
		for again := true; again; {
			again = false
			for _, k := range sc.kinds {
				if !k.held && sc.tieKind(k, lv) {
					k.held, again = true, true
				}
			}
			if !lv.held && len(sc.added) > 0 {
				return sc.added // islands were joined to each other; the next round sees what became of them
			}
		}
	}
	return sc.added
}

// tieKind ties one kind of island at the first of its members where that can be done.
func (sc *scene) tieKind(k *kind, lv level) bool {
	for _, m := range sc.tried(k) {
		if sc.tieIsland(k, m, lv) {
			return true
		}
	}
	return false
}

// tried returns members of a kind to look at, those in the middle of the panel first, then those at its edge: in the
// middle a place is as on an endless field, at the edge there is sheet that is held.
func (sc *scene) tried(k *kind) []int {
	c := sc.l.Draft.PanelBound().Center()
	far := func(i int) float64 {
		p := sc.s.Islands[i].At
		return math.Hypot(p[0]-c[0], p[1]-c[1])
	}
	all := slices.Clone(k.members)
	if k.hole != nil {
		all = slices.DeleteFunc(all, func(i int) bool { _, ok := sc.ownPiece(i); return !ok })
		if len(all) == 0 { // every copy is cropped
			all, k.hole = slices.Clone(k.members), nil
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return far(all[i]) < far(all[j]) })
	if len(all) <= maxMembers {
		return all
	}
	out := slices.Clone(all[:maxMembers/2])
	for i := range maxMembers / 2 {
		out = append(out, all[len(all)-1-i])
	}
	return out
}

// tieIsland adds ties for an island, as many as its size asks for and places can be found; false when there is none.
func (sc *scene) tieIsland(k *kind, island int, lv level) bool {
	i := sc.s.Islands[island]
	c := chooser{sc: sc, island: island, lv: lv, want: howMany(i.Ring, sc.wide), heart: i.At,
		window: i.Bound.Pad(far * sc.wide)}
	if lv.straight {
		a := surroundings{sc: sc, island: island}
		if w, ok := a.straight(i.At, sc.wide, lv.held); ok {
			c.candidates = []candidate{w}
		}
	} else {
		for _, w := range sc.candidatesOf(k, island) {
			if (w.strict || !lv.strict) && (!lv.held || sc.held(w.part) || (w.part >= 0 && sc.of[w.part] == k)) {
				c.candidates = append(c.candidates, w)
			}
		}
	}

	// Ties of this round that are near already.
	for _, t := range sc.added {
		c.rects = append(c.rects, sc.l.TieImages(t.tie, c.window)...)
	}
	if sc.p.manner.single {
		c.want = 1
	}
	for len(c.angles) < c.want {
		t, ok := c.next()
		if !ok {
			break
		}
		sc.added = append(sc.added, placed{t, sc, k, island})
		k.held = true // what it ties to of its own kind is held from here on
	}
	return len(c.angles) > 0
}

// waysOf returns the places for ties of an island that cross one opening, cheapest first.
func (sc *scene) candidatesOf(k *kind, island int) []candidate {
	found, ok := sc.candidates[island]
	if !ok {
		found = sc.crossings(k, &surroundings{sc: sc, island: island})
		sc.candidates[island] = found
	}
	out := slices.Clone(found)
	for _, w := range found {
		if w.over != nil {
			w.from, w.strict = *w.over, true
			w.cost -= looseEnd
			out = append(out, w)
		}
	}
	window := sc.s.Islands[island].Bound.Pad(far * sc.wide)
	for _, t := range sc.p.banned {
		for _, i := range sc.l.TieImages(t, window) {
			for n := range out {
				if math.Hypot((i.From[0]+i.To[0])/2-out[n].middle[0],
					(i.From[1]+i.To[1])/2-out[n].middle[1]) < out[n].width {
					out[n].cost += bannedCost
				}
			}
		}
	}

	sort.SliceStable(out, func(x, y int) bool { return out[x].cost < out[y].cost })
	return out
}

// bannedCost puts a place that made a fault before behind all others.
const bannedCost = 1e6

// crossings tries the island's edge all round: square to it, and halfway to square to the edge across.
func (sc *scene) crossings(k *kind, a *surroundings) []candidate {
	wide := sc.wide
	if k.hole != nil {
		wide = inSilhouette(sc.wide, sc.smallest(k.hole.silhouette)) * sc.scaleOf(a.island)
	}
	var out []candidate
	take := func(p, u orb.Point, w float64, own bool) (orb.Point, bool) {
		y, normal, ok := a.look(p, u, w)
		if !ok {
			return normal, ok
		}
		if y.own = own; own && sc.onOthers(a.island, y) {
			return normal, ok
		}
		if k.hole != nil && !own {
			y.cost += 2 // a tie in the silhouette is to be had more cheaply
		}
		out = append(out, y)
		return normal, ok
	}

	for _, s := range places(sc.s.Islands[a.island].Ring[0], sc.mirrors(a.island), wide) {
		try := func(u orb.Point) (orb.Point, bool) {
			normal, ok := take(s.at, u, wide, k.hole != nil)
			if k.hole != nil {
				take(s.at, u, sc.wide, false)
			}
			return normal, ok
		}
		if normal, ok := try(s.out); ok {
			if v := (orb.Point{s.out[0] + normal[0], s.out[1] + normal[1]}); math.Hypot(v[0], v[1]) > 0.5 {
				try(unit(orb.Point{}, v))
			}
		}
	}
	return out
}

// scaleOf returns the scale of the copy whose hole an island is.
func (sc *scene) scaleOf(island int) float64 {
	if p, ok := sc.ownPiece(island); ok {
		return sc.l.Draft.Motifs[sc.s.Copies[p.Copy].Motif].Scale
	}
	return 1
}

// smallest returns the least scale at which a silhouette is laid.
func (sc *scene) smallest(silhouette string) float64 {
	smallest := math.Inf(1)
	for _, m := range sc.l.Draft.Motifs {
		if m.Silhouette == silhouette {
			smallest = math.Min(smallest, m.Scale)
		}
	}
	return smallest
}

// inSilhouette returns the width in a silhouette's frame that gives at least wide mm at a scale, on the draft's grid.
func inSilhouette(wide, scale float64) float64 {
	return math.Ceil(wide/scale/geometry.Grid) * geometry.Grid
}
