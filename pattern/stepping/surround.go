package stepping

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// off returns how wide a surround of the panel a mark needs: 0 where it can be pricked into the panel. A mark that
// lies on the seam between the two can be pricked into neither.
func off(panel orb.Bound, p orb.Point) float64 {
	out := math.Inf(-1)
	for axis := range 2 {
		out = math.Max(out, math.Max(panel.Min[axis]-p[axis], p[axis]-panel.Max[axis]))
	}
	switch {
	case out <= -pinRoom:
		return 0
	case out < pinRoom:
		return math.Inf(1)
	}
	return out + pinRoom
}

// two are the least widths that the best and the second best mark of a place need.
type two struct{ least, next float64 }

// with returns the two once there is another mark.
func (t two) with(w float64) two {
	switch {
	case w < t.least:
		return two{w, t.least}
	case w < t.next:
		return two{t.least, w}
	}
	return t
}

// edge are the places at the edge of what is laid; those further in need no wider surround.
type edge struct {
	panel   orb.Bound
	toPanel geometry.Map
	moves   []orb.Point // of the sheet to them, field mm
}

// edgeOf returns those of the places, given in steps along u and v, that have no place on some side.
func (f *field) edgeOf(sh *sheet, places []cell) edge {
	there := map[cell]bool{}
	for _, c := range places {
		there[c] = true
	}
	e := edge{panel: f.l.Draft.PanelBound(), toPanel: f.l.Draft.FieldMap()}
	for _, c := range places {
		if !(there[cell{c[0] - 1, c[1]}] && there[cell{c[0] + 1, c[1]}] && there[cell{c[0], c[1] - 1}] &&
			there[cell{c[0], c[1] + 1}]) {
			e.moves = append(e.moves, f.fine.at(sh.steps.to(c)))
		}
	}
	return e
}

// needs returns what the holes of the sheet, in field mm, come to at each of the places.
func (e edge) needs(holes []orb.Point) []two {
	out := make([]two, len(e.moves))
	for i := range e.moves {
		out[i] = two{math.Inf(1), math.Inf(1)}
		for _, h := range holes {
			out[i] = out[i].with(e.off(h, i))
		}
	}
	return out
}

// off returns how wide a surround a hole needs at one of the places.
func (e edge) off(hole orb.Point, i int) float64 {
	return off(e.panel, e.toPanel.Apply(geometry.Add(hole, e.moves[i])))
}

// surround returns how wide the surround must be for two marks of every place.
func (e edge) surround(holes []orb.Point) float64 {
	need := 0.0
	for _, t := range e.needs(holes) {
		need = math.Max(need, t.next)
	}
	return need
}

// moreHoles returns further holes for a sheet whose marks need a wide surround: a large sheet that covers a corner of
// the panel alone has its four holes far from it. One after another, each where it helps most.
func (f *field) moreHoles(sh *sheet, places []cell) []orb.Point {
	e := f.edgeOf(sh, places)
	needs := e.needs(sh.reg.holes)
	beyond := func(t two) float64 { return math.Max(0, math.Min(t.next, 1e6)-wideSurround) }
	lack := 0.0
	for _, t := range needs {
		lack += beyond(t)
	}
	if lack == 0 {
		return nil
	}

	room := f.roomOf(sh.reg.diameter)
	inner := sh.rect.Pad(-room)
	// Marks near to each other hold a sheet's place and not its turn.
	far := math.Max(2*room, math.Min(sh.rect.Max[0]-sh.rect.Min[0], sh.rect.Max[1]-sh.rect.Min[1])/3)
	turned := f.fine.turned(sh.frame)
	type spot struct {
		at   orb.Point
		lack float64
	}
	var spots []spot
	for _, p := range sh.reg.free {
		q := sh.frame.Vector(p)
		turned.meeting(inner, orb.Bound{Min: q, Max: q}, func(c cell) {
			spots = append(spots, spot{at: geometry.Add(p, f.fine.at(c))})
		})
	}
	var out []orb.Point
	for len(out) < maxMore && lack > 0 {
		for k := range spots {
			spots[k].lack = 0
			for i, t := range needs {
				spots[k].lack += beyond(t.with(e.off(spots[k].at, i)))
			}
		}
		slices.SortStableFunc(spots, func(a, b spot) int { return cmp.Compare(a.lack, b.lack) })
		best := slices.IndexFunc(spots, func(s spot) bool {
			apart := func(h orb.Point) bool { return math.Hypot(h[0]-s.at[0], h[1]-s.at[1]) < far }
			return s.lack < lack-1 && !slices.ContainsFunc(sh.reg.holes, apart) && !slices.ContainsFunc(out, apart) &&
				sh.clearance(s.at, room) >= room
		})
		if best < 0 {
			break
		}
		at := spots[best].at
		out, lack = append(out, at), spots[best].lack
		for i := range needs {
			needs[i] = needs[i].with(e.off(at, i))
		}
	}
	return out
}
