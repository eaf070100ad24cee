package pattern

import (
	"strings"
	"testing"

	"openwork/pattern/draft"
)

// titles is a history whose drafts are told apart by their titles, at the last of them.
func titles(t *testing.T, all ...string) *History {
	t.Helper()
	h := NewHistory(draft.Default())
	for _, text := range all {
		if err := h.Do(Command{Name: "title", Text: text}); err != nil {
			t.Fatal(err)
		}
	}
	return h
}

// kept gives a history away and takes it back, with one step's text spoilt.
func kept(t *testing.T, h *History, spoilt int) (*History, error) {
	t.Helper()
	steps, now := h.Steps()
	texts := []string{}
	for _, s := range steps {
		texts = append(texts, h.Text(s.ID))
	}
	if spoilt >= 0 {
		texts[spoilt] = texts[spoilt][:20]
	}
	return RestoredHistory(steps, texts, now)
}

func TestStepsTellWhereADraftWasOpened(t *testing.T) {
	h := titles(t, "Carp")
	h.Open(draft.Default(), "opening of a draft")
	if err := h.Do(Command{Name: "title", Text: "Heron"}); err != nil {
		t.Fatal(err)
	}
	h.Undo()
	steps, now := h.Steps()
	want := []Step{{1, 1, ""}, {2, 1, "title"}, {3, 3, "opening of a draft"}, {4, 3, "title"}}
	for i, s := range steps {
		if s != want[i] {
			t.Errorf("step %d is %v, should be %v", i, s, want[i])
		}
	}
	if len(steps) != len(want) || now != 2 {
		t.Errorf("it rests at %d of %d", now, len(steps))
	}
	if text := h.Text(2); !strings.Contains(text, "Carp") {
		t.Errorf("step 2 is %s", text)
	}
	if h.Text(9) != "" {
		t.Error("there is no step 9")
	}
}

func TestVisit(t *testing.T) {
	h := titles(t, "a", "b", "c")
	for _, c := range []struct {
		id    int
		there bool
		title string
	}{{2, true, "a"}, {4, true, "c"}, {4, true, "c"}, {9, false, "c"}, {3, true, "b"}} {
		if h.Visit(c.id) != c.there || h.Draft().Title != c.title {
			t.Errorf("going to step %d leads to %q", c.id, h.Draft().Title)
		}
	}
}

// A restored history says what it undoes, and goes on with numbers of its own.
func TestRestoredHistoryGoesOn(t *testing.T) {
	h := titles(t, "a", "b")
	h.Undo()
	again, err := kept(t, h, -1)
	if err != nil {
		t.Fatal(err)
	}
	if again.UndoLabel() != "title" || again.RedoLabel() != "title" {
		t.Errorf("it would undo %q and redo %q", again.UndoLabel(), again.RedoLabel())
	}
	if err := again.Do(Command{Name: "title", Text: "c"}); err != nil {
		t.Fatal(err)
	}
	steps, _ := again.Steps()
	if len(steps) != 3 || steps[2].ID <= 3 {
		t.Errorf("the steps are %v", steps)
	}
	for _, title := range []string{"a", draft.Default().Title} {
		if !again.Undo() || again.Draft().Title != title {
			t.Errorf("undo should lead to %q, and is at %q", title, again.Draft().Title)
		}
	}
	if again.Undo() {
		t.Error("undo should end at the first draft")
	}
}

// What cannot be read is an error where the draft rests, and elsewhere the end of the way.
func TestRestoredHistoryWithASpoiltStep(t *testing.T) {
	h := titles(t, "a", "b", "c")
	if _, err := kept(t, h, 3); err == nil {
		t.Error("the open draft cannot be read, and nobody says so")
	}
	again, err := kept(t, h, 1)
	if err != nil {
		t.Fatal(err)
	}
	if !again.Undo() || again.Undo() || again.Draft().Title != "b" || again.UndoLabel() != "" {
		t.Errorf("undo should end at b, and is at %q", again.Draft().Title)
	}
	if !again.Redo() || again.Draft().Title != "c" {
		t.Error("redo should still work")
	}

	steps, now := h.Steps()
	for name, c := range map[string]struct {
		steps []Step
		texts []string
		now   int
	}{
		"a text too few":    {steps, []string{"{}"}, now},
		"nowhere":           {steps, make([]string, 4), 4},
		"a number twice":    {[]Step{{ID: 1}, {ID: 1}}, make([]string, 2), 0},
		"a number below 1":  {[]Step{{ID: 0}}, make([]string, 1), 0},
		"nothing kept":      {nil, nil, 0},
		"not even a letter": {[]Step{{ID: 1}}, make([]string, 1), 0},
	} {
		if _, err := RestoredHistory(c.steps, c.texts, c.now); err == nil {
			t.Errorf("%s should be an error", name)
		}
	}
}
