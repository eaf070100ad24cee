package desk

import (
	"fmt"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// CopySilhouette adds a second silhouette like one, under a name of its own.
func (k *Desk) CopySilhouette(id string) error {
	s, ok := k.Session.Draft().Silhouette(id)
	if !ok {
		return fmt.Errorf("no silhouette is called %.40q", id)
	}
	return k.Do(pattern.Command{Name: "draw", Text: k.Session.FreshName(s.Name), Outline: s.Outline})
}

// MirrorSilhouette turns a silhouette the other way round, about the upright line through the middle of its box, and
// its ties with it; its motifs stay where they are.
func (k *Desk) MirrorSilhouette(id string) error {
	s, ok := k.Session.Draft().Silhouette(id)
	if !ok {
		return fmt.Errorf("no silhouette is called %.40q", id)
	}

	k.letGo()
	b := s.Outline.Bound()
	m := geometry.MirrorX.Moved(b.Min[0]+b.Max[0], 0)
	ties := append([]draft.Tie(nil), k.Session.Draft().Ties...)
	for i, t := range ties {
		if t.Silhouette == id {
			ties[i].From, ties[i].To = m.Apply(t.From), m.Apply(t.To)
		}
	}

	k.Session.history.Begin()
	commands := []pattern.Command{{Name: "redraw", ID: id, Outline: geometry.Transform(s.Outline, m)}}
	if len(ties) > 0 {
		commands = append([]pattern.Command{{Name: "ties", Ties: ties}}, commands...)
	}

	for _, c := range commands {
		if err := k.Session.Step(c); err != nil {
			k.Session.history.Abandon()
			return err
		}
	}

	k.Session.history.Settle()
	k.finish(true)
	return nil
}
