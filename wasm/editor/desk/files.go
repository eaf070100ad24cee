package desk

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/link"
	"openwork/wasm/editor/desk/say"
)

// Start opens the draft of the last visit, or the demo, with nothing before it to undo.
func (k *Desk) Start(text string) error {
	d, err := draft.Decode(strings.NewReader(text))
	if err != nil {
		return fmt.Errorf("the draft kept from last time could not be read: %w", err)
	}
	k.begin(pattern.NewHistory(d))
	return nil
}

// begin puts a draft with its history on the desk in place of the open one and its history.
func (k *Desk) begin(h *pattern.History) {
	k.letGo()
	k.Session.history = h
	k.selectNone()
	k.finish(true)
	k.fit()
}

// OpenText opens a draft from its file's text. On an error what was open stays.
func (k *Desk) OpenText(text string) error {
	d, err := draft.Decode(strings.NewReader(text))
	if err != nil {
		return fmt.Errorf("this draft could not be opened: %w; what was open is still here", err)
	}
	if err := k.Open(d); err != nil {
		return fmt.Errorf("this draft was not opened: %w; what was open is still here", err)
	}
	return nil
}

// OpenLink opens a draft from an address or its fragment. On an error what was open stays.
func (k *Desk) OpenLink(address string) error {
	d, err := link.Decode(address)
	if err != nil {
		return fmt.Errorf("this link could not be opened: %w; what was open is still here", err)
	}
	if err := k.Open(d); err != nil {
		return fmt.Errorf("this link was not opened: %w; what was open is still here", err)
	}
	return nil
}

// Link returns the fragment that opens the draft elsewhere.
func (k *Desk) Link() (string, error) { return link.Encode(k.Session.Draft()) }

// Pieces adds traced silhouettes, or puts the first chosen one in the place of a silhouette's outline. traced is the
// engine's list of silhouettes; chosen are indexes into it. mode is "add", "replace:" and a silhouette, or "subject:" for
// new subjects, with the id of one whose outline is replaced.
func (k *Desk) Pieces(traced string, chosen []int, mode string) error {
	var list []draft.Silhouette
	if err := json.Unmarshal([]byte(traced), &list); err != nil {
		return errors.New("the traced outlines could not be read; trace the picture again")
	}

	id, replace := strings.CutPrefix(mode, "replace:")
	if len(chosen) == 0 {
		return errors.New("no piece is chosen; tick at least one")
	}

	k.letGo()
	k.Session.history.Begin()
	try := func() error { return k.tryPieces(list, chosen, id, replace) }
	if of, front := strings.CutPrefix(mode, "subject:"); front {
		try = func() error { return k.tryFront(list, chosen, of) }
	}
	if err := try(); err != nil {
		k.Session.history.Abandon()
		k.Session.LayOutAgain(false) // a first piece may have set the cell
		return err
	}
	k.follow()
	return nil
}

// tryPieces adds the chosen pieces of a list inside the open entry and commits it; with replace the first becomes the
// outline of the silhouette id.
func (k *Desk) tryPieces(list []draft.Silhouette, chosen []int, id string, replace bool) error {
	for n, i := range chosen {
		if i < 0 || i >= len(list) {
			return fmt.Errorf("there is no traced piece %d", i+1)
		}
		outline := centred(list[i].Outline)
		c := pattern.Command{Name: "draw", Text: list[i].Name, Outline: outline}
		if replace && n == 0 {
			c = pattern.Command{Name: "redraw", ID: id, Outline: outline}
		} else {
			k.Session.PlaceNew(&c, outline)
		}
		if err := k.Session.Step(c); err != nil {
			return fmt.Errorf("piece %d cannot be used: %w", i+1, err)
		}
	}
	return k.Session.Commit(!replace)
}

// FileName returns a name for the draft's files, without an ending.
func (k *Desk) FileName() string { return say.FileName(k.Session.Draft().Title) }
