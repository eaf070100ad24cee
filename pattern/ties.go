package pattern

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry"
	// The overlay is linked into the editor for ties alone: it runs when a tie or an outline has changed, never in a frame
	// of a drag, and Shapes keeps what came of it.
	"openwork/geometry/overlay"
)

// Tie is a strip of sheet left across an opening on purpose: the rectangle Width wide round the segment From–To, which
// ends flush at both. With a silhouette the numbers are in that silhouette's own frame, and every copy of it has the tie;
// without one they are field mm, and the tie stands for its whole orbit under the group.
type Tie struct {
	Silhouette string     `json:"silhouette"` // empty for the field; null in a file
	From       [2]float64 `json:"from"`
	To         [2]float64 `json:"to"`
	Width      float64    `json:"width"`
}

// MarshalJSON writes the tie as it stands in a file, null for the field.
func (t Tie) MarshalJSON() ([]byte, error) {
	var id *string
	if t.Silhouette != "" {
		id = &t.Silhouette
	}
	return json.Marshal(struct {
		Silhouette *string    `json:"silhouette"`
		From       [2]float64 `json:"from"`
		To         [2]float64 `json:"to"`
		Width      float64    `json:"width"`
	}{id, t.From, t.To, t.Width})
}

// Length returns how far From is from To, in the tie's own frame.
func (t Tie) Length() float64 { return math.Hypot(t.To[0]-t.From[0], t.To[1]-t.From[1]) }

// Rect returns the tie's rectangle in its own frame, counter-clockwise. A tie without length has none.
func (t Tie) Rect() orb.Polygon {
	l := t.Length()
	if l == 0 {
		return nil
	}
	x, y := -(t.To[1]-t.From[1])/l*t.Width/2, (t.To[0]-t.From[0])/l*t.Width/2
	a, b := t.From, t.To
	return orb.Polygon{{{a[0] - x, a[1] - y}, {b[0] - x, b[1] - y}, {b[0] + x, b[1] + y}, {a[0] + x, a[1] + y}, {a[0] - x, a[1] - y}}}
}

// Mapped returns the tie under a map that keeps shapes; its width follows the map's scale.
func (t Tie) Mapped(m geometry.Map) Tie {
	t.From, t.To = m.Apply(t.From), m.Apply(t.To)
	t.Width *= math.Sqrt(math.Abs(m.Det()))
	return t
}

// same reports whether two ties' segments lie within slack mm of each other, either way round, and are as wide.
func (t Tie) same(u Tie, slack float64) bool {
	near := func(p, q [2]float64) bool { return math.Hypot(p[0]-q[0], p[1]-q[1]) <= slack }
	return math.Abs(t.Width-u.Width) <= slack &&
		((near(t.From, u.From) && near(t.To, u.To)) || (near(t.From, u.To) && near(t.To, u.From)))
}

// snapped returns the tie on the draft's grid.
func (t Tie) snapped() Tie {
	for i := range t.From {
		t.From[i], t.To[i] = geometry.Snap(t.From[i]), geometry.Snap(t.To[i])
	}
	t.Width = geometry.Snap(t.Width)
	return t
}

// tiesOf returns the ties of a silhouette, or of the field for "", and where in the list the first of them stands.
func (d Draft) tiesOf(id string) (ties []Tie, first int) {
	for i, t := range d.Ties {
		if t.Silhouette == id {
			if len(ties) == 0 {
				first = i
			}
			ties = append(ties, t)
		}
	}
	return ties, first
}

// lessTies returns an outline less the ties' rectangles. It fails when nothing is left of it.
func lessTies(mp orb.MultiPolygon, ties []Tie) (orb.MultiPolygon, error) {
	rects := make(orb.MultiPolygon, 0, len(ties))
	for _, t := range ties {
		if r := t.Rect(); r != nil {
			rects = append(rects, r)
		}
	}
	out, err := overlay.Difference(mp, rects)
	if err != nil {
		return nil, fmt.Errorf("the tie cannot be taken off its silhouette: %w", err)
	}
	if len(out) == 0 {
		return nil, errors.New("the ties leave nothing of their silhouette; make them narrower or take one away")
	}
	return out, nil
}

// checkTies says what is wrong with the ties. Silhouettes whose outline and ties are those of was are not cut again.
func (d Draft) checkTies(was Draft) error {
	if n := len(d.Ties); n > MaxTies {
		return &PlaceError{"ties", fmt.Sprintf("there are %d; a draft holds up to %d", n, MaxTies)}
	}
	for i, t := range d.Ties {
		at := func(key, text string) error { return &PlaceError{tiePlace(i) + "." + key, text} }
		if _, ok := d.Silhouette(t.Silhouette); t.Silhouette != "" && !ok {
			return at("silhouette", d.noSilhouette(t.Silhouette))
		}
		for _, s := range [...]span{
			{"from[0]", t.From[0], -MaxPlace, MaxPlace, "mm"}, {"from[1]", t.From[1], -MaxPlace, MaxPlace, "mm"},
			{"to[0]", t.To[0], -MaxPlace, MaxPlace, "mm"}, {"to[1]", t.To[1], -MaxPlace, MaxPlace, "mm"},
			{"width", t.Width, MinTie, MaxTie, "mm"},
		} {
			if text := s.fault(); text != "" {
				return at(s.place, text)
			}
		}
		if t.Length() < MinTie {
			return at("to", fmt.Sprintf("the tie's ends lie on one place; they must be at least %s mm apart", plain(MinTie)))
		}
	}
	for _, s := range d.Silhouettes {
		ties, first := d.tiesOf(s.ID)
		if len(ties) == 0 {
			continue
		}
		if old, ok := was.Silhouette(s.ID); ok && sameOutline(old.Outline, s.Outline) {
			if before, _ := was.tiesOf(s.ID); slices.Equal(before, ties) {
				continue
			}
		}
		if _, err := lessTies(s.Outline, ties); err != nil {
			return &PlaceError{tiePlace(first), err.Error()}
		}
	}
	return nil
}

