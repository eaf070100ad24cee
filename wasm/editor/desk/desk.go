// Package desk is the editor without its screen: the open draft and its history, what is selected, how the panel lies
// on the canvas, what a pointer or a key does, and the sentences that say how the sheet stands. The canvas draws what
// it holds and the page shows its view state; both send it what the person does. It runs anywhere and is tested
// natively.
package desk

import (
	"errors"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/wasm/editor/desk/brush"
	"openwork/wasm/editor/desk/copies"
	"openwork/wasm/editor/desk/pen"
	"openwork/wasm/editor/desk/say"
	"openwork/wasm/editor/desk/signs"
	"openwork/wasm/editor/desk/subjects"
	"openwork/wasm/editor/desk/ties"
	"openwork/wasm/editor/desk/view"
)

// Desk is the editor's state: a session, the modes of the pointer, and the hand. It is not safe for use from two
// goroutines.
type Desk struct {
	View    view.View
	Session *Session

	copies   *copies.Mode
	ties     *ties.Mode
	pen      *pen.Mode
	brush    *brush.Mode
	subjects *subjects.Mode

	through float64 // how strongly a photograph under the canvas is seen

	signs  *signs.Signs
	hand   hand
	listed listed
}

// New returns a desk with the given draft on it.
func New(d draft.Draft) *Desk {
	k := &Desk{View: view.View{Whole: true}, hand: hand{fingers: map[int]orb.Point{}}}
	k.Session = newSession(d, &k.View)
	k.Session.held = func() bool { return k.hand.holding() && k.hand.mode != mode(k.pen) }
	k.signs = signs.New(k.Session, &k.View)
	k.copies = copies.New(k.Session, &k.View, k.signs.Hover)
	k.ties = ties.New(k.Session, &k.View, k.signs.Hover)
	k.pen = pen.New(k.Session, &k.View)
	k.brush = brush.New(k.Session.Draft, k.copyUnder, k.Do, k.Session.Say)
	k.subjects = subjects.New(k.Session, &k.View)
	k.Session.findLay()
	k.finish(true)
	return k
}

// finish is called when a change is complete: the field is laid out anew and the whole panel is asked for.
func (k *Desk) finish(outlines bool) {
	l, err := k.Session.newLayout(k.Session.Draft(), k.Session.shapes)
	k.finishOn(l, err, outlines)
}

// finishOn is finish for a draft that has been laid out already.
func (k *Desk) finishOn(l *pattern.Layout, err error, outlines bool) {
	k.Session.setLayout(l, err, k.Session.InHand())
	k.follow()
	k.Session.finish(outlines)
}

// follow has the modes follow the draft.
func (k *Desk) follow() {
	k.ties.Keep()
	gone, err := k.pen.Sync()
	k.Session.sayError(err)
	if gone {
		k.leavePen()
	}
}

// fit shows the whole panel, or the whole of what is drawn.
func (k *Desk) fit() {
	if k.pen.IsOpen() {
		k.pen.Fit()
	} else {
		k.View.Fit(k.Session.Draft().PanelBound())
	}
}

// fill adds what the desk holds to a command: what of the cell is held, the lay that describes it, the tie that is
// taken up, a roomy place.
func (k *Desk) fill(c *pattern.Command) error {
	switch c.Name {
	case "cell":
		if c.Text == "" {
			c.Text = k.Session.hold
		}
	case "repeats":
		if c.Text == "" {
			c.Text = k.Session.lay
		}
	case "retie":
		return k.ties.Complete(c)
	case "motif":
		if _, has := c.Values["x"]; !has {
			k.Session.placeRoomy(c)
		}
	}
	return nil
}

// Do carries out one command, with what the desk holds, as one entry of the history. What is in hand is let go of
// first.
func (k *Desk) Do(c pattern.Command) error {
	k.letGo()
	if err := k.fill(&c); err != nil {
		return err
	}
	return k.carryOut(c)
}

