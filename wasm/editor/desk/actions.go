package desk

import (
	"errors"
	"fmt"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/wasm/editor/desk/pen"
)

// Action is one thing that can be done without further words: the row that a button, a key and the key help share.
type Action struct {
	Name  string   `json:"name"`
	Label string   `json:"label"`
	Keys  []string `json:"keys"`
	Group string   `json:"group"`
	do    func(k *Desk) error
}

// actions is the table. It is filled in init because its functions look things up in it.
var actions []Action

func init() {
	actions = []Action{
		{"undo", "Undo", []string{"Ctrl+Z"}, "draft", (*Desk).Undo},
		{"redo", "Redo", []string{"Ctrl+Shift+Z", "Ctrl+Y"}, "draft", (*Desk).Redo},
		{"new", "Start an empty draft", nil, "draft", func(k *Desk) error { return k.Open(draft.Default()) }},
		{"units", "Millimetres or inches", []string{"u"}, "view", (*Desk).switchUnits},
		{"fit", "Whole panel", []string{"0"}, "view", func(k *Desk) error { k.fit(); return nil }},
		{"closer", "Closer", []string{"+", "="}, "view", func(k *Desk) error { k.zoomStep(zoomStep); return nil }},
		{"further", "Further off", []string{"-"}, "view", func(k *Desk) error { k.zoomStep(1 / zoomStep); return nil }},
		{"next-motif", "Next motif", []string{"n"}, "motif", func(k *Desk) error { return k.stepMotif(1) }},
		{"previous-motif", "Motif before", []string{"p"}, "motif", func(k *Desk) error { return k.stepMotif(-1) }},
		{"another", "Another like it", []string{"d"}, "motif", (*Desk).another},
		{"mirror", "Mirror the motif", []string{"m"}, "motif", (*Desk).mirror},
		{"another-mirrored", "Another, mirrored", []string{"D"}, "motif", (*Desk).anotherMirrored},
		{"onto", "Onto the nearest mirror or rotation point", []string{"o"}, "motif", (*Desk).setOnto},
		{"draw-on", "Draw on its silhouette", []string{"w"}, "motif", (*Desk).drawOn},
		{"colour-copy", "Colour the copy by hand", []string{"c"}, "motif", (*Desk).colourCopy},
		{"take-out", "Take the motif out", []string{"Delete"}, "motif", (*Desk).takeOut},
		{"deselect", "Let go", []string{"Escape"}, "motif", func(k *Desk) error { k.Session.Choose(""); return nil }},
		{"tying", "Set or move ties", []string{"t"}, "ties", (*Desk).switchTying},
		{"next-tie", "Next tie", []string{"T"}, "ties", (*Desk).nextTie},
		{"untie", "Take the tie out", nil, "ties", (*Desk).takeOutTie},
		{"next-subject", "Next subject", []string{"j"}, "subject", (*Desk).stepSubject},
		{"remove-subject", "Take the subject away", nil, "subject", (*Desk).removeSubject},
		{"signs", "Mirrors, glides and rotation points", []string{"s"}, "repeat",
			func(k *Desk) error { k.signs.Switch(); return nil }},
		{"next-sign", "Read the next of them", []string{"e"}, "repeat", func(k *Desk) error { return k.signs.Next() }},
		{"cell-handles", "The cell's handles in every step", []string{"h"}, "repeat", (*Desk).keepCellHandles},
		{"hold-area", "Hold the cell's area", nil, "repeat",
			func(k *Desk) error { return k.Session.switchHold(pattern.KeepArea) }},
		{"hold-proportion", "Hold the cell's proportion", nil, "repeat",
			func(k *Desk) error { return k.Session.switchHold(pattern.KeepProportion) }},
		{"next-fault", "Next fault", []string{"f"}, "fault", func(k *Desk) error { return k.stepFault(1) }},
		{"previous-fault", "Fault before", []string{"F"}, "fault", func(k *Desk) error { return k.stepFault(-1) }},
		{"mend", "Mend it", nil, "fault", (*Desk).mendIt},
	}

	actions = append(actions, Action{"draw-done", "Back to the panel", nil, "drawing", func(k *Desk) error {
		if !k.pen.IsOpen() {
			return pen.ErrNotOpen
		}
		k.leavePen()
		return nil
	}})
	for _, a := range pen.Actions() {
		do := func(k *Desk) error { return a.Do(k.pen) }
		actions = append(actions, Action{a.Name, a.Label, a.Keys, "drawing", do})
	}
}