func tiePlace(i int) string { return "ties[" + strconv.Itoa(i) + "]" }

// tie gives an orbit the outline less its silhouette's ties. What is one copy, because the silhouette has the symmetry of
// its place, has the ties of all the copies that coincide there.
func (l *Layout) tie(o *Orbit, s Silhouette, ties []Tie, first int) error {
	all := ties
	if o.SameAs < 0 {
		all = l.withSymmetry(o, ties)
	}
	shape, err := l.Shapes.tied(s, all)
	if err != nil {
		return &PlaceError{tiePlace(first), err.Error()}
	}
	o.Shape = shape
	o.bare = o.Images
	o.Images = slices.Clone(o.Images)
	for k, i := range o.Images {
		o.Images[k].Shape = l.Shapes.turned(shape, l.maps[i.Op].After(o.Place))
	}
	return nil
}

// withSymmetry returns the ties and their images under the operations that leave the orbit's first copy in its place, in
// the silhouette's frame; each different one once.
func (l *Layout) withSymmetry(o *Orbit, ties []Tie) []Tie {
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
			if !slices.ContainsFunc(all, func(u Tie) bool { return t.same(u, SameSlack/scaleOf(o.Place)) }) {
				all = append(all, t)
			}
		}
	}
	return all
}

func scaleOf(m geometry.Map) float64 { return math.Sqrt(math.Abs(m.Det())) }

// roundTie takes off the rounding of the maps that carried a tie, so that a motif moved along a mirror finds its outline
// in the store again. 1e-7 mm is far above that rounding and far below the draft's grid.
func roundTie(t Tie) Tie {
	r := func(v float64) float64 { return math.Round(v*1e7) / 1e7 }
	for i := range t.From {
		t.From[i], t.To[i] = r(t.From[i]), r(t.To[i])
	}
	t.Width = r(t.Width)
	return t
}

// TiesIn returns the rectangles, in panel mm and counter-clockwise, of all images of the field's ties whose boxes meet a
// window of the panel; of images that coincide to SameSlack the first. Ties of silhouettes are not among them: their
// openings have them already. It fails when there would be more than MaxTieCopies.
func (l *Layout) TiesIn(window orb.Bound) ([]orb.Polygon, error) {
	var out []orb.Polygon
	for i, t := range l.Draft.Ties {
		if t.Silhouette != "" {
			continue
		}
		images, whole := l.tieImages(t, window, MaxTieCopies-len(out))
		if !whole {
			return nil, &PlaceError{tiePlace(i), fmt.Sprintf(
				"the panel would need more than %d ties; make the cell larger or take ties away", MaxTieCopies)}
		}
		for _, u := range images {
			out = append(out, u.Rect())
		}
	}
	return out, nil
}

// TieImages returns a tie's images whose boxes meet a window of the panel, in panel mm: of a tie of the field its orbit, of
// a silhouette's its images in all copies, those left out by the edge rule among them. The draft need not have the tie.
func (l *Layout) TieImages(t Tie, window orb.Bound) []Tie {
	if t.Silhouette == "" {
		out, _ := l.tieImages(t, window, MaxTieCopies)
		return out
	}
	var out []Tie
	for i, m := range l.Draft.Motifs {
		if m.Silhouette == t.Silhouette && l.Orbits[i].SameAs < 0 {
			more, _ := l.tieImages(t.Mapped(l.Orbits[i].Place), window, MaxTieCopies-len(out))
			out = append(out, more...)
		}
	}
	return out
}

// tieImages returns the images of a tie in field mm on the panel; false when there are more than most.
func (l *Layout) tieImages(t Tie, window orb.Bound, most int) (out []Tie, whole bool) {
	t.Silhouette = ""
	toPanel := l.Draft.FieldMap()
	inField := boundOf(window, toPanel.Rigid())
	var different []Tie
	for _, m := range l.maps {
		u := t.Mapped(m)
		if slices.ContainsFunc(different, func(o Tie) bool { return l.sameTie(u, o) }) {
			continue
		}
		different = append(different, u)
		if !l.Cells(inField, u.Rect().Bound(), func(a, b int) bool {
			v := l.Lattice(a, b)
			p := u.Mapped(toPanel.After(geometry.Translate(v[0], v[1])))
			if p.Rect().Bound().Intersects(window) {
				out = append(out, p)
			}
			return len(out) <= most
		}) {
			return nil, false
		}
	}
	return out, true
}

// sameTie reports whether two ties of the field coincide when one is moved by the lattice.
func (l *Layout) sameTie(t, u Tie) bool {
	middle := func(t Tie) orb.Point { return orb.Point{(t.From[0] + t.To[0]) / 2, (t.From[1] + t.To[1]) / 2} }
	v := l.NearestLattice(geometry.Sub(middle(t), middle(u)))
	return t.same(u.Mapped(geometry.Translate(v[0], v[1])), SameSlack)
}
