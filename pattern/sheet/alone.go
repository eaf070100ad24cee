package sheet

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/residue"
	"openwork/pattern/draft"
)

// maxNearPoints bounds the points of an outline that are gone through anew in a frame: with some forty the look at a
// moved point takes a fraction of a frame, with all of a large outline it would take several.
const maxNearPoints = 160

// Alone returns what a check says of a silhouette by itself when it is cut at a scale: places in the silhouette's own
// frame, measures in mm and mm² on the sheet. What its copies do to each other is not in it.
func (w *Within) Alone(s *geometry.Shape, scale float64, need draft.Sheet) []Problem {
	f := w.Look(s, scale, need)
	var out []Problem
	for _, p := range f.between[min(1, len(f.between)):] { // the first is the narrowest, too narrow or not
		out = append(out, tooNarrow(Bridge, p, scale, need.Bridge))
	}
	for _, p := range f.Lost {
		out = append(out, LostProblem(p.Lost, need, p.P))
	}
	for _, h := range f.Holes {
		out = append(out, Problem{Kind: Island, Severity: Fault, At: h.Place.P, Measured: h.Place.Area})
	}
	return append(out, inOrder(f.Necks, f.Narrow, scale, need)...)
}

// AloneAnew returns what Alone says of an outline that differs from one before in a box only, given what it said then:
// narrow places outside the box are kept, those that touch it are looked for anew, islands stay. all is false when that
// would be more than a frame has time for; then no narrow places that touch the box are among the answers.
func AloneAnew(before []Problem, outline orb.MultiPolygon, box orb.Bound, scale float64,
	need draft.Sheet) (out []Problem, all bool) {
	width := math.Max(need.Bridge, need.Opening) / scale
	changed := box.Pad(2 * width) // a narrow place reaches no further from what makes it narrow
	for _, p := range before {
		at := orb.Bound{Min: p.At, Max: p.At}
		if p.Ends != nil {
			at = at.Extend(p.Ends[0]).Extend(p.Ends[1])
		}
		if p.Kind == Island || !at.Intersects(changed) {
			out = append(out, p)
		}
	}

	var necks, narrows []Place
	all = true
	for i, polygon := range outline {
		one := orb.MultiPolygon{polygon}
		if !one.Bound().Intersects(changed) {
			continue
		}
		for _, side := range []struct {
			to    *[]Place
			width float64
			find  finder
		}{{&necks, need.Bridge / scale, residue.Around}, {&narrows, need.Opening / scale, residue.Of}} {
			found, ok := near(i, one, changed, side.width, side.find)
			*side.to = append(*side.to, found...)
			all = all && ok
		}
	}
	return append(out, inOrder(necks, narrows, scale, need)...), all
}

// near returns the narrow places of one polygon that touch a box; false where too much would have to be gone through.
func near(part int, one orb.MultiPolygon, box orb.Bound, width float64, find finder) ([]Place, bool) {
	if width <= 0 {
		return nil, true
	}
	if found, points, ok := nearby(one, box, width, find); ok && points <= maxNearPoints {
		var out []Place
		for _, p := range found {
			out = append(out, newPlace(p, 0))
		}
		return out, true
	}
	if geometry.Points(one) > maxNearPoints {
		return nil, false
	}
	return slices.DeleteFunc(places(part, one, width, find), func(p Place) bool {
		return !(orb.Bound{Min: p.P, Max: p.P}).Extend(p.Q).Intersects(box)
	}), true
}

// inOrder returns narrow places as problems: faults first, of each kind the narrowest first.
func inOrder(necks, narrows []Place, scale float64, need draft.Sheet) []Problem {
	var faults, warnings []Problem
	for _, side := range []struct {
		kind, hanging Kind
		found         []Place
		need          float64
	}{{Bridge, Tip, necks, need.Bridge}, {Opening, Opening, narrows, need.Opening}} {
		for _, p := range side.found {
			if !p.Hangs {
				faults = append(faults, tooNarrow(side.kind, p, scale, side.need))
				continue
			}
			it := tooNarrow(side.hanging, p, scale, side.need)
			it.Severity = Warning
			warnings = append(warnings, it)
		}
	}
	return append(faults, warnings...)
}

// tooNarrow is a place that is too narrow, as a problem.
func tooNarrow(kind Kind, p Place, scale, need float64) Problem {
	return Problem{Kind: kind, Severity: Fault, At: middle(p.P, p.Q), Measured: p.Width * scale, Required: need,
		Ends: &[2][2]float64{p.P, p.Q}}
}
