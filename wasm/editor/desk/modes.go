package desk

import (
	"errors"
	"fmt"

	"openwork/wasm/editor/desk/copies"
	"openwork/wasm/editor/desk/pen"
	"openwork/wasm/editor/desk/signs"
	"openwork/wasm/editor/desk/ties"
)

// Pen is what the page sets by name while a silhouette is drawn: a word or a number in mm. "open" opens a silhouette,
// with an empty word a new one.
func (k *Desk) Pen(name, word string, v float64) error {
	if name == "open" {
		return k.openPen(word)
	}
	if !k.pen.IsOpen() {
		return pen.ErrNotOpen
	}

	k.Session.Touch()
	k.Session.EndNudge()
	if name == "way" && pen.IsWay(word) {
		k.dropHand()
	}
	return k.pen.Set(name, word, v)
}

// openPen opens a silhouette for drawing, or a new one for an empty id.
func (k *Desk) openPen(id string) error {
	if _, ok := k.Session.Draft().Silhouette(id); !ok && id != "" {
		return fmt.Errorf("no silhouette is called %.40q", id)
	}
	k.Session.EndNudge()
	k.dropHand()
	k.leavePen()
	k.ties.On, k.ties.Chosen = false, -1
	return k.pen.Open(id)
}

// leavePen goes back to the panel; a line that is not closed is closed if it can be.
func (k *Desk) leavePen() {
	if !k.pen.IsOpen() {
		return
	}
	if k.pen.Holding() || k.Session.nudging {
		k.letGo()
	}
	k.pen.Leave()
}

// drawOn opens the silhouette of the motif in hand.
func (k *Desk) drawOn() error {
	i := k.Session.Draft().Motif(k.Session.sel.ID)
	if i < 0 {
		return errNoMotif
	}
	return k.openPen(k.Session.Draft().Motifs[i].Silhouette)
}

// Sketch returns what is drawn; ok is false when the panel is shown.
func (k *Desk) Sketch() (s pen.Sketch, ok bool) { return k.pen.Sketch(k.hand.idle()) }

// switchTying begins or ends work on ties.
func (k *Desk) switchTying() error {
	k.subjects.Choose("")
	k.ties.Switch()
	if k.ties.On {
		k.Session.Choose("")
	}
	return nil
}

// Tying reports whether ties are worked on.
func (k *Desk) Tying() bool { return k.ties.On }

// Ties returns the ties seen on the canvas: those of the field always, all of them while ties are worked on.
func (k *Desk) Ties() []ties.Mark { return k.ties.Marks() }

// nextTie takes up the next tie.
func (k *Desk) nextTie() error {
	if len(k.Session.Draft().Ties) == 0 {
		return errors.New("there is no tie yet; press T and then an opening")
	}
	if !k.ties.On {
		if err := k.switchTying(); err != nil {
			return err
		}
	}
	k.ties.Next()
	return nil
}

// takeOutTie takes the tie that is taken up away.
func (k *Desk) takeOutTie() error {
	c, err := k.ties.Untie()
	if err != nil {
		return err
	}
	err = k.Do(c)
	k.ties.Chosen = -1
	return err
}

// Handles returns where the handles stand now.
func (k *Desk) Handles() copies.Handles { return k.copies.Handles() }

// Signs returns the mirrors, glides and rotation points as they are shown.
func (k *Desk) Signs() *signs.Signs { return k.signs }