// Actions returns the table, and with it the keys that have no row of their own there.
func Actions() []Action {
	held := []Action{
		{Name: "move", Keys: []string{"Arrow keys"}, Group: "motif",
			Label: "Move by 1 mm; with Shift 10, with Alt 0.1"},
		{Name: "turn", Keys: []string{"[", "]"}, Group: "motif",
			Label: "Turn by 1 degree; with Shift 10, with Alt 0.1"},
		{Name: "off", Keys: []string{"Alt"}, Group: "motif",
			Label: "Hold while dragging: no mirror or rotation point draws the copy to it"},
		{Name: "settle", Keys: []string{"l"}, Group: "motif",
			Label: "Hold while letting go of a copy: it settles in the nearest place that holds"},
		{Name: "scale", Label: "Make smaller or larger by a hundredth", Keys: []string{",", "."}, Group: "motif"},
		{Name: "subject-move", Keys: []string{"Arrow keys"}, Group: "subject",
			Label: "Move by 1 mm; with Shift 10, with Alt 0.1. Brackets turn, comma and full stop scale, m mirrors"},
		{Name: "draw-move", Keys: []string{"Arrow keys"}, Group: "drawing",
			Label: "Move the chosen points by 1 mm; with Shift 10, with Alt 0.1"},
		{Name: "draw-escape", Keys: []string{"Escape"}, Group: "drawing",
			Label: "End the line, then let go of the points, then leave"},
	}
	return append(append([]Action(nil), actions...), held...)
}

// Act carries out an action of the table; the error says why it cannot be done now.
func (k *Desk) Act(name string) error {
	for _, a := range actions {
		if a.Name == name {
			k.Session.EndNudge()
			err := a.do(k)
			k.Session.Touch()
			return err
		}
	}
	return fmt.Errorf("there is no action called %.40q", name)
}

func (k *Desk) switchUnits() error {
	k.Session.Inches = !k.Session.Inches
	return nil
}

func (k *Desk) keepCellHandles() error {
	if k.copies.CellKept = !k.copies.CellKept; k.copies.CellKept {
		k.copies.CellTouched()
	}
	return nil
}

// StepInHand tells the desk which step of the job is open on the page; only the repeat's has handles on the cell.
func (k *Desk) StepInHand(name string) {
	if shown := name == "repeat"; shown != k.copies.CellShown {
		k.copies.CellShown = shown
		k.Session.Redrawn()
	}
}

func (k *Desk) zoomStep(f float64) {
	m := k.View.Middle()
	k.View.ZoomAt(m[0], m[1], f)
}

func (k *Desk) stepMotif(by int) error {
	m := k.Session.Draft().Motifs
	if len(m) == 0 {
		return errors.New("there is no motif yet; bring in a drawing first")
	}
	i := k.Session.Draft().Motif(k.Session.sel.ID)
	if i < 0 && by < 0 {
		i = 0
	}
	k.Session.Choose(m[(i+by+len(m))%len(m)].ID)
	return nil
}

var errNoMotif = errors.New("no motif is selected; press a copy on the panel first")

func (k *Desk) another() error {
	if k.Session.Draft().Motif(k.Session.sel.ID) < 0 {
		return errNoMotif
	}
	return k.Do(pattern.Command{Name: "motif", ID: k.Session.sel.ID})
}

// anotherMirrored puts a second motif like the one in hand beside it, the other way round.
func (k *Desk) anotherMirrored() error {
	if k.Session.Draft().Motif(k.Session.sel.ID) < 0 {
		return errNoMotif
	}
	return k.Do(pattern.Command{Name: "motif", ID: k.Session.sel.ID, Flag: true})
}

func (k *Desk) mirror() error {
	i := k.Session.Draft().Motif(k.Session.sel.ID)
	if i < 0 {
		return errNoMotif
	}
	return k.Do(pattern.Command{Name: "mirror", ID: k.Session.sel.ID, Flag: !k.Session.Draft().Motifs[i].Mirrored})
}

func (k *Desk) takeOut() error {
	if k.Session.sel.ID == "" {
		return errNoMotif
	}
	return k.Do(pattern.Command{Name: "remove", ID: k.Session.sel.ID})
}
