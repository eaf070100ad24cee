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
func (k *Session) Mends(token int, text string) error {
	if token != k.token {
		return nil
	}
	k.mendsTold = true
	k.Changed = true
	if err := json.Unmarshal([]byte(text), &k.mends); err != nil {
		k.mends = nil
		return fmt.Errorf("the engine's answer cannot be read: %w", err)
	}
	return nil
}

// MendsFailed lets the question rest until the draft changes.
func (k *Session) MendsFailed(token int) {
	if token == k.token {
		k.mendsTold = true
	}
}

// mendsFor returns the moves that put problems of a kind right.
func (k *Session) mendsFor(kind sheet.Kind) []mendState {
	out := []mendState{}
	for i, m := range k.mends {
		if slices.Contains(m.Kinds, kind) {
			out = append(out, mendState{i, k.words().Mend(m.Command), k.words().Effect(m)})
		}
	}
	return out
}

// offered is the first mend for the fault in hand, or else the best of all that leaves fewer faults; −1 when there is
// none: what is only warned of is mended from the list.
func (k *Session) offered() int {
	inHand := k.fault >= 0 && k.fault < len(k.groups)
	for i, m := range k.mends {
		if inHand && slices.Contains(m.Kinds, k.groups[k.fault].First.Kind) || !inHand && m.After < m.Before {
			return i
		}
	}
	return -1
}

// mendText is what the mending button says, and what the panel will then be.
func (k *Session) mendText() (text, effect string) {
	if i := k.offered(); i >= 0 {
		return k.words().Mend(k.mends[i].Command), k.words().Effect(k.mends[i])
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
