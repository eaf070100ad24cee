package pattern

import (
	"errors"
	"fmt"

	"openwork/pattern/draft"
)

// Step is one state that a history holds, for whoever keeps it elsewhere.
type Step struct {
	ID     int    `json:"id"`     // of no other state of this history, past or present
	Origin int    `json:"origin"` // ID of the state in which this draft was opened; of one that is gone, perhaps
	Label  string `json:"label"`  // what led here from the step before it, as Undo says it
}

// Steps returns the states from the first that undoing reaches to the last that redoing reaches, and which of them,
// from 0, the draft rests in. While a gesture is open that is the one before it.
func (h *History) Steps() (steps []Step, now int) {
	label := ""
	add := func(s state) { steps = append(steps, Step{s.id, s.origin, label}) }
	for _, e := range h.past {
		add(e.state)
		label = e.label
	}
	now = len(steps)
	add(h.rested())
	for i := len(h.future) - 1; i >= 0; i-- {
		label = h.future[i].label
		add(h.future[i].state)
	}
	return steps, now
}

// Resting reports whether no gesture is open.
func (h *History) Resting() bool { return h.gesture == nil }

// Text returns the draft's file of the state with a number; "" when there is none.
func (h *History) Text(id int) string {
	if s := h.rested(); s.id == id {
		return s.file()
	}
	for _, list := range [][]entry{h.past, h.future} {
		for _, e := range list {
			if e.id == id {
				return e.file()
			}
		}
	}
	return ""
}

func (s state) file() string {
	if s.text != "" {
		return s.text
	}
	return string(s.draft.Encode())
}

// Visit goes to the state with a number, back or forward; false when there is none that can be reached.
func (h *History) Visit(id int) bool {
	h.Settle()
	steps, now := h.Steps()
	for i, s := range steps {
		if s.ID != id {
			continue
		}
		for ; now > i && h.Undo(); now-- {
		}
		for ; now < i && h.Redo(); now++ {
		}
		return now == i
	}
	return false
}

// RestoredHistory returns the history that Steps and Text told of: texts are the drafts' files, one for each step. Only
// the draft it rests in is read at once; an error says why it cannot be.
func RestoredHistory(steps []Step, texts []string, now int) (*History, error) {
	if len(texts) != len(steps) || now < 0 || now >= len(steps) {
		return nil, errors.New("the kept history is not whole")
	}

	h := &History{}
	seen := map[int]bool{}
	for _, s := range steps {
		if s.ID <= 0 || seen[s.ID] {
			return nil, fmt.Errorf("the kept history has two steps numbered %d", s.ID)
		}
		seen[s.ID] = true
		h.last = max(h.last, s.ID, s.Origin)
	}

	d, err := draft.DecodeBytes([]byte(texts[now]))
	if err != nil {
		return nil, err
	}
	h.now = state{draft: d, id: steps[now].ID, origin: steps[now].Origin}
	for i := range now {
		h.past = append(h.past, entry{keptState(steps[i], texts[i]), steps[i+1].Label})
	}
	for i := len(steps) - 1; i > now; i-- {
		h.future = append(h.future, entry{keptState(steps[i], texts[i]), steps[i].Label})
	}
	h.past = h.past[max(0, len(h.past)-HistoryDepth):]
	return h, nil
}

// keptState is a state that is read when it is gone to.
func keptState(s Step, text string) state { return state{text: text, id: s.ID, origin: s.Origin} }
