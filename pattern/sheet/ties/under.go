package ties

import (
	"math"
	"sort"

	"github.com/paulmach/orb"
)

// What a place costs that is not as it should be, in widths of crossing; only when no other is left is it taken.
const (
	shortLanding = 2.0 // ends in sheet narrower than a bridge
	onCropped    = 4.0 // ends where only this panel's edge ends the opening
	slanting     = 1.0 // meets an edge at less than a right angle by far
	looseEnd     = 1.0 // the island is too small for the end to lie in it
	closeBeside  = 3.0 // leaves an opening beside it narrower than paste needs
	crowded      = 6.0 // something else lies under the tie
)

// square looks at the boundary under the whole width of a tie: it is to cross two stretches only, near 0 and near d, to
// end beyond them in sheet, and that sheet is to be as deep as a bridge. The tie's ends move out to where that holds.
func (a *surroundings) square(w *candidate, p, u orb.Point, d float64) {
	all := a.under(p, u, w.width/2)
	near, next := -1, -1
	for k, s := range all {
		if s.lo <= onEdge && s.hi >= -onEdge {
			near = k
		}
		if s.lo <= d+onEdge && s.hi >= d-onEdge {
			next = k
		}
	}

	if near < 0 || next != near+1 {
		w.cost += crowded
		return
	}
	w.strict = true
	fail := func(cost float64) { w.strict, w.cost = false, w.cost+cost }
	one, two := all[near], all[next]
	w.slant = (one.hi - one.lo + two.hi - two.lo) / w.width
	w.length = two.hi - one.lo
	w.middle = at(p, u, (two.hi+one.lo)/2)
	depth, landing := math.Inf(1), math.Inf(1)
	if near > 0 {
		depth = one.lo - all[near-1].hi
	}
	if next+1 < len(all) {
		landing = all[next+1].lo - two.hi
	}
	from := at(p, u, one.lo-math.Min(anchor*w.width, depth/2))
	if depth >= 2*minAnchor && a.sc.part(from) == a.island {
		w.from = from
	} else {
		fail(looseEnd)
	}
	if a.islandUnder(p, u, w.width/2) && (near == 0 || one.lo-all[near-1].hi >= a.sc.l.Draft.Sheet.Opening) {
		over := at(p, u, one.lo)
		w.over = &over
	}
	if !a.roomBeside(p, u, w.width/2+a.sc.l.Draft.Sheet.Opening, d) {
		w.cost += closeBeside
	}
	if to := at(p, u, two.hi+math.Min(anchor*w.width, landing/2)); a.sc.part(to) == w.part {
		w.to = to
	} else {
		fail(shortLanding)
	}
	if landing < a.sc.l.Draft.Sheet.Bridge {
		fail(shortLanding)
	}
	if two.crop {
		fail(onCropped)
	}
	if math.Max(one.hi-one.lo, two.hi-two.lo) > steepest*w.width {
		fail(slanting)
	}
}

// stretch is how far along a tie a connected part of the boundary under it reaches.
type stretch struct {
	lo, hi float64
	crop   bool
}

// islandUnder reports whether the whole island lies within half mm of the line through p in direction u.
func (a *surroundings) islandUnder(p, u orb.Point, half float64) bool {
	for _, v := range a.sc.s.Islands[a.island].Ring[0] {
		if math.Abs(across(p, u, v)) > half {
			return false
		}
	}
	return true
}

// roomBeside reports whether on either side of a tie, out to half mm from its middle, the opening it crosses from 0 to
// d goes on as wide as paste needs.
func (a *surroundings) roomBeside(p, u orb.Point, half, d float64) bool {
	need := a.sc.l.Draft.Sheet.Opening
	last := math.Inf(-1)
	for _, s := range a.under(p, u, half) {
		if s.lo <= onEdge && s.hi >= -onEdge {
			last = s.hi
		} else if s.hi >= d-onEdge {
			return s.lo <= d+onEdge && s.lo-last >= math.Min(need, d/2)
		}
	}
	return false
}

// under returns the connected stretches of boundary within half mm of the line through p in direction u, in its order.
func (a *surroundings) under(p, u orb.Point, half float64) []stretch {
	var all []stretch
	for _, l := range a.lines {
		t0, t1 := across(p, u, l.a), across(p, u, l.b)
		if math.Min(t0, t1) > half || math.Max(t0, t1) < -half {
			continue
		}
		s0, s1 := forward(p, u, l.a), forward(p, u, l.b)
		lo, hi := math.Inf(1), math.Inf(-1)

		// The ends of the line within the strip, and where it crosses the strip's sides.
		for _, e := range [2][2]float64{{s0, t0}, {s1, t1}} {
			if math.Abs(e[1]) <= half {
				lo, hi = math.Min(lo, e[0]), math.Max(hi, e[0])
			}
		}
		for _, side := range [2]float64{-half, half} {
			if (t0 > side) != (t1 > side) {
				s := s0 + (side-t0)/(t1-t0)*(s1-s0)
				lo, hi = math.Min(lo, s), math.Max(hi, s)
			}
		}
		if lo <= hi {
			all = append(all, stretch{lo, hi, l.crop})
		}
	}

	sort.Slice(all, func(i, j int) bool { return all[i].lo < all[j].lo })
	var out []stretch
	for _, s := range all {
		if n := len(out); n > 0 && s.lo <= out[n-1].hi+onEdge {
			out[n-1].hi = math.Max(out[n-1].hi, s.hi)
			out[n-1].crop = out[n-1].crop || s.crop
			continue
		}
		out = append(out, s)
	}
	return out
}
