package sheet

import (
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/residue"
	"openwork/pattern"
)

// Within keeps what was found inside single silhouettes, which does not change while a copy is dragged or turned. The
// zero value is ready. It is not safe for use from two goroutines.
type Within struct {
	found map[withinKey]withinFound
	parts map[*geometry.Shape][]part
}

type withinKey struct {
	shape                 *geometry.Shape
	scale                 float64
	bridge, opening, kerf float64
}

// withinFound is what one silhouette shows, in its own frame, at a scale.
type withinFound struct {
	necks, narrow, lost []Place
	holes               []hole
	between             []Place // the narrowest way between its polygons first, then all that are too near
}

// hole is a piece of sheet that a silhouette closes in.
type hole struct {
	shape *geometry.Shape
	place Place
}

// Lost says how an opening is too small as a whole.
type Lost string

// The ways in which an opening is lost.
const (
	LostToKerf  Lost = "kerf"   // the beam's width takes all of it
	LostToPaste Lost = "narrow" // no part of it is as wide as paste needs
)

// LostOf says how an opening is too small as a whole; empty when it is not. scale is by how much the opening will be
// larger than the shape.
func LostOf(s *geometry.Shape, scale float64, need pattern.Sheet) Lost {
	switch {
	case need.Kerf > 0 && !s.HasRoom(need.Kerf/2/scale):
		return LostToKerf
	case need.Opening > 0 && !s.HasRoom(need.Opening/2/scale):
		return LostToPaste
	}
	return ""
}

// of returns what a silhouette shows at a scale, each of its polygons by itself.
func (w *Within) of(s *geometry.Shape, scale float64, need pattern.Sheet) withinFound {
	key := withinKey{s, scale, need.Bridge, need.Opening, need.Kerf}
	if f, ok := w.found[key]; ok {
		return f
	}

	var f withinFound
	for i, p := range s.Outline() {
		one := orb.MultiPolygon{p}
		f.necks = append(f.necks, places(i, one, need.Bridge/scale, residue.Around)...)
		f.narrow = append(f.narrow, places(i, one, need.Opening/scale, residue.Of)...)
		if how := LostOf(geometry.NewShape(one), scale, need); how != "" {
			at := geometry.InnerPoint(p)
			f.lost = append(f.lost, Place{Neck: geometry.Neck{P: at, Q: at}, Lost: how, part: i})
		}
		for _, ring := range p[min(1, len(p)):] {
			filled := geometry.Orient(orb.MultiPolygon{{ring}})
			at := geometry.InnerPoint(filled[0])
			f.holes = append(f.holes, hole{geometry.NewShape(filled),
				Place{Neck: geometry.Neck{P: at, Q: at}, Area: geometry.Area(filled) * scale * scale, part: i}})
		}
	}
	f.between = w.between(s, scale, need.Bridge)

	if w.found == nil || len(w.found) >= maxKept {
		w.found = map[withinKey]withinFound{}
	}
	w.found[key] = f
	return f
}

// between returns the narrowest way between two polygons of a silhouette, and all ways narrower than the bridge.
func (w *Within) between(s *geometry.Shape, scale, bridge float64) (out []Place) {
	parts := w.partsOf(s)
	for x, p := range parts {
		for _, q := range parts[x+1:] {
			n := geometry.Distance(p.shape, q.shape, orb.Point{}, math.Inf(1))
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

// outlineTolerance in mm is asked of the outlines of narrow places, which nothing here draws.
const outlineTolerance = 0.1

// places finds the narrow places of one polygon, the narrowest first. Where nothing is wide enough there is none to tell:
// an island is told as one, and an opening lost as a whole too. A width of 0 asks for nothing. A polygon whose narrow
// places cannot be found has none here; the check of the panel tells the error.
func places(part int, mp orb.MultiPolygon, width float64,
	find func(orb.MultiPolygon, float64, float64) ([]residue.Piece, error)) []Place {
	if width <= 0 {
		return nil
	}
	found, err := find(mp, width, outlineTolerance)
	if err != nil {
		return nil
	}

	var out []Place
	for _, p := range found {
		if p.Stretches > 0 {
			out = append(out, Place{Neck: geometry.Neck{P: p.P, Q: p.Q, Width: p.Width}, Hangs: !p.Joins(), Length: p.Length, part: part})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Width < out[j].Width })
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
		f := w.of(o.Shape, scale, l.Draft.Sheet)
		carry := func(p Place) Place {
			p.Motif = i
			p.P, p.Q, p.Width = o.Place.Apply(p.P), o.Place.Apply(p.Q), p.Width*scale
			p.Length *= scale
			return p
		}

		for _, p := range f.necks {
			if p = carry(p); !w.crossed(l, p) {
				live.Necks = append(live.Necks, p)
			}
		}
		for _, p := range f.narrow {
			live.Narrow = append(live.Narrow, carry(p))
		}
		for _, p := range f.lost {
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
		for _, h := range f.holes {
			p := carry(h.place)
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
	w.others(l, place.Motif, place.part, window, func(other part, shift orb.Point) bool {
		a, b := sub(p, shift), sub(q, shift)
		found = other.shape.Crosses(a, b) || other.shape.Contains(middle(a, b))
		return !found
	})
	return found
}

// others calls visit for every polygon of the field, but the given one of a motif's own copy, whose copy's box meets a
// window in field mm; shift is what moves the polygon to its place. visit returning false ends it.
func (w *Within) others(l *pattern.Layout, motif, own int, window orb.Bound, visit func(p part, shift orb.Point) bool) {
	for j, o := range l.Orbits {
		for k, image := range o.Images {
			on := l.Cells(window, image.Bound(), func(m, n int) bool {
				v := l.Lattice(m, n)
				for x, p := range w.partsOf(image.Shape) {
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
func (w *Within) standingIn(l *pattern.Layout, o *pattern.Orbit, h hole) float64 {
	back, ok := o.Place.Inverse()
	if !ok {
		return 0
	}
	placed := h.shape.Place(o.Place, nil).Bound()
	type inner struct {
		part
		shift orb.Point
	}
	var found []inner
	w.others(l, o.Motif, h.place.part, placed, func(p part, shift orb.Point) bool {
		b := p.shape.Bound()
		lies := placed.Contains(add(b.Min, shift)) && placed.Contains(add(b.Max, shift))
		if lies && h.shape.Contains(back.Apply(add(p.first, shift))) {
			found = append(found, inner{p, shift})
		}
		return true
	})

	sum := 0.0
	for x, a := range found {
		direct := true
		for y, b := range found {
			if x != y && b.outer > a.outer && b.encloses(add(a.first, sub(a.shift, b.shift))) {
				direct = false
				break
			}
		}
		if direct {
			sum += math.Abs(a.outer)
		}
	}
	return sum
}

// encloses reports whether a point in the part's frame lies within its outer ring.
func (p part) encloses(v orb.Point) bool {
	return geometry.Contains(orb.MultiPolygon{p.shape.Outline()[0][:1]}, v)
}

func add(p, q orb.Point) orb.Point { return orb.Point{p[0] + q[0], p[1] + q[1]} }
func sub(p, q orb.Point) orb.Point { return orb.Point{p[0] - q[0], p[1] - q[1]} }
