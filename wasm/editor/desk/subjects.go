package desk

import (
	"encoding/json"
	"errors"
	"fmt"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// subjectState is a subject as the page shows it.
type subjectState struct {
	ID       string  `json:"id"`
	Name     string  `json:"name"`
	X        float64 `json:"x"`
	Y        float64 `json:"y"`
	Turn     float64 `json:"turn"`
	Scale    float64 `json:"scale"`
	Room     float64 `json:"room"`
	Mirrored bool    `json:"mirrored"`
	Edge     string  `json:"edge"`
	Width    float64 `json:"width"` // of its box on the panel, mm
	Height   float64 `json:"height"`
	Points   int     `json:"points"`
	Note     string  `json:"note"` // that it lies off the panel; "" for none
}

// subjectStates are the draft's subjects.
func (s *Session) subjectStates() []subjectState {
	d := s.Draft()
	out := []subjectState{}
	for _, o := range d.Subjects {
		placed := s.SubjectShape(o)
		b := placed.Bound()
		out = append(out, subjectState{ID: o.ID, Name: o.Name, X: o.At[0], Y: o.At[1], Turn: o.Turn, Scale: o.Scale,
			Room: o.Room, Mirrored: o.Mirrored, Edge: string(o.Edge), Width: b.Max[0] - b.Min[0],
			Height: b.Max[1] - b.Min[1], Points: geometry.Points(o.Outline), Note: d.OffPanel(o, placed)})
	}
	return out
}

// SubjectShape returns a subject's prepared outline on the panel, in mm.
func (s *Session) SubjectShape(o draft.Subject) *geometry.Shape { return s.shapes.Subject(o) }

// Tangent is a place where an opening's edge runs beside a subject's, to be ringed: panel mm.
type Tangent struct {
	At      [2]float64 `json:"at"`
	Reaches float64    `json:"reaches"`
}

// Tangents takes the places to be ringed, for the draft of a revision: JSON. They are forgotten when the draft changes.
func (s *Session) Tangents(revision int, text string) error {
	if revision != s.revision {
		return nil
	}
	var all []Tangent
	if err := json.Unmarshal([]byte(text), &all); err != nil {
		return errors.New("how the figure reads could not be read; look once more")
	}
	s.tangents = all
	s.Touch()
	return nil
}

// Ringed returns the places that are ringed.
func (s *Session) Ringed() []Tangent { return s.tangents }

// Subject takes a subject up, so that the pointer and the keys move it; an unknown id lets go.
func (k *Desk) Subject(id string) {
	k.Session.EndNudge()
	if k.hand.holding() {
		k.dropHand()
	}
	if k.Session.Draft().Subject(id) >= 0 {
		k.leavePen()
		k.brush.Take(false, "")
		if k.ties.On {
			k.ties.Switch()
		}
		k.Session.Choose("")
	}
	k.subjects.Choose(id)
	k.Session.Touch()
}

// ChosenSubject returns the subject that is taken up.
func (k *Desk) ChosenSubject() (draft.Subject, bool) { return k.subjects.Chosen() }

// stepSubject takes the next subject up.
func (k *Desk) stepSubject() error {
	all := k.Session.Draft().Subjects
	if len(all) == 0 {
		return errors.New("there is no subject yet; bring one in, in the step Subject")
	}
	i := -1
	if s, ok := k.subjects.Chosen(); ok {
		i = k.Session.Draft().Subject(s.ID)
	}
	k.Subject(all[(i+1)%len(all)].ID)
	return nil
}

// removeSubject takes the subject that is taken up away.
func (k *Desk) removeSubject() error {
	s, ok := k.subjects.Chosen()
	if !ok {
		return errors.New("no subject is taken up; choose one in the step Subject first")
	}
	return k.Do(pattern.Command{Name: "subjectRemove", ID: s.ID})
}

// tryFront sets parts that together make a whole before the pattern inside the open entry and commits it: the whole's
// middle on the panel's, the parts to each other as they were drawn. With an id the whole becomes the outline of that
// subject. The last of them is taken up.
func (k *Desk) tryFront(parts []draft.Silhouette, whole draft.Silhouette, id string) error {
	if id != "" {
		parts = []draft.Silhouette{whole}
	}
	middle, there := whole.Outline.Bound().Center(), k.Session.Draft().PanelBound().Center()
	for n, s := range parts {
		from := geometry.Centroid(s.Outline) // where its own frame will have its origin
		c := pattern.Command{Name: "subject", Text: s.Name, Outline: centred(s.Outline), Values: map[string]float64{
			"x": geometry.Snap(there[0] + from[0] - middle[0]), "y": geometry.Snap(there[1] + from[1] - middle[1])}}
		if id != "" {
			c = pattern.Command{Name: "subjectOutline", ID: id, Outline: c.Outline, Flag: true}
		}
		if err := k.Session.Step(c); err != nil {
			return fmt.Errorf("piece %d cannot be used: %w", n+1, err)
		}
	}
	if err := k.Session.Commit(false); err != nil {
		return err
	}
	if id == "" {
		all := k.Session.Draft().Subjects
		id = all[len(all)-1].ID
	}
	k.Subject(id)
	return nil
}

// SeeThrough lets a photograph under the canvas be seen through the bare panel, from 0, not at all, to 1.
func (k *Desk) SeeThrough(strength float64) {
	if strength >= 0 && strength <= 1 && strength != k.through {
		k.through = strength
		k.Session.Redrawn()
	}
}

// Through returns how strongly a photograph under the canvas is seen.
func (k *Desk) Through() float64 { return k.through }
