package sheet

import (
	"sort"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/residue"
	"openwork/pattern"
)

// Within keeps what was found inside single silhouettes, which does not change while a copy is dragged or turned. The
// zero value is ready. It is not safe for use from two goroutines.
type Within struct{ found map[withinKey]withinFound }

type withinKey struct {
	shape           *geometry.Shape
	scale           float64
	bridge, opening float64
}

type withinFound struct{ necks, narrow, islands []Place }

// of returns the narrow places of the sheet, those of the opening, and the holes of a silhouette at a scale, in the silhouette's own frame and in mm
// at that scale.
func (w *Within) of(s *geometry.Shape, scale float64, sheet pattern.Sheet) withinFound {
	key := withinKey{s, scale, sheet.Bridge, sheet.Opening}
	if f, ok := w.found[key]; ok {
		return f
	}
	var f withinFound
	outline := s.Outline()
	f.necks = places(residue.Around(outline, sheet.Bridge/scale, outlineTolerance))
	f.narrow = places(residue.Of(outline, sheet.Opening/scale, outlineTolerance))
	for _, p := range outline {
		for _, hole := range p[min(1, len(p)):] {
			at := geometry.Centroid(orb.MultiPolygon{{hole}})
			f.islands = append(f.islands, Place{Neck: geometry.Neck{P: at, Q: at}, Area: -geometry.RingArea(hole) * scale * scale})
		}
	}
	if w.found == nil || len(w.found) > 200 {
		w.found = map[withinKey]withinFound{}
	}
	w.found[key] = f
	return f
}

// outlineTolerance in mm is asked of the outlines of narrow places, which nothing here draws.
const outlineTolerance = 0.1

// places takes over narrow places, the narrowest first. Where nothing is wide enough there is none to tell: an island is
// told as one, and an opening lost as a whole by the check of the panel. A silhouette whose narrow places cannot be
// found has none here; the check of the panel tells the error.
func places(found []residue.Piece, err error) []Place {
	if err != nil {
		return nil
	}
	var out []Place
	for _, p := range found {
		if p.Stretches > 0 {
			out = append(out, Place{Neck: geometry.Neck{P: p.P, Q: p.Q, Width: p.Width}, Hangs: !p.Joins(), Length: p.Length})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Width < out[j].Width })
	return out
}

// fill adds what lies within each motif's silhouette, carried to the motif's place.
func (w *Within) fill(l *pattern.Layout, live *Live) {
	if w == nil {
		return
	}
	for i, o := range l.Orbits {
		if o.SameAs >= 0 {
			continue
		}
		scale := l.Draft.Motifs[i].Scale
		f := w.of(o.Shape, scale, l.Draft.Sheet)
		carry := func(from []Place, to *[]Place) {
			for _, p := range from {
				p.Motif = i
				p.P, p.Q, p.Width = o.Place.Apply(p.P), o.Place.Apply(p.Q), p.Width*scale
				p.Length *= scale
				*to = append(*to, p)
			}
		}
		carry(f.necks, &live.Necks)
		carry(f.narrow, &live.Narrow)
		carry(f.islands, &live.Islands)
	}
}
