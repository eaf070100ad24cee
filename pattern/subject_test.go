package pattern_test

import (
	"bytes"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

var square = orb.MultiPolygon{{{{0, 0}, {40, 0}, {40, 40}, {0, 40}, {0, 0}}}}

// A subject is added, placed, named and taken away by commands, each of which undo takes back; the draft is then what
// it was, and its file has no word of subjects.
func TestSubjectCommands(t *testing.T) {
	d := patterntest.Demo(t)
	h := pattern.NewHistory(d)
	do := func(c pattern.Command) draft.Subject {
		t.Helper()
		if err := h.Do(c); err != nil {
			t.Fatal(err)
		}
		return h.Draft().Subjects[0]
	}
	s := do(pattern.Command{Name: "subject", Text: "Stone", Outline: square})
	middle := s.Map().Apply(orb.Point{20, 20})
	if want := d.PanelBound().Center(); middle != want {
		t.Errorf("a new subject's middle is at %v, the panel's at %v", middle, want)
	}
	if s.Name != "Stone" || s.Room != draft.UsualRoom || s.Edge != draft.Crop {
		t.Errorf("a new subject is %+v", s)
	}

	s = do(pattern.Command{Name: "subjectPlace", ID: s.ID, Values: map[string]float64{"turn": 90, "scale": 2}})
	s = do(pattern.Command{Name: "subjectMirror", ID: s.ID, Flag: true})
	if now := s.Map().Apply(orb.Point{20, 20}); geometry.PointDistance(now, middle) > 1e-3 || s.Turn != 90 {
		t.Errorf("turned, scaled and mirrored its middle has gone from %v to %v", middle, now)
	}
	s = do(pattern.Command{Name: "subjectPlace", ID: s.ID, Values: map[string]float64{"x": 90, "y": 70, "room": 4}})
	if s.At != [2]float64{90, 70} || s.Room != 4 {
		t.Errorf("placed at (90, 70) with room 4 it is %+v", s)
	}
	if s = do(pattern.Command{Name: "subjectEdge", ID: s.ID, Text: "behind"}); s.Edge != draft.Behind {
		t.Errorf("its edge is %q", s.Edge)
	}
	if s = do(pattern.Command{Name: "subjectName", ID: s.ID, Text: "Boulder"}); s.Name != "Boulder" {
		t.Errorf("its name is %q", s.Name)
	}
	if err := h.Do(pattern.Command{Name: "subjectEdge", ID: s.ID, Text: "touching"}); err == nil {
		t.Error("a subject has taken the edge touching")
	}

	if err := h.Do(pattern.Command{Name: "subjectRemove", ID: s.ID}); err != nil || len(h.Draft().Subjects) != 0 {
		t.Errorf("taken away: %v, %d are left", err, len(h.Draft().Subjects))
	}
	if bytes.Contains(h.Draft().Encode(), []byte("subject")) {
		t.Error("a draft without subjects has a word of them in its file")
	}
	for h.Undo() {
	}
	if !reflect.DeepEqual(h.Draft(), d) {
		t.Error("undoing all does not give the first draft")
	}
}

// A subject made of a silhouette has its outline. The file keeps a subject to the last digit.
func TestSubjectOfASilhouette(t *testing.T) {
	d := patterntest.Demo(t)
	from := d.Silhouettes[0]
	d, err := pattern.Apply(d, pattern.Command{Name: "subject", ID: from.ID,
		Values: map[string]float64{"x": 100, "y": 200.25, "scale": 3, "room": 0}})
	if err != nil {
		t.Fatal(err)
	}
	s := d.Subjects[0]
	if s.Name != from.Name || !reflect.DeepEqual(s.Outline, from.Outline) || s.At != [2]float64{100, 200.25} ||
		s.Scale != 3 || s.Room != 0 {
		t.Errorf("the subject is %+v", s)
	}
	back, err := draft.DecodeBytes(d.Encode())
	if err != nil || !reflect.DeepEqual(back.Subjects, d.Subjects) {
		t.Errorf("from its file it comes back as %+v (%v)", back.Subjects, err)
	}
}

// A subject off the panel is kept, and a sentence says so; what no file may hold is refused by its place.
func TestSubjectsThatAreNotOnThePanel(t *testing.T) {
	d := patterntest.Demo(t)
	off, err := pattern.Apply(d, pattern.Command{Name: "subject", Text: "Stone", Outline: square,
		Values: map[string]float64{"x": -500, "y": 20}})
	if err != nil {
		t.Fatal(err)
	}
	if s := off.OffPanel(off.Subjects[0], geometry.NewShape(off.Subjects[0].Placed())); !strings.Contains(s,
		"Stone lies off the panel") {
		t.Errorf("off the panel it says %q", s)
	}
	on, _ := pattern.Apply(d, pattern.Command{Name: "subject", Outline: square})
	if s := on.OffPanel(on.Subjects[0], geometry.NewShape(on.Subjects[0].Placed())); s != "" {
		t.Errorf("on the panel it says %q", s)
	}
	for name, c := range map[string]struct {
		change func(*draft.Subject)
		want   string
	}{
		"far away":   {func(s *draft.Subject) { s.At[1] = 1e7 }, "subjects[0].at[1]: 1e+07 is out of range"},
		"no number":  {func(s *draft.Subject) { s.Room = math.NaN() }, "subjects[0].room: not a number"},
		"room below": {func(s *draft.Subject) { s.Room = -1 }, "subjects[0].room: -1 is out of range"},
		"no outline": {func(s *draft.Subject) { s.Outline = nil }, "subjects[0].outline"},
		"other edge": {func(s *draft.Subject) { s.Edge = draft.Touching },
			"subjects[0].edge: \"touching\" is not a way"},
		"a bow tie": {func(s *draft.Subject) {
			s.Outline = orb.MultiPolygon{{{{0, 0}, {10, 10}, {10, 0}, {0, 10}, {0, 0}}}}
		}, "subjects[0].outline[0][0]"},
	} {
		t.Run(name, func(t *testing.T) {
			bad := on
			bad.Subjects = append([]draft.Subject(nil), on.Subjects...)
			c.change(&bad.Subjects[0])
			if err := bad.Check(); err == nil || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("got %v, want %s", err, c.want)
			}
		})
	}
}

// A subject's kept outline follows whatever is done to it.
func TestKeptSubjectFollows(t *testing.T) {
	shapes := pattern.NewShapes()
	d, err := pattern.Apply(patterntest.Demo(t), pattern.Command{Name: "subject", Outline: square})
	if err != nil {
		t.Fatal(err)
	}
	id := d.Subjects[0].ID
	larger := geometry.Transform(square, geometry.Map{A: 2, D: 3})
	for _, c := range []pattern.Command{
		{Name: "subjectPlace", ID: id, Values: map[string]float64{"x": 70}},
		{Name: "subjectPlace", ID: id, Values: map[string]float64{"turn": 30, "scale": 1.5}},
		{Name: "subjectMirror", ID: id, Flag: true},
		{Name: "subjectOutline", ID: id, Outline: larger, Flag: true},
		{Name: "subjectPlace", ID: id, Values: map[string]float64{"x": 71}},
	} {
		if d, err = pattern.Apply(d, c); err != nil {
			t.Fatal(err)
		}
		kept, again := shapes.Subject(d.Subjects[0]), shapes.Subject(d.Subjects[0])
		if want := d.Subjects[0].Placed(); !orb.Equal(kept.Outline(), want) || kept != again {
			t.Errorf("after %s it lies at %v, want %v; kept: %v", c.Name, kept.Outline(), want, kept == again)
		}
	}
}
