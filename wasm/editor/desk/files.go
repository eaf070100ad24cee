package desk

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"openwork/pattern"
	"openwork/pattern/link"
)

// Start opens the draft of the last visit, or the demo, with nothing before it to undo.
func (k *Desk) Start(text string) error {
	d, err := pattern.Decode(strings.NewReader(text))
	if err != nil {
		return fmt.Errorf("the draft kept from last time could not be read: %w", err)
	}
	k.letGo()
	k.history = pattern.NewHistory(d)
	k.selectFirst()
	k.settled(true)
	k.fit()
	return nil
}

// OpenText opens a draft from its file's text. On an error what was open stays.
func (k *Desk) OpenText(text string) error {
	d, err := pattern.Decode(strings.NewReader(text))
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
func (k *Desk) Link() (string, error) { return link.Encode(k.Draft()) }

// Pieces adds traced silhouettes, or puts the first chosen one in the place of a silhouette's outline. traced is the
// engine's list of silhouettes; chosen are indexes into it.
func (k *Desk) Pieces(traced string, chosen []int, mode string) error {
	var list []pattern.Silhouette
	if err := json.Unmarshal([]byte(traced), &list); err != nil {
		return errors.New("the traced outlines could not be read; trace the picture again")
	}
	id, replace := strings.CutPrefix(mode, "replace:")
	if len(chosen) == 0 {
		return errors.New("no piece is chosen; tick at least one")
	}
	k.letGo()
	k.history.Begin()
	l, err := k.tryPieces(list, chosen, id, replace)
	if err != nil {
		k.history.Abandon()
		k.relay() // a first piece may have set the cell
		return err
	}
	k.history.Settle()
	k.keepSelection()
	if m := k.Draft().Motifs; !replace && len(m) > 0 {
		k.choose(m[len(m)-1].ID)
	}
	k.settledOn(l, true)
	return nil
}

// tryPieces adds the chosen pieces of a list inside the open gesture and lays them out; with replace the first becomes the outline
// of the silhouette id.
func (k *Desk) tryPieces(list []pattern.Silhouette, chosen []int, id string, replace bool) (*pattern.Layout, error) {
	for n, i := range chosen {
		if i < 0 || i >= len(list) {
			return nil, fmt.Errorf("there is no traced piece %d", i+1)
		}
		outline := centred(list[i].Outline)
		c := pattern.Command{Name: "draw", Text: list[i].Name, Outline: outline}
		if replace && n == 0 {
			c = pattern.Command{Name: "redraw", ID: id, Outline: outline}
		} else {
			k.placeNew(&c, outline)
		}
		if err := k.step(c); err != nil {
			return nil, fmt.Errorf("piece %d cannot be used: %w", i+1, err)
		}
	}
	return k.feasible(k.Draft())
}

// FileName returns a name for the draft's files, without an ending: the title's letters and digits joined by dashes.
func (k *Desk) FileName() string {
	var b strings.Builder
	for _, r := range strings.ToLower(k.Draft().Title) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r > 127:
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	name := strings.Trim(b.String(), "-")
	if name == "" {
		return "draft"
	}
	return name
}
