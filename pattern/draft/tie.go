package draft

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	// The overlay is linked into the editor for ties alone: it runs when a tie or an outline has changed, never in a
	// frame of a drag, and what came of it is kept.
	"openwork/geometry/overlay"
)

// Tie is a strip of sheet left across an opening on purpose: the rectangle Width wide round the segment From–To, which
// ends flush at both. With a silhouette the numbers are in that silhouette's own frame, and every copy of it has the
// tie; without one they are field mm, and the tie stands for its whole orbit under the group.
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
	return orb.Polygon{{{a[0] - x, a[1] - y}, {b[0] - x, b[1] - y}, {b[0] + x, b[1] + y}, {a[0] + x, a[1] + y},
		{a[0] - x, a[1] - y}}}
}

// Mapped returns the tie under a map that keeps shapes; its width follows the map's scale.
func (t Tie) Mapped(m geometry.Map) Tie {
	t.From, t.To = m.Apply(t.From), m.Apply(t.To)
	t.Width *= math.Sqrt(math.Abs(m.Det()))
	return t
}

// Same reports whether two ties' segments lie within slack mm of each other, either way round, and are as wide.
func (t Tie) Same(u Tie, slack float64) bool {
	near := func(p, q [2]float64) bool { return math.Hypot(p[0]-q[0], p[1]-q[1]) <= slack }
	return math.Abs(t.Width-u.Width) <= slack &&
		((near(t.From, u.From) && near(t.To, u.To)) || (near(t.From, u.To) && near(t.To, u.From)))
}

// Snapped returns the tie on the draft's grid.
func (t Tie) Snapped() Tie {
	for i := range t.From {
		t.From[i], t.To[i] = geometry.Snap(t.From[i]), geometry.Snap(t.To[i])
	}
	t.Width = geometry.Snap(t.Width)
	return t
}

// TiesOf returns the ties of a silhouette, or of the field for "", and where in the list the first of them stands.
func (d Draft) TiesOf(id string) (ties []Tie, first int) {
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

// LessTies returns an outline less the ties' rectangles. It fails when nothing is left of it.
func LessTies(mp orb.MultiPolygon, ties []Tie) (orb.MultiPolygon, error) {
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
