package pattern

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// tie gives an orbit the outline less its silhouette's ties. What is one copy, because the silhouette has the symmetry
// of its place, has the ties of all the copies that coincide there.
func (l *Layout) tie(o *Orbit, s draft.Silhouette, ties []draft.Tie, first int) error {
	all := ties
	if o.SameAs < 0 {
		all = l.withSymmetry(o, ties)
	}
	shape, err := l.Shapes.tied(s, all)
	if err != nil {
		return &draft.PlaceError{Place: draft.TiePlace(first), Text: err.Error()}
	}
	o.Shape = shape
	o.bare = o.Images
	o.Images = slices.Clone(o.Images)
	for k, i := range o.Images {
		o.Images[k].Shape = l.Shapes.turned(shape, l.maps[i.Op].After(o.Place))
	}
	return nil
}

// withSymmetry returns the ties and their images under the operations that leave the orbit's first copy in its place,
// in the silhouette's frame; each different one once.
func (l *Layout) withSymmetry(o *Orbit, ties []draft.Tie) []draft.Tie {
	all := slices.Clone(ties)
	back, ok := o.Place.Inverse()
	if !ok || len(o.Images) == 0 {
		return all
	}
	home := o.Images[0]
	for k := range l.maps {
		m := l.maps[k].After(o.Place)
		there := Image{Shape: l.Shapes.turned(o.Bare, m), At: orb.Point{m.X, m.Y}}
		v := l.NearestLattice(geometry.Sub(home.Centroid(), there.Centroid()))
		if k == 0 || !sameImage(home, there, v) {
			continue
		}
		f := back.After(m.Moved(v[0], v[1]))
		for _, t := range ties {
			t = roundTie(t.Mapped(f))
			if !slices.ContainsFunc(all, func(u draft.Tie) bool { return t.Same(u, SameSlack/scaleOf(o.Place)) }) {
				all = append(all, t)
			}
		}
	}
	return all
}

func scaleOf(m geometry.Map) float64 { return math.Sqrt(math.Abs(m.Det())) }

// roundTie takes off the rounding of the maps that carried a tie, so that a motif moved along a mirror finds its
// outline in the store again. 1e-7 mm is far above that rounding and far below the draft's grid.
func roundTie(t draft.Tie) draft.Tie {
	r := func(v float64) float64 { return math.Round(v*1e7) / 1e7 }
	for i := range t.From {
		t.From[i], t.To[i] = r(t.From[i]), r(t.To[i])
	}
	t.Width = r(t.Width)
	return t
}

// TiesIn returns the rectangles, in panel mm and counter-clockwise, of all images of the field's ties whose boxes meet
// a window of the panel; of images that coincide to SameSlack the first. Ties of silhouettes are not among them: their
// openings have them already. It fails when there would be more than MaxTieCopies.
func (l *Layout) TiesIn(window orb.Bound) ([]orb.Polygon, error) {
	var out []orb.Polygon
	for i, t := range l.Draft.Ties {
		if t.Silhouette != "" {
			continue
		}
		images, whole := l.tieImages(t, window, MaxTieCopies-len(out))
		if !whole {
			return nil, &draft.PlaceError{Place: draft.TiePlace(i), Text: fmt.Sprintf(
				"the panel would need more than %d ties; make the cell larger or take ties away", MaxTieCopies)}
		}
		for _, u := range images {
			out = append(out, u.Rect())
		}
	}
	return out, nil
}

// TieImages returns a tie's images whose boxes meet a window of the panel, in panel mm: of a tie of the field its
// orbit, of a silhouette's its images in all copies, those left out by the edge rule among them. The draft need not
// have the tie.
func (l *Layout) TieImages(t draft.Tie, window orb.Bound) []draft.Tie {
	if t.Silhouette == "" {
		out, _ := l.tieImages(t, window, MaxTieCopies)
		return out
	}
	var out []draft.Tie
	for i, m := range l.Draft.Motifs {
		if m.Silhouette == t.Silhouette && l.Orbits[i].SameAs < 0 {
			more, _ := l.tieImages(t.Mapped(l.Orbits[i].Place), window, MaxTieCopies-len(out))
			out = append(out, more...)
		}
	}
	return out
}

// tieImages returns the images of a tie in field mm on the panel; false when there are more than most.
func (l *Layout) tieImages(t draft.Tie, window orb.Bound, limit int) (out []draft.Tie, whole bool) {
	t.Silhouette = ""
	toPanel := l.Draft.FieldMap()
	inField := boundOf(window, toPanel.Rigid())
	var different []draft.Tie
	for _, m := range l.maps {
		u := t.Mapped(m)
		if slices.ContainsFunc(different, func(o draft.Tie) bool { return l.sameTie(u, o) }) {
			continue
		}
		different = append(different, u)
		if !l.Cells(inField, u.Rect().Bound(), func(a, b int) bool {
			v := l.Lattice(a, b)
			p := u.Mapped(toPanel.After(geometry.Translate(v[0], v[1])))
			if p.Rect().Bound().Intersects(window) {
				out = append(out, p)
			}
			return len(out) <= limit
		}) {
			return nil, false
		}
	}
	return out, true
}

// sameTie reports whether two ties of the field coincide when one is moved by the lattice.
func (l *Layout) sameTie(t, u draft.Tie) bool {
	middle := func(t draft.Tie) orb.Point { return orb.Point{(t.From[0] + t.To[0]) / 2, (t.From[1] + t.To[1]) / 2} }
	v := l.NearestLattice(geometry.Sub(middle(t), middle(u)))
	return t.Same(u.Mapped(geometry.Translate(v[0], v[1])), SameSlack)
}
