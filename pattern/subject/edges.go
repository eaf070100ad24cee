package subject

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// shownEdge is a part of an edge of a ring that is seen, and how far along the ring it begins.
type shownEdge struct {
	geometry.Edge
	from, length float64
}

// shown returns the parts of a subject's ring that lie on the panel and that no other subject hides.
func (f *field) shown(i int, ring orb.Ring) (out []shownEdge) {
	at := 0.0
	for k := range ring[1:] {
		e := geometry.Edge{P: ring[k], Q: ring[k+1]}
		from, l := at, geometry.PointDistance(e.P, e.Q)
		at += l
		lo, hi, ok := onPanel(e, f.box)
		if l == 0 || !ok {
			continue
		}
		cuts := []float64{lo}
		if len(f.subjects) > 1 {
			for _, c := range f.cutsOf(e, f.subjects) {
				if c > lo && c < hi {
					cuts = append(cuts, c)
				}
			}
		}
		cuts = append(cuts, hi)
		for n := range cuts[1:] {
			a, b := cuts[n], cuts[n+1]
			if a < b && !f.hidden(geometry.Lerp(e.P, e.Q, (a+b)/2), i) {
				out = append(out, shownEdge{geometry.Edge{P: geometry.Lerp(e.P, e.Q, a), Q: geometry.Lerp(e.P, e.Q, b)},
					from + a*l, (b - a) * l})
			}
		}
	}
	return out
}

// near returns the stretches of a ring's shown parts that lie within TangentWithin of some edges of an opening.
func near(shown []shownEdge, o *seenOpening, edges []geometry.Edge) (out []stretch) {
	reach := o.bound.Pad(TangentWithin)
	for _, e := range shown {
		box := orb.Bound{Min: e.P, Max: e.P}.Extend(e.Q)
		if !box.Intersects(reach) {
			continue
		}
		wide := box.Pad(TangentWithin)
		for _, g := range edges {
			if !wide.Intersects(orb.Bound{Min: g.P, Max: g.P}.Extend(g.Q)) {
				continue
			}
			if s, ok := e.Near(g, TangentWithin); ok && s.Lo < s.Hi {
				out = append(out, stretch{e.from + s.Lo*e.length, e.from + s.Hi*e.length})
			}
		}
	}
	return out
}

// cutsOf returns where shapes' boundaries cut an edge, as parts of its length, with both ends.
func (f *field) cutsOf(e geometry.Edge, shapes []*geometry.Shape) []float64 {
	out := []float64{0}
	d := geometry.Sub(e.Q, e.P)
	box := orb.Bound{Min: e.P, Max: e.P}.Extend(e.Q)
	for _, s := range shapes {
		if !s.Bound().Intersects(box) {
			continue
		}
		rings, _ := s.OwnRings()
		for _, r := range rings {
			for k := range r[1:] {
				g := geometry.Sub(r[k+1], r[k])
				den := geometry.Cross(d, g)
				if den == 0 || !box.Intersects(orb.Bound{Min: r[k], Max: r[k]}.Extend(r[k+1])) {
					continue
				}
				w := geometry.Sub(r[k], e.P)
				t, u := geometry.Cross(w, g)/den, geometry.Cross(w, d)/den
				if t > 0 && t < 1 && u >= 0 && u <= 1 {
					out = append(out, t)
				}
			}
		}
	}
	slices.Sort(out)
	return append(out, 1)
}

// onPanel returns the part of an edge that lies on the panel.
func onPanel(e geometry.Edge, box orb.Bound) (lo, hi float64, ok bool) {
	lo, hi = 0, 1
	for i := range 2 {
		d := e.Q[i] - e.P[i]
		if d == 0 {
			if e.P[i] < box.Min[i] || e.P[i] > box.Max[i] {
				return 0, 0, false
			}
			continue
		}
		u, v := (box.Min[i]-e.P[i])/d, (box.Max[i]-e.P[i])/d
		lo, hi = math.Max(lo, math.Min(u, v)), math.Min(hi, math.Max(u, v))
	}
	return lo, hi, lo < hi
}

// pointAt returns the place so many mm along a ring.
func pointAt(ring orb.Ring, at float64) orb.Point {
	for k := range ring[1:] {
		l := geometry.PointDistance(ring[k], ring[k+1])
		if at <= l && l > 0 {
			return geometry.Lerp(ring[k], ring[k+1], at/l)
		}
		at -= l
	}
	return ring[len(ring)-1]
}
