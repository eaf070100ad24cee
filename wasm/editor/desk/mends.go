package desk

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"openwork/pattern/sheet"
)

// Mends takes the engine's list of what would put the sheet right, unless the draft has changed since it was asked
// under the check's token.
func (s *Session) Mends(token int, text string) error {
	if token != s.token {
		return nil
	}
	s.mendsAnswered = true
	s.Changed = true
	if err := json.Unmarshal([]byte(text), &s.mends); err != nil {
		s.mends = nil
		return fmt.Errorf("the engine's answer cannot be read: %w", err)
	}
	s.answered.mends, s.answered.mended = s.mends, true
	return nil
}

// MendsFailed lets the question rest until the draft changes.
func (s *Session) MendsFailed(token int) {
	if token == s.token {
		s.mendsAnswered = true
	}
}

// mendsFor returns the moves that put problems of a kind right.
func (s *Session) mendsFor(kind sheet.Kind) []mendState {
	out := []mendState{}
	for i, m := range s.mends {
		if slices.Contains(m.Kinds, kind) {
			out = append(out, mendState{i, s.words().Mend(m.Command), s.words().Effect(m)})
		}
	}
	return out
}

// offered is the first mend for the fault in hand, or else the best of all that leaves fewer faults; −1 when there is
// none: what is only warned of is mended from the list.
func (s *Session) offered() int {
	inHand := s.fault >= 0 && s.fault < len(s.faults())
	for i, m := range s.mends {
		if inHand && slices.Contains(m.Kinds, s.faults()[s.fault].First.Kind) || !inHand && m.After < m.Before {
			return i
		}
	}
	return -1
}

// mendText is what the mending button says, and what the panel will then be.
func (s *Session) mendText() (text, effect string) {
	if i := s.offered(); i >= 0 {
		return s.words().Mend(s.mends[i].Command), s.words().Effect(s.mends[i])
	}
	return "", ""
}

// mendIt carries out the mend that is offered.
func (k *Desk) mendIt() error { return k.Mend(k.Session.offered()) }

// Mend carries out one of the mends by its index.
func (k *Desk) Mend(i int) error {
	if i < 0 || i >= len(k.Session.mends) {
		return errors.New("there is no mend to offer here; move, turn or scale a copy")
	}
	return k.carryOut(k.Session.mends[i].Command) // as it was measured: nothing that the desk holds is added
}
