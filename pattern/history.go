package pattern

import "openwork/pattern/draft"

// HistoryDepth is how many steps back are kept. Drafts share their outlines, so a step costs little.
const HistoryDepth = 200

// History is the open draft and the way back. The zero value holds an empty draft; use NewHistory. One gesture is one
// entry: Begin, any number of Try, then Settle or Abandon; Do is the three in one. Each state that the draft rests in
// has a number (history_steps.go).
type History struct {
	now     state
	past    []entry
	future  []entry
	gesture *gesture
	last    int // number given to a state
}

// state is a draft at rest, or as a gesture has it at the moment.
type state struct {
	draft  draft.Draft
	text   string // of a draft that has not been read yet, "" once it has been
	id     int
	origin int // number of the state in which this draft was opened
}

// entry is a state to go back or forward to, and the name of what lies between it and the present.
type entry struct {
	state
	label string
}

type gesture struct {
	from    state
	label   string
	changed bool
}

// NewHistory starts with the given draft and no way back.
func NewHistory(d draft.Draft) *History {
	return &History{now: state{draft: d, id: 1, origin: 1}, last: 1}
}

// Draft returns the open draft.
func (h *History) Draft() draft.Draft { return h.now.draft }

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

// Replace makes another draft the open one as one entry: what a command has made of the open one.
func (h *History) Replace(d draft.Draft, label string) {
	h.Settle()
	h.push(entry{h.now, label})
	h.rest(d)
}

// Open makes a draft that came from elsewhere the open one, as one entry.
func (h *History) Open(d draft.Draft, label string) {
	h.Replace(d, label)
	h.now.origin = h.now.id
}

// Amend makes another draft the open one within the last entry: undoing goes back to before that entry. Where there
// is no entry by that label, or something was undone since, it is an entry of its own.
func (h *History) Amend(d draft.Draft, label string) {
	h.Settle()
	if h.UndoLabel() != label || len(h.future) > 0 {
		h.push(entry{h.now, label})
	}
	h.rest(d)
}

// rest has the history rest in a new state of the draft.
func (h *History) rest(d draft.Draft) {
	h.last++
	h.now.draft, h.now.id = d, h.last
}

// Begin starts a gesture. One that was open is ended first, as Settle does.
func (h *History) Begin() {
	h.Settle()
	h.gesture = &gesture{from: h.now}
}

// Start returns the draft as it was when the open gesture began, or the open draft.
func (h *History) Start() draft.Draft { return h.rested().draft }

// rested returns the last state that the history rested in.
func (h *History) rested() state {
	if h.gesture != nil {
		return h.gesture.from
	}
	return h.now
}

// Try applies a command inside the open gesture, to the draft as it stands; on an error nothing changes.
func (h *History) Try(c Command) error {
	next, err := Apply(h.now.draft, c)
	if err != nil {
		return err
	}
	h.Step(next, c.Label())
	return nil
}

// Step makes next, which a command has made of the open draft, the open draft, inside the open gesture; label is the
// command's.
func (h *History) Step(next draft.Draft, label string) {
	h.now.draft = next
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
		h.rest(h.now.draft)
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

// travel goes one entry along. Entries that were kept as texts are read here; one that cannot be read is dropped with
// those beyond it, which can only be reached through it.
func travel(now *state, from, to *[]entry) bool {
	n := len(*from)
	if n == 0 {
		return false
	}
	s := (*from)[n-1]
	if s.text != "" {
		d, err := draft.DecodeBytes([]byte(s.text))
		if err != nil {
			*from = nil
			return false
		}
		s.draft, s.text = d, ""
	}

	*from = (*from)[:n-1]
	*to = append(*to, entry{*now, s.label})
	*now = s.state
	return true
}
