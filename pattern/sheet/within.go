package sheet

import (
	"math"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/clip"
	"openwork/geometry/residue"
	"openwork/pattern"
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
}

// Found is what one silhouette shows, in its own frame, each of its polygons by itself. Widths and lengths are in that
// frame too, areas in mm² at the scale it was looked at.
type Found struct {
	Necks   []Place // bridges and tongues of sheet
	Narrow  []Place // places of an opening that are too narrow
	Lost    []Place // openings too small as a whole
	Holes   []Hole
	between []Place // the narrowest way between its polygons first, then all that are too near
}

// Hole is a piece of sheet that a silhouette closes in.
type Hole struct {
	Shape *geometry.Shape // what closes it in, filled
	Place Place
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

// Look returns what a silhouette shows at a scale.
func (w *Within) Look(s *geometry.Shape, scale float64, need pattern.Sheet) Found {
	key := withinKey{s, scale, need.Bridge, need.Opening, need.Kerf}
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

// Inside finds what an outline shows at a scale, each of its polygons by itself.
func Inside(outline orb.MultiPolygon, scale float64, need pattern.Sheet) (f Found) {
	for i, p := range outline {
		one := orb.MultiPolygon{p}
		f.Necks = append(f.Necks, Necks(i, one, need.Bridge/scale)...)
		f.Narrow = append(f.Narrow, Narrows(i, one, need.Opening/scale)...)
		f.whole(i, p, scale, need)
	}
	return f
}

// InsidePiece is Inside for one polygon at scale 1. It looks for narrow places only where the polygon's boundary faces
// itself, and there no further than they reach, so that it costs little where little is narrow.
func InsidePiece(s *geometry.Shape, need pattern.Sheet) (f Found) {
	outline := s.Outline()
	if box, ok := s.Facing(need.Bridge, false); ok {
		f.Necks = nearby(outline, box, need.Bridge, Necks)
	}
	if box, ok := s.Facing(need.Opening, true); ok {
		f.Narrow = nearby(outline, box, need.Opening, Narrows)
	}
	f.whole(0, outline[0], 1, need)
	return f
}

const (
	// narrowReach is how far from where the boundary faces itself a narrow place may lie, in widths, and a little over:
	// see geometry.Shape.Facing.
	narrowReach = 1.51

	// windowReach is how far round it an outline is kept, in widths: what a window's sides make narrow is no further
	// than one width from them.
	windowReach = 2.55
)

// nearby finds the narrow places of an outline round a box, in what a window leaves of it.
func nearby(outline orb.MultiPolygon, box orb.Bound, width float64, find func(int, orb.MultiPolygon, float64) []Place) []Place {
	cut := clip.ToRect(outline, box.Pad(windowReach*width))
	if 4*geometry.Points(cut) > 3*geometry.Points(outline) {
		return find(0, outline, width)
	}
	var out []Place
	for _, p := range find(0, cut, width) {
		if box.Pad(narrowReach * width).Contains(middle(p.P, p.Q)) {
			out = append(out, p)
		}
	}
	return out
}

// whole adds what a polygon is as a whole: lost, and its holes.
func (f *Found) whole(i int, p orb.Polygon, scale float64, need pattern.Sheet) {
	if how := LostOf(geometry.NewShape(orb.MultiPolygon{p}), scale, need); how != "" {
		at := geometry.InnerPoint(p)
		f.Lost = append(f.Lost, Place{Neck: geometry.Neck{P: at, Q: at}, Lost: how, Part: i})
	}
	for _, ring := range p[min(1, len(p)):] {
		filled := geometry.Orient(orb.MultiPolygon{{ring}})
		at := geometry.InnerPoint(filled[0])
		f.Holes = append(f.Holes, Hole{geometry.NewShape(filled),
			Place{Neck: geometry.Neck{P: at, Q: at}, Area: geometry.Area(filled) * scale * scale, Part: i}})
	}
}

// Necks returns the bridges and tongues of sheet round a polygon and in its holes.
func Necks(part int, mp orb.MultiPolygon, width float64) []Place {
	return places(part, mp, width, residue.Around)
}

// Narrows returns the places where an opening is too narrow.
func Narrows(part int, mp orb.MultiPolygon, width float64) []Place {
	return places(part, mp, width, residue.Of)
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
			out = append(out, Place{Neck: geometry.Neck{P: p.P, Q: p.Q, Width: p.Width}, Hangs: !p.Joins(), Length: p.Length, Part: part})
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
		a, b := sub(p, shift), sub(q, shift)
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
		lies := placed.Contains(add(b.Min, shift)) && placed.Contains(add(b.Max, shift))
		if lies && h.Shape.Contains(back.Apply(add(p.First, shift))) {
			found = append(found, inner{p, shift})
		}
		return true
	})

	sum := 0.0
	for x, a := range found {
		direct := true
		for y, b := range found {
			if x != y && b.Outer > a.Outer && b.Encloses(add(a.First, sub(a.shift, b.shift))) {
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

func add(p, q orb.Point) orb.Point { return orb.Point{p[0] + q[0], p[1] + q[1]} }
func sub(p, q orb.Point) orb.Point { return orb.Point{p[0] - q[0], p[1] - q[1]} }
