package pattern

import "openwork/pattern/draft"

// HistoryDepth is how many steps back are kept. Drafts share their outlines, so a step costs little.
const HistoryDepth = 200

// History is the open draft and the way back. The zero value holds an empty draft; use NewHistory. One gesture is one
// entry: Begin, any number of Try, then Settle or Abandon; Do is the three in one.
type History struct {
	now     draft.Draft
	past    []entry
	future  []entry
	gesture *gesture
}

// entry is a draft to go back or forward to, and what lies between it and the present.
type entry struct {
	draft draft.Draft
	label string
}

type gesture struct {
	from    draft.Draft
	label   string
	changed bool
}

// NewHistory starts with the given draft and no way back.
func NewHistory(d draft.Draft) *History { return &History{now: d} }

// Draft returns the open draft.
func (h *History) Draft() draft.Draft { return h.now }

// Do applies one command as one entry.
func (h *History) Do(c Command) error {
	h.Settle()
	h.Begin()
	if err := h.Try(c); err != nil {
		h.Abandon()
		return err
	}
	h.Settle()
	return nil
}

// Replace makes another draft the open one as one entry: one that was opened, or what a command has made of the open
// one.
func (h *History) Replace(d draft.Draft, label string) {
	h.Settle()
	h.push(entry{h.now, label})
	h.now = d
}

// Amend makes another draft the open one within the last entry: undoing goes back to before that entry. Where there
// is no entry by that label, or something was undone since, it is an entry of its own.
func (h *History) Amend(d draft.Draft, label string) {
	h.Settle()
	if h.UndoLabel() != label || len(h.future) > 0 {
		h.push(entry{h.now, label})
	}
	h.now = d
}

// Begin starts a gesture. One that was open is ended first, as Settle does.
func (h *History) Begin() {
	h.Settle()
	h.gesture = &gesture{from: h.now}
}

// Start returns the draft as it was when the open gesture began, or the open draft.
func (h *History) Start() draft.Draft {
	if h.gesture != nil {
		return h.gesture.from
	}
	return h.now
}

// Try applies a command inside the open gesture, to the draft as it stands; on an error nothing changes.
func (h *History) Try(c Command) error {
	next, err := Apply(h.now, c)
	if err != nil {
		return err
	}
	h.Step(next, c.Label())
	return nil
}

// Step makes next, which a command has made of the open draft, the open draft, inside the open gesture; label is the
// command's.
func (h *History) Step(next draft.Draft, label string) {
	h.now = next
	if h.gesture != nil {
		h.gesture.label, h.gesture.changed = label, true
	}
}

// Settle ends a gesture and makes it one entry, if it changed anything.
func (h *History) Settle() {
	g := h.gesture
	h.gesture = nil
	if g != nil && g.changed {
		h.push(entry{g.from, g.label})
	}
}

// Abandon ends a gesture and puts the draft back as it was.
func (h *History) Abandon() {
	if h.gesture != nil {
		h.now, h.gesture = h.gesture.from, nil
	}
}

func (h *History) push(s entry) {
	h.past = append(h.past, s)
	if len(h.past) > HistoryDepth {
		h.past = h.past[len(h.past)-HistoryDepth:]
	}
	h.future = nil
}

// UndoLabel returns what Undo would take back, empty when there is nothing.
func (h *History) UndoLabel() string { return lastLabel(h.past) }

// RedoLabel returns what Redo would bring back, empty when there is nothing.
func (h *History) RedoLabel() string { return lastLabel(h.future) }

func lastLabel(s []entry) string {
	if len(s) == 0 {
		return ""
	}
	return s[len(s)-1].label
}

// Undo goes one entry back; false when there is none.
func (h *History) Undo() bool {
	h.Settle()
	return travel(&h.now, &h.past, &h.future)
}

// Redo goes one entry forward; false when there is none.
func (h *History) Redo() bool {
	h.Settle()
	return travel(&h.now, &h.future, &h.past)
}

func travel(now *draft.Draft, from, to *[]entry) bool {
	n := len(*from)
	if n == 0 {
		return false
	}
	s := (*from)[n-1]
	*from = (*from)[:n-1]
	*to = append(*to, entry{*now, s.label})
	*now = s.draft
	return true
}
