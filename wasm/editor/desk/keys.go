package desk

import (
	"slices"

	"openwork/wasm/editor/desk/view"
)

// zoomStep is how much closer or further off one step of the keys goes.
const zoomStep = 1.25

// Key takes a key while the canvas has the focus; name is the key's value ("ArrowLeft", "[", "Delete"). It reports
// whether the key meant something. Holding a key down is one gesture and one entry of the history.
func (k *Desk) Key(name string, mods int, down, repeat bool) bool {
	if !down {
		held := k.Session.nudging
		k.Session.EndNudge()
		return held
	}

	if name == "Escape" && !k.hand.idle() {
		k.dropHand()
		k.Session.Touch()
		return true
	}
	if k.mode().Key(name, mods, repeat) {
		return true
	}

	switch {
	case k.pen.IsOpen():
		return k.keyDrawing(name, mods)
	case name == "Escape" && k.mode() == mode(k.brush):
		k.Brush(false, "")
		return true
	case name == "Escape": // ties had nothing to let go of
		return k.Act("tying") == nil
	case name == "Delete" || name == "Backspace":
		if k.ties.On {
			return k.Act("untie") == nil
		}
		if k.mode() == mode(k.subjects) {
			return k.Act("remove-subject") == nil
		}
		return k.Act("take-out") == nil
	case k.mode() != mode(k.copies) && k.copies.Key(name, mods, repeat):
		return true
	}

	for _, a := range actions {
		if a.Group != "drawing" && slices.Contains(a.Keys, name) {
			return k.Act(a.Name) == nil
		}
	}
	return false
}

// keyDrawing takes a key of the table of actions while a silhouette is drawn; Escape, when nothing else is to be
// ended, ends the drawing.
func (k *Desk) keyDrawing(name string, mods int) bool {
	switch name {
	case "Escape":
		k.leavePen()
		return true
	case "Backspace":
		name = "Delete"
	}
	if name == "Delete" && mods&view.Shift != 0 {
		name = "Shift+Delete"
	}

	for _, a := range actions {
		if (a.Group == "drawing" || a.Group == "view") && slices.Contains(a.Keys, name) {
			k.Session.sayError(k.Act(a.Name))
			return true
		}
	}
	return false
}
