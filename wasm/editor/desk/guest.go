package desk

import (
	"strings"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// Demonstration tells the desk what the page shows to somebody who has drawn nothing yet: a first drawing of their own
// takes its place. Text that is no draft is passed over.
func (k *Desk) Demonstration(text string) {
	d, err := draft.Decode(strings.NewReader(text))
	if err != nil {
		return
	}
	k.Session.guests = map[string]int{}
	for _, s := range d.Silhouettes {
		k.Session.guests[s.ID] = geometry.Points(s.Outline)
	}
}

// Demonstrates reports whether all silhouettes on the desk are those of the demonstration, as they were drawn, and
// nothing of one's own stands in front or has been mixed.
func (s *Session) Demonstrates() bool {
	d := s.Draft()
	list := d.Silhouettes
	if len(d.Subjects) > 0 || len(d.Swatches) > 0 {
		return false
	}
	for _, each := range list {
		if n, ok := s.guests[each.ID]; !ok || n != geometry.Points(each.Outline) {
			return false
		}
	}
	return len(list) > 0
}

// ClearFor empties the desk inside the open entry for a drawing of a name, which becomes the draft's title. The panel,
// the field, the sheet and the plane group stay as they are.
func (s *Session) ClearFor(name string) {
	was, next := s.Draft(), draft.Default()
	next.Title, next.Units = name, was.Units
	next.Panel, next.Field, next.Sheet, next.Repeat = was.Panel, was.Field, was.Sheet, was.Repeat
	s.history.Step(next, pattern.Command{Name: "draw"}.Label())
	s.sel.Keep(next)
	s.LayOutAgain(false)
}
