package desk

import (
	"errors"

	"github.com/paulmach/orb"

	"openwork/pattern/appearance"
	"openwork/pattern/draft"
	"openwork/wasm/editor/desk/brush"
)

// paintState is what the page shows of the paint.
type paintState struct {
	Swatches []swatchState     `json:"swatches"`
	Ground   string            `json:"ground"`
	Colours  []string          `json:"colours"` // swatches, by number
	Of       map[string]string `json:"of"`      // the swatch of each motif; none without colours
	Moved    int               `json:"moved"`   // how many colours a perfect colouring carries into each other
	ByHand   handState         `json:"byHand"`
	Reckoned map[string]any    `json:"reckoned"` // what paste is reckoned by
	Look     string            `json:"look"`
	Notes    []string          `json:"notes"`
}

type swatchState struct {
	draft.Swatch
	Note  string  `json:"note"`
	Value float64 `json:"value"` // L*
	Used  bool    `json:"used"`
}

// handState is what is coloured by hand, and with what.
type handState struct {
	Copies int    `json:"copies"`
	Cells  [2]int `json:"cells"` // of the block
	On     bool   `json:"on"`    // a press on a copy colours it
	Swatch string `json:"swatch"`
}

// Brush takes a swatch up to colour copies by hand, or lays the brush down; an empty swatch takes such colours away.
func (k *Desk) Brush(on bool, swatch string) {
	k.Session.EndNudge()
	if k.ties.On {
		k.ties.Switch()
	}
	k.leavePen()
	k.subjects.Choose("")
	k.brush.Take(on, swatch)
	k.Session.Touch()
}

// SeeAs has colours looked at in another way.
func (k *Desk) SeeAs(view string) error {
	if err := appearance.View(view).Check(); err != nil {
		return err
	}
	k.Session.Look = appearance.View(view)
	k.Session.Touch()
	return nil
}

// copyUnder returns the copy under a canvas point.
func (k *Desk) copyUnder(p orb.Point) (brush.Copy, bool) {
	h, ok := k.copies.Hit(p)
	if !ok {
		return brush.Copy{}, false
	}
	return brush.Copy{Motif: k.Session.Draft().Motifs[h.Motif].ID, Op: h.Op, Cell: h.Cell}, true
}

// colourCopy colours the copy that the handles stand on.
func (k *Desk) colourCopy() error {
	if !k.brush.On() {
		return errors.New("take a swatch up first, under By hand in the step Paint")
	}
	sel := k.Session.sel
	if k.Session.Draft().Motif(sel.ID) < 0 {
		return errNoMotif
	}
	return k.brush.Colour(brush.Copy{Motif: sel.ID, Op: sel.Op, Cell: sel.Cell})
}

// paintState returns what the page shows of the paint.
func (k *Desk) paintState() paintState {
	d := k.Session.Draft()
	p := d.PaintOf()
	out := paintState{Swatches: []swatchState{}, Ground: p.Ground, Colours: append([]string{}, p.Colours...),
		Of: map[string]string{}, Reckoned: draft.PaintObject.Values(p), Look: string(k.Session.Look),
		Notes: k.Session.paintNotes()}
	used := map[string]bool{p.Ground: true}
	for _, id := range p.Colours {
		used[id] = true
	}
	for _, s := range d.Swatches {
		out.Swatches = append(out.Swatches, swatchState{s, s.Note, appearance.Value(appearance.Parse(s.Colour)),
			used[s.ID]})
	}
	if len(p.Colours) > 0 {
		for _, m := range d.Motifs {
			out.Of[m.ID] = p.Colours[p.Of[m.ID]]
		}
	}
	if p.Perms != nil {
		out.Moved = len(p.Perms.A)
	}
	out.ByHand = handState{Cells: [2]int{1, 1}, On: k.brush.On(), Swatch: k.brush.Swatch()}
	if p.ByHand != nil {
		out.ByHand.Copies, out.ByHand.Cells = len(p.ByHand.Copies), p.ByHand.Cells
	}
	return out
}

// paintNotes says what the painter should know of the colours, for the draft as it is; while something is in hand, what
// was known before.
func (s *Session) paintNotes() []string {
	if s.layout == nil || s.InHand() || s.paintNotesOf == s.revision {
		return s.notesOnPaint
	}
	s.paintNotesOf = s.revision
	s.notesOnPaint = []string{}
	if p := s.Draft().Paint; p == nil || len(p.Colours) == 0 {
		return s.notesOnPaint
	}
	counted := map[int]int{}
	copies, err := s.layout.Copies()
	if err == nil {
		for _, c := range copies {
			counted[c.Colour]++
		}
		s.notesOnPaint = s.words().Paint(s.layout.Torn(), len(copies), counted)
	}
	return s.notesOnPaint
}
