package pattern

import (
	"fmt"
	"slices"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// subjectOf returns the subject that the command names, in a list of the draft's own.
func subjectOf(d *draft.Draft, id string) (*draft.Subject, error) {
	i := d.Subject(id)
	if i < 0 {
		return nil, fmt.Errorf("no subject is called %.40q", id)
	}
	d.Subjects = slices.Clone(d.Subjects)
	return &d.Subjects[i], nil
}

// applySubject adds a subject under the name Text: of Outline, or of the silhouette ID. Where no x and y say otherwise
// the middle of its box lies in the middle of the panel.
func applySubject(d *draft.Draft, c Command) error {
	s := draft.Subject{Name: c.Text, Scale: 1, Room: draft.UsualRoom, Edge: draft.Crop}
	if c.ID != "" {
		from, ok := d.Silhouette(c.ID)
		if !ok {
			return fmt.Errorf("no silhouette is called %.40q", c.ID)
		}
		s.Outline = from.Outline
		if s.Name == "" {
			s.Name = from.Name
		}
	} else {
		s.Outline = geometry.SnapOutline(geometry.Orient(c.Outline))
	}

	for n := 1; ; n++ {
		if s.ID = "subject" + strconv.Itoa(n); d.Subject(s.ID) < 0 {
			break
		}
	}
	if s.Name == "" {
		s.Name = s.ID
	}
	draft.SubjectObject.Set(&s, c.Values)
	if len(s.Outline) > 0 {
		middle, there := s.Outline.Bound().Center(), d.PanelBound().Center()
		at := s.Map().Apply(middle)
		for i, name := range [2]string{"x", "y"} {
			if _, said := c.Values[name]; !said {
				s.At[i] = geometry.Snap(s.At[i] + there[i] - at[i])
			}
		}
	}
	d.Subjects = append(slices.Clone(d.Subjects), s)
	return nil
}

// applySubjectPlace moves, turns or scales the subject ID, or gives it another room: x, y and room in panel mm, turn in
// degrees, scale. A coordinate that is not given is what keeps the centre of area where it was.
func applySubjectPlace(d *draft.Draft, c Command) error {
	s, err := subjectOf(d, c.ID)
	if err != nil {
		return err
	}
	return aboutCentre(s, c, func() {
		draft.SubjectObject.Set(s, c.Values)
		if _, ok := c.Values["turn"]; ok {
			s.Turn = wrapDegrees(s.Turn)
		}
	})
}

// aboutCentre changes a subject and keeps its centre of area where it was, along the axes that the command does not
// set.
func aboutCentre(s *draft.Subject, c Command, change func()) error {
	heart := geometry.Centroid(s.Outline)
	before := s.Map().Apply(heart)
	was := *s
	change()
	if s.Turn == was.Turn && s.Scale == was.Scale && s.Mirrored == was.Mirrored {
		return nil
	}
	after := s.Map().Apply(heart)
	for i, name := range [2]string{"x", "y"} {
		if _, said := c.Values[name]; !said {
			s.At[i] = geometry.Snap(s.At[i] + before[i] - after[i])
		}
	}
	return nil
}

// applySubjectMirror makes the subject ID mirrored or not, as Flag says, about its centre of area.
func applySubjectMirror(d *draft.Draft, c Command) error {
	s, err := subjectOf(d, c.ID)
	if err != nil {
		return err
	}
	return aboutCentre(s, Command{}, func() { s.Mirrored = c.Flag })
}

// applySubjectEdge says what becomes of the pattern at the subject ID.
func applySubjectEdge(d *draft.Draft, c Command) error {
	s, err := subjectOf(d, c.ID)
	if err == nil {
		s.Edge = draft.Edge(c.Text)
	}
	return err
}

func applySubjectName(d *draft.Draft, c Command) error {
	s, err := subjectOf(d, c.ID)
	if err == nil {
		s.Name = c.Text
	}
	return err
}

// applySubjectOutline gives the subject ID another outline, with the middle of its box where that of the old one was.
func applySubjectOutline(d *draft.Draft, c Command) error {
	s, err := subjectOf(d, c.ID)
	if err != nil {
		return err
	}
	outline := geometry.SnapOutline(geometry.Orient(c.Outline))
	if len(outline) > 0 && c.Flag { // from elsewhere; one redrawn stays in its frame
		was, now := s.Map().Apply(s.Outline.Bound().Center()), s.Map().Apply(outline.Bound().Center())
		d := orb.Point{was[0] - now[0], was[1] - now[1]}
		s.At = [2]float64{geometry.Snap(s.At[0] + d[0]), geometry.Snap(s.At[1] + d[1])}
	}
	s.Outline = outline
	return nil
}

// applySubjectRemove takes the subject ID away.
func applySubjectRemove(d *draft.Draft, c Command) error {
	i := d.Subject(c.ID)
	if i < 0 {
		return fmt.Errorf("no subject is called %.40q", c.ID)
	}
	d.Subjects = slices.Delete(slices.Clone(d.Subjects), i, i+1)
	if len(d.Subjects) == 0 {
		d.Subjects = nil
	}
	return nil
}
