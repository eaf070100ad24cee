package whole

import (
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// narrowest finds the shortest way between two different openings, looking further out until there is one.
func (c *look) narrowest() {
	if c.report.Counts.Openings < 2 {
		return
	}
	best := distance{Near: geometry.Near{D: math.Inf(1)}}
	for _, m := range c.met {
		if m.D < best.D && c.different(m.i, m.p, m.j, m.q) {
			best = m.distance
		}
	}
	field := c.l.Draft.PanelBound().Union(c.l.Draft.SheetBound())
	far := 2*math.Hypot(field.Max[0]-field.Min[0], field.Max[1]-field.Min[1]) + 1
	for reach := 2 * math.Max(c.need.Bridge, 1); math.IsInf(best.D, 1); reach *= 2 {
		c.search(reach, &best)
		if reach > far {
			break
		}
	}
	if d := best.D; d < math.Inf(1) {
		c.report.NarrowestBetween, c.report.BetweenEnds = &d, &[2][2]float64{best.P, best.Q}
	}
}

// search looks for a way shorter than the best, and than reach.
func (c *look) search(reach float64, best *distance) {
	near := c.relations(reach)
	sort.Slice(near, func(x, y int) bool { return near[x].gap < near[y].gap })
	try := func(i, j, p, q int, shift orb.Point) (closer bool) {
		if !c.different(i, p, j, q) {
			return false
		}
		w := c.between(c.kept[i].parts[p].Shape, c.kept[j].parts[q].Shape, shift, math.Min(reach, best.D))
		if !w.Found || w.D >= math.Min(reach, best.D) {
			return false
		}
		at := c.copies[i].Shift
		w.P, w.Q = geometry.Add(w.P, at), geometry.Add(w.Q, at)
		*best = w
		return true
	}

	for i := range c.kept {
		for p := range c.kept[i].parts {
			for q := range p {
				try(i, i, q, p, orb.Point{})
			}
		}
	}

	for k := range near {
		r := &near[k]
		if limit := math.Min(reach, best.D); r.gap >= limit || !c.nearer(r, limit) {
			continue
		}
		found := false
		c.pairs(r, func(i, j int) bool { // two whole copies are as near as any
			if c.kept[i].cut != nil || c.kept[j].cut != nil {
				return true
			}
			all := true
			for p := range c.kept[i].parts {
				for q := range c.kept[j].parts {
					all = all && c.different(i, p, j, q)
					try(i, j, p, q, r.shift)
				}
			}
			found = all
			return !found
		})
		if found {
			continue
		}
		c.pairs(r, func(i, j int) bool {
			if c.kept[i].cut != nil || c.kept[j].cut != nil {
				for p := range c.kept[i].parts {
					for q := range c.kept[j].parts {
						try(i, j, p, q, c.shift(nil, i, j))
					}
				}
			}
			return true
		})
	}
}
