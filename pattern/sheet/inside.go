package sheet

import (
	"math"
	"slices"
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/clip"
	"openwork/geometry/residue"
	"openwork/pattern/draft"
)

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
	LostToSheet Lost = "thick"  // the sheet is so thick beside it that paste may stay in it: a warning
)

// LostOf says how an opening is too small as a whole; empty when it is not. scale is by how much the opening will be
// larger than the shape.
func LostOf(s *geometry.Shape, scale float64, need draft.Sheet) Lost {
	switch {
	case need.Kerf > 0 && !s.HasRoom(need.Kerf/2/scale):
		return LostToKerf
	case need.Opening > 0 && !s.HasRoom(need.Opening/2/scale):
		return LostToPaste
	case !releases(s, scale, need.Thickness):
		return LostToSheet
	}
	return ""
}

// An opening lets go of its paste when the sheet is lifted where it is wide enough beside the sheet's thickness, and
// its area large enough beside that of its walls. The figures are IPC-7525's ("Stencil Design Guidelines") for solder
// paste, from memory; other pastes are taken to be no easier.
const (
	releaseWidth = 1.5  // width ÷ thickness
	releaseArea  = 0.66 // area ÷ (perimeter × thickness)
)

// releases reports whether an opening lets go of its paste. Its width is that of the largest disc that fits into it.
func releases(s *geometry.Shape, scale, thickness float64) bool {
	if thickness <= 0 {
		return true
	}
	// A disc of radius area ÷ perimeter always fits: within less of the boundary there is less area.
	radius := s.Area() / geometry.Length(s.Outline()) * scale
	enough := releaseWidth / 2 * thickness
	return radius >= releaseArea*thickness && (radius >= enough || s.HasRoom(enough/scale))
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
// itself, and there no further than they reach, so that it costs little where little is narrow. work is how many
// points were gone through for it.
func InsidePiece(s *geometry.Shape, need draft.Sheet) (f Found, work int) {
	outline := s.Outline()
	n := geometry.Points(outline)
	work = n / facingWork
	for _, side := range []struct {
		to     *[]Place
		width  float64
		inside bool
		find   finder
	}{{&f.Necks, need.Bridge, false, residue.Around}, {&f.Narrow, need.Opening, true, residue.Of}} {
		if side.width <= 0 {
			continue
		}
		found, points, ok := narrow(s, outline, side.width, side.inside, side.find)
		work += points
		if !ok {
			*side.to = places(0, outline, side.width, side.find)
			work += n
			continue
		}
		for _, p := range found {
			*side.to = append(*side.to, newPlace(p, 0))
		}
	}

	f.whole(0, outline[0], 1, need)
	return f, work
}

// NarrowOf returns the places of one polygon narrower than width mm that join stretches or hang from one, as residue.Of
// and, outside, residue.Around find them, in no order. It looks only where the polygon's boundary faces itself, in
// windows; ok is false where those do not tell, and the polygon is to be looked at as a whole.
func NarrowOf(s *geometry.Shape, width float64, inside bool) (found []residue.Piece, ok bool) {
	find := residue.Around
	if inside {
		find = residue.Of
	}
	found, _, ok = narrow(s, s.Outline(), width, inside, find)
	return found, ok
}

// narrow is NarrowOf for an outline at hand; points is how many were gone through.
func narrow(s *geometry.Shape, outline orb.MultiPolygon, width float64, inside bool, find finder) (out []residue.Piece,
	points int, ok bool) {
	for _, box := range s.Facing(width, inside, 2*windowReach*width) {
		found, n, ok := nearby(outline, box, width, find)
		points += n
		if !ok {
			return nil, points, false
		}
		for _, p := range found { // one that touches two boxes is found in both windows
			if !slices.ContainsFunc(out, func(q residue.Piece) bool { return coincide(p, q) }) {
				out = append(out, p)
			}
		}
	}
	return out, points, true
}

// sameSlack in mm: places found twice, in two windows, differ by less.
const sameSlack = 1e-5

const (
	// windowReach is how far round a place where the boundary faces itself an outline is kept, in widths. The sides of
	// such a window make narrow what lies no further than one width from them; a narrow place that comes so near is
	// looked for without a window.
	windowReach = 1.6

	// facingWork is how many edges are asked what they face in the time in which a point is gone through for narrow
	// places.
	facingWork = 10
)

// finder is residue.Of or residue.Around.
type finder func(region orb.MultiPolygon, width, tolerance float64) ([]residue.Piece, error)

// coincide reports whether two places are one, found twice.
func coincide(p, q residue.Piece) bool {
	a, b := middle(p.P, p.Q), middle(q.P, q.Q)
	return math.Hypot(a[0]-b[0], a[1]-b[1]) < sameSlack && math.Abs(p.Width-q.Width) < sameSlack
}

// nearby finds the narrow places of an outline that touch a box, in what a window leaves of it. ok is false where the
// window is too small, or leaves nearly all.
func nearby(outline orb.MultiPolygon, box orb.Bound, width float64, find finder) (out []residue.Piece, points int,
	ok bool) {
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
			out = append(out, p)
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

// outlineTolerance in mm is asked of the outlines of narrow places, which nothing here draws.
const outlineTolerance = 0.1

// places finds the narrow places of one polygon, the narrowest first. Where nothing is wide enough there is none to
// report: an island is reported as one, and an opening lost as a whole too. A width of 0 asks for nothing. A polygon
// whose narrow places cannot be found has none here; the check of the panel reports the error.
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
