package desk

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"openwork/geometry"
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

// Pieces brings in traced silhouettes; traced is the engine's list of them, chosen are indexes into it. mode says what
// becomes of what is on the desk: "add" leaves it, "fresh" begins anew under the drawing's name, "replace:ID" puts the
// drawing in the place of a silhouette's outline, "subject:" sets it before the pattern, or with an id takes the place
// of a subject. Several pieces are one silhouette or subject, or with apart one each, placed to each other as they were
// drawn.
func (k *Desk) Pieces(traced string, chosen []int, mode string, apart bool) error {
	var list []draft.Silhouette
	if err := json.Unmarshal([]byte(traced), &list); err != nil {
		return errors.New("the traced outlines could not be read; trace the picture again")
	}
	if len(chosen) == 0 {
		return errors.New("no piece is chosen; tick at least one")
	}

	var whole draft.Silhouette // all that was chosen
	for _, i := range chosen {
		if i < 0 || i >= len(list) {
			return fmt.Errorf("there is no traced piece %d", i+1)
		}
		whole.Outline = append(whole.Outline, list[i].Outline...)
	}
	whole.Name = list[chosen[0]].Name
	parts := []draft.Silhouette{whole}
	id, replace := strings.CutPrefix(mode, "replace:")
	if apart && !replace {
		parts = parts[:0]
		for _, i := range chosen {
			parts = append(parts, list[i])
		}
	}

	k.letGo()
	k.Session.history.Begin()
	if mode == "fresh" {
		k.Session.ClearFor(whole.Name)
	}
	try := func() error { return k.tryPieces(parts, whole, id, replace) }
	if of, front := strings.CutPrefix(mode, "subject:"); front {
		try = func() error { return k.tryFront(parts, whole, of) }
	}
	if err := try(); err != nil {
		k.Session.history.Abandon()
		k.Session.LayOutAgain(false) // a first piece may have set the cell
		return err
	}
	k.follow()
	return nil
}

// tryPieces adds silhouettes that together make a whole inside the open entry and commits it; with replace the one
// becomes the outline of the silhouette id.
func (k *Desk) tryPieces(parts []draft.Silhouette, whole draft.Silhouette, id string, replace bool) error {
	var place pattern.Command // where the whole comes to stand
	if !replace {
		k.Session.PlaceNew(&place, centred(whole.Outline))
	}

	middle := geometry.Centroid(whole.Outline)
	for n, s := range parts {
		c := pattern.Command{Name: "redraw", ID: id, Outline: centred(s.Outline)}
		if !replace {
			from := geometry.Centroid(s.Outline)
			c = pattern.Command{Name: "draw", ID: place.ID, Text: s.Name, Outline: c.Outline,
				Values: map[string]float64{
					"x": geometry.Snap(place.Values["x"] + from[0] - middle[0]),
					"y": geometry.Snap(place.Values["y"] + from[1] - middle[1])}}
		}
		if err := k.Session.Step(c); err != nil {
			return fmt.Errorf("piece %d cannot be used: %w", n+1, err)
		}
	}
	return k.Session.Commit(!replace)
}

// FileName returns a name for the draft's files, without an ending.
func (k *Desk) FileName() string { return say.FileName(k.Session.Draft().Title) }
