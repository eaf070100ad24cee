package sheet

import (
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/clip"
	"openwork/geometry/residue"
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
func LostOf(s *geometry.Shape, scale float64, need draft.Sheet) Lost {
	switch {
	case need.Kerf > 0 && !s.HasRoom(need.Kerf/2/scale):
		return LostToKerf
	case need.Opening > 0 && !s.HasRoom(need.Opening/2/scale):
		return LostToPaste
	}
	return ""
}

// Look returns what a silhouette shows at a scale.
func (w *Within) Look(s *geometry.Shape, scale float64, need draft.Sheet) Found {
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
func Inside(outline orb.MultiPolygon, scale float64, need draft.Sheet) (f Found) {
	for i, p := range outline {
		one := orb.MultiPolygon{p}
		f.Necks = append(f.Necks, places(i, one, need.Bridge/scale, residue.Around)...)
		f.Narrow = append(f.Narrow, places(i, one, need.Opening/scale, residue.Of)...)
		f.whole(i, p, scale, need)
	}
	return f
}

// InsidePiece is Inside for one polygon at scale 1. It looks for narrow places only where the polygon's boundary faces
// itself, and there no further than they reach, so that it costs little where little is narrow. work tells how many
// points were gone through for it.
func InsidePiece(s *geometry.Shape, need draft.Sheet) (f Found, work int) {
	outline := s.Outline()
	n := geometry.Points(outline)
	work = n * n / facingWork
	for _, side := range []struct {
		to     *[]Place
		width  float64
		inside bool
		find   finder
	}{{&f.Necks, need.Bridge, false, residue.Around}, {&f.Narrow, need.Opening, true, residue.Of}} {
		if side.width <= 0 {
			continue
		}
		all := false
		for _, box := range s.Facing(side.width, side.inside, 2*windowReach*side.width) {
			found, points, ok := nearby(outline, box, side.width, side.find)
			work += points
			if !ok {
				all = true
				break
			}
			for _, p := range found { // one that touches two boxes is found in both windows
				if !slices.ContainsFunc(*side.to, p.coincides) {
					*side.to = append(*side.to, p)
				}
			}
		}
		if all {
			*side.to = places(0, outline, side.width, side.find)
			work += n
		}
	}
	f.whole(0, outline[0], 1, need)
	return f, work
}

// coincides reports whether two places are one, found twice.
func (p Place) coincides(q Place) bool {
	a, b := middle(p.P, p.Q), middle(q.P, q.Q)
	return math.Hypot(a[0]-b[0], a[1]-b[1]) < sameSlack && math.Abs(p.Width-q.Width) < sameSlack
}

// sameSlack in mm: places found twice, in two windows, differ by less.
const sameSlack = 1e-5

const (
	// windowReach is how far round a place where the boundary faces itself an outline is kept, in widths. The sides of
	// such a window make narrow what lies no further than one width from them; a narrow place that comes so near is looked for
	// without a window.
	windowReach = 1.6

	// facingWork is how many pairs of edges are compared in the time in which a point is gone through for narrow places.
	facingWork = 1000
)

// finder is residue.Of or residue.Around.
type finder func(region orb.MultiPolygon, width, tolerance float64) ([]residue.Piece, error)

// nearby finds the narrow places of an outline that touch a box, in what a window leaves of it. ok is false where the window is
// too small, or leaves nearly all.
func nearby(outline orb.MultiPolygon, box orb.Bound, width float64, find finder) (out []Place, points int, ok bool) {
	window, all := box.Pad(windowReach*width), outline.Bound()
	for x := range 2 {
		if window.Min[x] <= all.Min[x] {
			window.Min[x] = math.Inf(-1)
		}
		if window.Max[x] >= all.Max[x] {
			window.Max[x] = math.Inf(1)
		}
	}
	cut := clip.ToRect(outline, window)
	if points = geometry.Points(cut); 5*points > 4*geometry.Points(outline) {
		return nil, 0, false
	}
	found, err := find(cut, width, outlineTolerance)
	if err != nil {
		return nil, points, false
	}
	sure := window.Pad(-width)
	for _, p := range found {
		b := p.Outline.Bound()
		switch {
		case !b.Intersects(box):
		case !sure.Contains(b.Min) || !sure.Contains(b.Max):
			return nil, points, false
		case p.Stretches > 0:
			out = append(out, newPlace(p, 0))
		}
	}
	return out, points, true
}

// whole adds what a polygon is as a whole: lost, and its holes.
func (f *Found) whole(i int, p orb.Polygon, scale float64, need draft.Sheet) {
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
func places(part int, mp orb.MultiPolygon, width float64, find finder) []Place {
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
			out = append(out, newPlace(p, part))
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Width < out[j].Width })
	return out
}

func newPlace(p residue.Piece, part int) Place {
	return Place{Neck: geometry.Neck{P: p.P, Q: p.Q, Width: p.Width}, Hangs: !p.Joins(), Length: p.Length, Part: part}
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
