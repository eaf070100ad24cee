package draft

import (
	"fmt"
	"slices"
	"strings"

	"openwork/pattern/colouring"
	"openwork/pattern/symmetry"
)

// PaintFault says what is wrong with the draft's paint alone; nil when nothing is. An error is a *PlaceError.
func (d Draft) PaintFault() error {
	if d.Paint == nil {
		return nil
	}
	c := &checker{d: &d, was: &Draft{}}
	if c.object(PaintObject, d.Paint, "paint."); c.err != nil {
		return c.err
	}
	return nil
}

// paintHoldsTogether asks that every number of a colour is one, that copies coloured by hand can be, and that the
// permutations are those of a perfect colouring. What stood so in the draft before is not gone through again.
func (c *checker) paintHoldsTogether(owner any) (key, text string) {
	p, d := owner.(*Paint), c.d
	if c.passed && c.was.Paint == p && c.was.Repeat.Group == d.Repeat.Group && sameMotifs(c.was.Motifs, d.Motifs) {
		return "", ""
	}
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		return "", err.Error()
	}
	if len(p.Of) > 0 && len(p.Colours) == 0 {
		return "of", "it names the colours of motifs, and there are no colours to choose from"
	}
	for i, id := range p.Colours {
		if j := slices.Index(p.Colours, id); j < i {
			return fmt.Sprintf("colours[%d]", i), fmt.Sprintf("%q is colour %d already", id, j)
		}
	}
	for _, id := range sortedIDs(p.Of) {
		place := fmt.Sprintf("of.%s", plainOrQuoted(id))
		if text := d.unknown(Motifs, id); text != "" {
			return place, text
		}
		if text := p.noColour(p.Of[id]); text != "" {
			return place, text
		}
	}
	if key, text := p.badPerms(g); text != "" {
		return key, text
	}
	return p.badByHand(g)
}

func sameMotifs(a, b []Motif) bool {
	return slices.EqualFunc(a, b, func(a, b Motif) bool { return a.ID == b.ID })
}

func plainOrQuoted(id string) string {
	if plainKey(id) {
		return id
	}
	return fmt.Sprintf("%.70q", id)
}

// noColour says why a number is none of the paint's colours.
func (p *Paint) noColour(number int) string {
	n := len(p.Colours)
	switch {
	case number >= 0 && number < n:
		return ""
	case n == 0:
		return fmt.Sprintf("there is no colour %d; the list of colours is empty", number)
	case n == 1:
		return fmt.Sprintf("there is no colour %d; there is one colour, and its number is 0", number)
	}
	return fmt.Sprintf("there is no colour %d; the %d colours are numbered from 0 to %d", number, n, n-1)
}

// badPerms says why the permutations are not those of a perfect colouring by some of the paint's colours.
func (p *Paint) badPerms(g symmetry.Group) (key, text string) {
	if p.Perms == nil {
		return "", ""
	}
	k := len(p.Perms.A)
	if k > len(p.Colours) {
		return "perms.a", fmt.Sprintf("it permutes %d colours, and there are %d", k, len(p.Colours))
	}
	if err := colouring.Check(g, *p.Perms, k); err != nil {
		key, text, _ := strings.Cut(err.Error(), ": ")
		return "perms." + key, text
	}
	return "", ""
}

// badByHand says why copies cannot be coloured by hand.
func (p *Paint) badByHand(g symmetry.Group) (key, text string) {
	if p.ByHand == nil {
		return "", ""
	}
	seen := make(map[HandColour]int, len(p.ByHand.Copies))
	for i, h := range p.ByHand.Copies {
		place := fmt.Sprintf("byHand.copies[%d]", i)
		if text := p.noColour(h.Colour); text != "" {
			return place + ".colour", text
		}
		if h.Op >= len(g.Ops) {
			return place + ".op", fmt.Sprintf("%s has no operation %d; its %d are numbered from 0", g.Symbol, h.Op,
				len(g.Ops))
		}
		for k, v := range h.Cell {
			if v >= p.ByHand.Cells[k] {
				return fmt.Sprintf("%s.cell[%d]", place, k),
					fmt.Sprintf("%d lies outside the block of %d × %d cells; they are numbered from 0", v,
						p.ByHand.Cells[0], p.ByHand.Cells[1])
			}
		}
		h.Colour = 0
		if j, ok := seen[h]; ok {
			return place, fmt.Sprintf("it is the copy of byHand.copies[%d], which has a colour already", j)
		}
		seen[h] = i
	}
	return "", ""
}
