package desk

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"openwork/pattern"
	"openwork/pattern/draft"
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
			out = append(out, mendState{i, k.mendWords(m.Command), k.mendEffect(m)})
		}
	}
	return out
}

// offered is the first mend for the fault in hand, or else the best of all that leaves fewer faults; −1 when there is
// none: what is only warned of is mended from the list.
func (k *Session) offered() int {
	inHand := k.fault >= 0 && k.fault < len(k.groups)
	for i, m := range k.mends {
		if inHand && slices.Contains(m.Kinds, k.groups[k.fault].first.Kind) || !inHand && m.After < m.Before {
			return i
		}
	}
	return -1
}

// mendText is what the mending button says, and what the panel will then be.
func (k *Session) mendText() (text, effect string) {
	if i := k.offered(); i >= 0 {
		return k.mendWords(k.mends[i].Command), k.mendEffect(k.mends[i])
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

// mendWords says in a few words what a mending command does.
func (k *Session) mendWords(c pattern.Command) string {
	d := k.Draft()
	switch c.Name {
	case "cell":
		return "Open the cell to " + k.size(c.Values["a"], c.Values["b"])
	case "edge":
		if c.Text == string(draft.Crop) {
			return "Cut copies off at the margin"
		}
		return "Keep whole copies only"
	case "field":
		return "Make the margin " + k.measure(c.Values["margin"])
	case "remove":
		return "Take out motif " + strconv.Itoa(d.Motif(c.ID)+1)
	case "size":
		return "Make every motif " + trim(100*(1-c.Values["factor"]), 1) + " % smaller"
	case "redraw":
		if s, ok := d.Silhouette(c.ID); ok {
			return "Round off " + s.Name
		}
	case "place":
		if i := d.Motif(c.ID); i >= 0 {
			m := d.Motifs[i]
			s, _ := d.Silhouette(m.Silhouette)
			return "Move " + s.Name + " by " + k.measure(math.Hypot(c.Values["x"]-m.At[0], c.Values["y"]-m.At[1]))
		}
	case "ties":
		return "Add " + count(len(c.Ties)-len(d.Ties), "tie", "ties")
	}
	return "Mend it"
}

// mendEffect says how the whole panel will stand with a mend, as it was measured.
func (k *Session) mendEffect(m sheet.Mend) string { return m.Effect(k.measure) }
