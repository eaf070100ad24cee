package sheet

import (
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// Within keeps what was found inside single silhouettes, which does not change while a copy is dragged or turned. The
// zero value is ready. It is not safe for use from two goroutines.
type Within struct {
	found map[withinKey]Found
	parts map[*geometry.Shape][]Part
}

type withinKey struct {
	shape                 *geometry.Shape
	scale                 float64
	bridge, opening, kerf float64
	thickness             float64
}

// Look returns what a silhouette shows at a scale.
func (w *Within) Look(s *geometry.Shape, scale float64, need draft.Sheet) Found {
	key := withinKey{s, scale, need.Bridge, need.Opening, need.Kerf, need.Thickness}
	if f, ok := w.found[key]; ok {
		return f
	}

	f := Inside(s.Outline(), scale, need)
	f.between = w.between(s, scale, need.Bridge)

	if w.found == nil || len(w.found) >= maxKept {
		w.found = map[withinKey]Found{}
	}
	w.found[key] = f
	return f
}

// between returns the narrowest way between two polygons of a silhouette, and all ways narrower than the bridge.
func (w *Within) between(s *geometry.Shape, scale, bridge float64) (out []Place) {
	parts := w.PartsOf(s)
	for x, p := range parts {
		for _, q := range parts[x+1:] {
			n := geometry.Distance(p.Shape, q.Shape, orb.Point{}, math.Inf(1))
			place := Place{Neck: geometry.Neck{P: n.P, Q: n.Q, Width: n.D}}
			if len(out) == 0 {
				out = append(out, place)
			} else if n.D < out[0].Width {
				out[0] = place
			}
			if n.D*scale < bridge {
				out = append(out, place)
			}
		}
	}
	return out
}

// fill adds what lies within each motif's silhouette, carried to the motif's place. A narrow place of the sheet that
// another opening lies across is none.
func (w *Within) fill(l *pattern.Layout, live *Live) {
	for i, o := range l.Orbits {
		if o.SameAs >= 0 {
			continue
		}
		scale := l.Draft.Motifs[i].Scale
		f := w.Look(o.Shape, scale, l.Draft.Sheet)
		carry := func(p Place) Place {
			p.Motif = i
			p.P, p.Q, p.Width = o.Place.Apply(p.P), o.Place.Apply(p.Q), p.Width*scale
			p.Length *= scale
			return p
		}

		for _, p := range f.Necks {
			if p = carry(p); !w.crossed(l, p) {
				live.Necks = append(live.Necks, p)
			}
		}
		for _, p := range f.Narrow {
			live.Narrow = append(live.Narrow, carry(p))
		}
		for _, p := range f.Lost {
			live.Lost = append(live.Lost, carry(p))
		}
		for k, p := range f.between {
			p = carry(p)
			near := geometry.Near{D: p.Width, P: p.P, Q: p.Q, Found: true}
			if k > 0 {
				live.Bridges = append(live.Bridges, Meeting{Motif: i, Other: i, Near: near})
			} else if !live.Narrowest.Found || near.D < live.Narrowest.D {
				live.Narrowest = near
			}
		}
		for _, h := range f.Holes {
			p := carry(h.Place)
			p.Area -= w.standingIn(l, &o, h)
			live.Islands = append(live.Islands, p)
		}
	}
}

// crossed reports whether another opening lies on the way across a narrow place.
func (w *Within) crossed(l *pattern.Layout, place Place) bool {
	p, q := place.P, place.Q
	window := orb.Bound{Min: p, Max: p}.Extend(q)
	found := false
	w.others(l, place.Motif, place.Part, window, func(other Part, shift orb.Point) bool {
		a, b := geometry.Sub(p, shift), geometry.Sub(q, shift)
		found = other.Shape.Crosses(a, b) || other.Shape.Contains(middle(a, b))
		return !found
	})
	return found
}

// others calls visit for every polygon of the field, but the given one of a motif's own copy, whose copy's box meets a
// window in field mm; shift is what moves the polygon to its place. visit returning false ends it.
func (w *Within) others(l *pattern.Layout, motif, own int, window orb.Bound, visit func(p Part, shift orb.Point) bool) {
	for j, o := range l.Orbits {
		for k, image := range o.Images {
			on := l.Cells(window, image.Bound(), func(m, n int) bool {
				v := l.Lattice(m, n)
				for x, p := range w.PartsOf(image.Shape) {
					if j == motif && k == 0 && m == 0 && n == 0 && x == own {
						continue
					}
					if !visit(p, orb.Point{image.At[0] + v[0], image.At[1] + v[1]}) {
						return false
					}
				}
				return true
			})
			if !on {
				return
			}
		}
	}
}

// standingIn returns the area in mm² of the openings that stand directly in a hole of a motif's own copy, each with all
// that it encloses.
func (w *Within) standingIn(l *pattern.Layout, o *pattern.Orbit, h Hole) float64 {
	back, ok := o.Place.Inverse()
	if !ok {
		return 0
	}
	placed := h.Shape.Place(o.Place, nil).Bound()
	type inner struct {
		Part
		shift orb.Point
	}
	var found []inner
	w.others(l, o.Motif, h.Place.Part, placed, func(p Part, shift orb.Point) bool {
		b := p.Shape.Bound()
		lies := placed.Contains(geometry.Add(b.Min, shift)) && placed.Contains(geometry.Add(b.Max, shift))
		if lies && h.Shape.Contains(back.Apply(geometry.Add(p.First, shift))) {
			found = append(found, inner{p, shift})
		}
		return true
	})

	sum := 0.0
	for x, a := range found {
		direct := true
		for y, b := range found {
			if x != y && b.Outer > a.Outer && b.Encloses(geometry.Add(a.First, geometry.Sub(a.shift, b.shift))) {
				direct = false
				break
			}
		}
		if direct {
			sum += math.Abs(a.Outer)
		}
	}
	return sum
}

// Encloses reports whether a point in the part's frame lies within its outer ring.
func (p Part) Encloses(v orb.Point) bool {
	return geometry.Contains(orb.MultiPolygon{p.Shape.Outline()[0][:1]}, v)
}