// carryOut carries out one command as it stands, as one entry of the history. What is in hand is let go of first.
func (k *Desk) carryOut(c pattern.Command) error {
	k.letGo()
	before := k.Session.Draft()
	next, err := k.Session.apply(before, c)
	if err != nil {
		return err
	}

	l, err := k.Session.feasible(next)
	if err != nil {
		return err
	}

	if c.Name == "settle" {
		k.Session.history.Amend(next, c.Label())
	} else {
		k.Session.history.Replace(next, c.Label())
	}
	k.Session.sel.Keep(k.Session.Draft())
	switch c.Name {
	case "lay":
		k.Session.lay = c.Text
	case "repeats":
		k.Session.Say("note", say.Resized(before.Repeat, next.Repeat)+" "+k.Session.words().Fit(k.Session.lay))
	case "group", "fit":
		if k.Session.Lay() == "" {
			k.Session.findLay()
		}
	case "motif", "draw":
		if len(k.Session.Draft().Motifs) > len(before.Motifs) {
			k.Session.chooseNewest()
		}
	case "subject":
		all := next.Subjects
		k.Subject(all[len(all)-1].ID)
	}

	k.finishOn(l, nil, pictured(c.Name))
	if c.Name == "panel" {
		k.fit()
	}
	return nil
}

// pictured reports whether a command changes the seventeen pictures.
func pictured(name string) bool {
	switch name {
	case "title", "edge", "stock", "sheet", "panel", "field", "name",
		"swatch", "unswatch", "ground", "copy", "block", "handless", "paste",
		"subject", "subjectPlace", "subjectMirror", "subjectEdge", "subjectName", "subjectOutline", "subjectRemove":
		return false
	}
	return true
}

// Open puts another draft on the desk; the one before can be brought back by undoing.
func (k *Desk) Open(d draft.Draft) error {
	l, err := k.Session.feasible(d)
	if err != nil {
		return err
	}
	k.letGo()
	k.Session.history.Open(d, "opening of a draft")
	k.selectNone()
	k.Session.findLay()
	k.finishOn(l, nil, true)
	k.fit()
	return nil
}

// Select chooses a motif; an unknown id chooses none.
func (k *Desk) Select(id string) {
	k.Session.EndNudge()
	k.subjects.Choose("")
	k.leavePen()
	if k.Session.Draft().Motif(id) < 0 {
		id = ""
	}
	k.Session.Choose(id)
}

// selectNone starts afresh on another draft.
func (k *Desk) selectNone() {
	k.pen.Forget()
	k.brush.Take(false, "")
	k.subjects.Choose("")
	k.hand.free()
	k.Session.sel = copies.None()
}

// Undo takes the last entry back, or the last point of a line that is being set.
func (k *Desk) Undo() error {
	if k.pen.TakeLast() {
		return nil
	}
	if k.pen.IsOpen() {
		k.pen.ForgetUndone()
	}
	return k.travel(k.Session.history.Undo, "there is nothing to undo")
}

// Redo brings the last undone entry or point back.
func (k *Desk) Redo() error {
	if k.pen.BringLast() {
		return nil
	}
	return k.travel(k.Session.history.Redo, "there is nothing to redo")
}

func (k *Desk) travel(step func() bool, empty string) error {
	k.dropHand()
	if !step() {
		return errors.New(empty)
	}
	k.Session.sel.Keep(k.Session.Draft())
	k.finish(true)
	return nil
}

// Resize takes the canvas's size in CSS px. The first time the panel is fitted; later too, while it is shown whole;
// otherwise its middle stays in the middle, and a drawing where it is.
func (k *Desk) Resize(w, h float64) {
	if !(w >= 0 && w <= view.MaxCanvas && h >= 0 && h <= view.MaxCanvas) {
		return
	}

	corner := k.View.Panel(0, 0)
	k.View.Width, k.View.Height = w, h
	if now := k.View.Panel(0, 0); k.pen.IsOpen() { // what is under the hand stays there
		k.View.Centre = orb.Point{k.View.Centre[0] + corner[0] - now[0], k.View.Centre[1] + corner[1] - now[1]}
	}
	if k.View.Whole {
		k.fit()
	}
	k.Session.Touch()
}

// InHandShape returns the silhouette of the held copy and its map to CSS px.
func (k *Desk) InHandShape() (*geometry.Shape, geometry.Map, bool) {
	i := k.Session.Draft().Motif(k.Session.sel.ID)
	if k.Session.layout == nil || i < 0 || i >= len(k.Session.layout.Orbits) {
		return nil, geometry.Identity, false
	}
	o := k.Session.layout.Orbits[i]
	return o.Shape, k.View.Map().After(k.Session.sel.Map(k.Session.layout)).After(o.Place), true
}
