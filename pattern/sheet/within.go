package sheet

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
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

// of returns the necks, narrow openings and holes of a silhouette at a scale, in the silhouette's own frame and in mm
// at that scale.
func (w *Within) of(s *geometry.Shape, scale float64, sheet pattern.Sheet) withinFound {
	key := withinKey{s, scale, sheet.Bridge, sheet.Opening}
	if f, ok := w.found[key]; ok {
		return f
	}
	var f withinFound
	for _, n := range s.Necks(sheet.Bridge/scale, false) {
		f.necks = append(f.necks, Place{Neck: n})
	}
	for _, n := range s.Necks(sheet.Opening/scale, true) {
		f.narrow = append(f.narrow, Place{Neck: n})
	}
	for _, p := range s.Outline() {
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
				*to = append(*to, p)
			}
		}
		carry(f.necks, &live.Necks)
		carry(f.narrow, &live.Narrow)
		carry(f.islands, &live.Islands)
	}
}
