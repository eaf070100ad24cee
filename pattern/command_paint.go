package pattern

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// applyGround lays the swatch ID under the field; none for an empty one.
func applyGround(d *draft.Draft, c Command) error {
	p := d.Paint.Clone()
	p.Ground = c.ID
	d.Paint = p.Kept()
	return nil
}

// applyColour gives the motif ID the colour of the swatch Text.
func applyColour(d *draft.Draft, c Command) error {
	if _, err := motifOf(d, c.ID); err != nil {
		return err
	}
	p := d.Paint.Clone()
	number, err := numberOf(d, p, c.Text)
	if err != nil {
		return err
	}
	if p.Of == nil {
		p.Of = map[string]int{}
	}
	p.Of[c.ID] = number
	keepUsed(d, p)
	return nil
}

// numberOf returns the number of a swatch among the paint's colours, to which it is added where it is not one.
func numberOf(d *draft.Draft, p *draft.Paint, swatch string) (int, error) {
	i, err := swatchOf(d, swatch)
	if err != nil {
		return 0, err
	}
	if number := slices.Index(p.Colours, swatch); number >= 0 {
		return number, nil
	}
	if len(p.Colours) == draft.MaxColours {
		return 0, fmt.Errorf("the panel has %d colours, and %s would be one more; that is the most", len(p.Colours),
			d.Swatches[i].Name)
	}
	p.Colours = append(p.Colours, swatch)
	return len(p.Colours) - 1, nil
}

// applySlot gives colour number "index" the swatch Text. Where another number has it, the two change places.
func applySlot(d *draft.Draft, c Command) error {
	if _, err := swatchOf(d, c.Text); err != nil {
		return err
	}
	p := d.Paint.Clone()
	v := c.Values["index"]
	i := int(v)
	if float64(i) != v || i < 0 || i >= len(p.Colours) {
		return fmt.Errorf("there is no colour %g; the panel has %d, numbered from 0", v, len(p.Colours))
	}
	if other := slices.Index(p.Colours, c.Text); other >= 0 {
		p.Colours[other] = p.Colours[i]
	}
	p.Colours[i] = c.Text
	d.Paint = p.Kept()
	return nil
}

// applyColouring takes the perfect colouring Perms; without it, each motif's copies all have the motif's colour again.
// Colours that it needs more than the panel has are taken from the swatches, and then from usual ones.
func applyColouring(d *draft.Draft, c Command) error {
	p := d.Paint.Clone()
	p.Perms = c.Perms
	if p.Perms == nil {
		keepUsed(d, p)
		return nil
	}
	if len(d.Motifs) == 0 {
		return errors.New("there is nothing to colour yet; place a motif first")
	}
	need := min(len(p.Perms.A), draft.MaxColours)
	for _, s := range d.Swatches {
		if len(p.Colours) < need && s.ID != p.Ground && !slices.Contains(p.Colours, s.ID) {
			p.Colours = append(p.Colours, s.ID)
		}
	}
	for _, s := range usualSwatches(d, need-len(p.Colours)) {
		if err := applySwatch(d, Command{Swatches: []draft.Swatch{s}}); err != nil {
			return err
		}
		p.Colours = append(p.Colours, d.Swatches[len(d.Swatches)-1].ID)
	}
	d.Paint = p.Kept()
	return nil
}

// usualSwatches returns n colours that tell each other apart in tone and in hue, none of which the draft has.
func usualSwatches(d *draft.Draft, n int) (out []draft.Swatch) {
	for _, s := range [...][2]string{{"Deep green", "#17564a"}, {"Rust", "#9a4a22"}, {"Bone", "#e4d9bf"},
		{"Slate", "#3c4a5c"}, {"Ochre", "#c9962f"}, {"Plum", "#5d2e4a"}, {"Sky", "#8fb3c7"}, {"Brick", "#7c2a20"},
		{"Moss", "#7c8a3e"}, {"Rose", "#cf8f86"}, {"Soot", "#26231f"}, {"Stone", "#8f877a"}} {
		taken := slices.ContainsFunc(d.Swatches, func(w draft.Swatch) bool { return w.Colour == s[1] })
		if !taken && len(out) < n {
			out = append(out, draft.Swatch{Name: s[0], Colour: s[1]})
		}
	}
	for k := len(out); k < n; k++ { // the draft has all of them already: grey steps
		out = append(out, draft.Swatch{Name: fmt.Sprintf("Grey %d", k+1),
			Colour: fmt.Sprintf("#%02x%02x%02x", 20*k%256, 20*k%256, 20*k%256)})
	}
	return out
}

// applyCopy colours by hand the copy of the motif ID that operation "op" moved by "m" and "n" cells makes, and all that
// stand alike in the other blocks: with the swatch Text, or as everything else says where that is empty.
func applyCopy(d *draft.Draft, c Command) error {
	p := d.Paint.Clone()
	h := p.ByHand
	if h == nil {
		h = &draft.ByHand{Cells: [2]int{1, 1}}
		p.ByHand = h
	}
	at := draft.HandColour{Motif: c.ID, Op: int(c.Values["op"]),
		Cell: [2]int{geometry.Mod(int(c.Values["m"]), h.Cells[0]), geometry.Mod(int(c.Values["n"]), h.Cells[1])}}
	h.Copies = slices.DeleteFunc(h.Copies, func(o draft.HandColour) bool {
		o.Colour = 0
		return o == at
	})
	if c.Text != "" {
		number, err := numberOf(d, p, c.Text)
		if err != nil {
			return err
		}
		at.Colour = number
		h.Copies = append(h.Copies, at)
	}
	keepUsed(d, p)
	return nil
}

// applyBlock makes the block that copies are coloured by hand in "m" × "n" cells. What is coloured is repeated into a
// larger block, and cut off by a smaller one.
func applyBlock(d *draft.Draft, c Command) error {
	p := d.Paint.Clone()
	cells := [2]int{int(c.Values["m"]), int(c.Values["n"])}
	if cells[0] < 1 || cells[1] < 1 || cells[0] > draft.MaxBlock || cells[1] > draft.MaxBlock {
		return fmt.Errorf("the block has from 1 to %d cells each way, not %d × %d", draft.MaxBlock, cells[0], cells[1])
	}
	was := p.ByHand
	if was == nil || len(was.Copies) == 0 {
		return errors.New("no copy is coloured by hand yet; colour one first")
	}
	now := &draft.ByHand{Cells: cells}
	for m := range cells[0] {
		for n := range cells[1] {
			for _, h := range was.Copies {
				if h.Cell == [2]int{m % was.Cells[0], n % was.Cells[1]} {
					h.Cell = [2]int{m, n}
					now.Copies = append(now.Copies, h)
				}
			}
		}
	}
	p.ByHand = now
	keepUsed(d, p)
	return nil
}

// applyHandless takes all colouring by hand away.
func applyHandless(d *draft.Draft, _ Command) error {
	p := d.Paint.Clone()
	p.ByHand = nil
	keepUsed(d, p)
	return nil
}

// applyPaste sets what paste is reckoned by: waste and dryOfWet as parts, density in g/ml, tub in ml.
func applyPaste(d *draft.Draft, c Command) error {
	p := d.Paint.Clone()
	draft.PaintObject.Set(p, c.Values)
	d.Paint = p.Kept()
	return nil
}

// keepUsed gives the draft a paint without the colours that no copy can have; those that are left keep their order.
// Colours that permutations carry into each other are all used.
func keepUsed(d *draft.Draft, p *draft.Paint) {
	used := map[int]bool{}
	if p.Perms != nil {
		for i := range p.Perms.A {
			used[i] = true
		}
	}
	for _, m := range d.Motifs {
		used[p.Of[m.ID]] = true
	}
	if p.ByHand != nil {
		for _, h := range p.ByHand.Copies {
			used[h.Colour] = true
		}
	}

	number := map[int]int{}
	var colours []string
	for i, id := range p.Colours {
		if used[i] || len(d.Motifs) == 0 {
			number[i] = len(colours)
			colours = append(colours, id)
		}
	}
	p.Colours = colours
	for id, i := range p.Of {
		p.Of[id] = number[i]
	}
	if p.ByHand != nil {
		for i, h := range p.ByHand.Copies {
			p.ByHand.Copies[i].Colour = number[h.Colour]
		}
	}
	d.Paint = p.Kept()
}

// dropPaint forgets the colours of motifs that are no longer there.
func dropPaint(d *draft.Draft) {
	gone := func(id string) bool { return d.Motif(id) < 0 }
	p := d.PaintOf()
	handed := p.ByHand != nil &&
		slices.ContainsFunc(p.ByHand.Copies, func(h draft.HandColour) bool { return gone(h.Motif) })
	if !handed && !slices.ContainsFunc(slices.Collect(maps.Keys(p.Of)), gone) {
		return
	}
	p = p.Clone()
	maps.DeleteFunc(p.Of, func(id string, _ int) bool { return gone(id) })
	if p.ByHand != nil {
		p.ByHand.Copies = slices.DeleteFunc(p.ByHand.Copies, func(h draft.HandColour) bool { return gone(h.Motif) })
	}
	d.Paint = p.Kept()
}

// leaveGroup takes away what a paint says in terms of a group's operations: the draft has another group.
func leaveGroup(d *draft.Draft) {
	if d.Paint == nil || d.Paint.Perms == nil && d.Paint.ByHand == nil {
		return
	}
	p := d.Paint.Clone()
	p.Perms, p.ByHand = nil, nil
	d.Paint = p.Kept()
}

// repaint gives the draft an older paint of its group again, unless the paint was changed since it was left, or the
// older one does not fit any more.
func repaint(d *draft.Draft, older, left *draft.Paint) {
	if d.Paint != left {
		return
	}
	was := d.Paint
	if d.Paint = older; d.PaintFault() != nil {
		d.Paint = was
	}
}
