package pattern

import (
	"math"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// palette is how a layout's copies get their colours: what the permutations make of a colour by cell, and the copies
// coloured by hand.
type palette struct {
	paint  *draft.Paint
	moved  int     // how many colours the permutations carry into each other, 0 without any
	period [2]int  // cells along a and b after which they repeat
	by     []uint8 // of a colour in cell (m, n): by[(m*period[1]+n)*moved + colour]
	hand   map[draft.HandColour]int
}

// paletteOf makes the palette of a draft that has passed Check; nil where the paint has no colours.
func paletteOf(p *draft.Paint) *palette {
	if p == nil || len(p.Colours) == 0 {
		return nil
	}
	out := &palette{paint: p, period: [2]int{1, 1}}
	if p.Perms != nil {
		out.moved = len(p.Perms.A)
		out.period = [2]int{orderOf(p.Perms.A), orderOf(p.Perms.B)}
		out.by = make([]uint8, 0, out.period[0]*out.period[1]*out.moved)
		for m := range out.period[0] {
			for n := range out.period[1] {
				for c := range out.moved {
					out.by = append(out.by, uint8(p.Perms.Colour(0, m, n, c))) // operation 0 is the identity
				}
			}
		}
	}
	if p.ByHand != nil {
		out.hand = make(map[draft.HandColour]int, len(p.ByHand.Copies))
		for _, h := range p.ByHand.Copies {
			number := h.Colour
			h.Colour = 0
			out.hand[h] = number
		}
	}
	return out
}

// orderOf returns how often a permutation must be done to do nothing.
func orderOf(perm []int) int {
	order := 1
	for c := range perm {
		length := 1
		for to := perm[c]; to != c && length < len(perm); to = perm[to] {
			length++
		}
		order = order / geometry.GCD(order, length) * length
	}
	return order
}

// of returns the number of a copy's colour.
func (p *palette) of(motif string, op, m, n int) int {
	if p.hand != nil {
		cells := p.paint.ByHand.Cells
		h := draft.HandColour{Motif: motif, Op: op, Cell: [2]int{geometry.Mod(m, cells[0]), geometry.Mod(n, cells[1])}}
		if number, ok := p.hand[h]; ok {
			return number
		}
	}
	number := p.paint.Of[motif]
	if number >= p.moved {
		return number
	}
	m, n = geometry.Mod(m, p.period[0]), geometry.Mod(n, p.period[1])
	return int(p.by[(m*p.period[1]+n)*p.moved+p.paint.Perms.Ops[op][number]])
}

// ColourOf returns the number of the colour of the copy that an operation of the group, moved by m and n cells, makes
// of a motif; −1 where the paint has no colours.
func (l *Layout) ColourOf(motif, op, m, n int) int {
	if l.palette == nil {
		return -1
	}
	return l.palette.of(l.Draft.Motifs[motif].ID, op, m, n)
}

// Only returns the layout with the copies of one colour alone on the panel, by its number; −1 where the paint has no
// colours. What of it is laid out by symmetry, the orbits, is that of all colours.
func (l *Layout) Only(colour int) *Layout {
	one := *l
	one.only = &colour
	return &one
}

// Torn returns the motifs of which copies that coincide should have two colours at once: they stand on a mirror or a
// rotation point that carries their colour into another. Such a copy has the colour of the first of them.
func (l *Layout) Torn() []int {
	if l.palette == nil || l.palette.moved == 0 {
		return nil
	}
	var out []int
	for i, o := range l.Orbits {
		if o.SameAs < 0 && len(o.Images) < len(l.maps) && l.torn(o) {
			out = append(out, i)
		}
	}
	return out
}

// torn reports whether an image that was left out of an orbit, because another covers its place, has another colour.
func (l *Layout) torn(o Orbit) bool {
	for k := range l.maps {
		m := l.maps[k].After(o.Place)
		image := Image{Op: k, Shape: l.Shapes.turned(o.Shape, m), At: [2]float64{m.X, m.Y}}
		centre := image.Centroid()
		for _, kept := range o.Images {
			off := geometry.Sub(centre, kept.Centroid())
			cm, cn := l.NearestCell(off)
			shift := l.Lattice(cm, cn)
			off = geometry.Sub(off, shift)
			if math.Hypot(off[0], off[1]) <= 3*SameSlack && sameImage(image, kept, shift) &&
				l.ColourOf(o.Motif, k, 0, 0) != l.ColourOf(o.Motif, kept.Op, cm, cn) {
				return true
			}
		}
	}
	return false
}

// ColourPeriod returns after how many cells along a and along b the colours of all copies repeat; 1 and 1 without any.
func (l *Layout) ColourPeriod() [2]int {
	out := [2]int{1, 1}
	if l.palette == nil {
		return out
	}
	out = l.palette.period
	if hand := l.palette.paint.ByHand; hand != nil {
		for i, n := range hand.Cells {
			out[i] = out[i] / geometry.GCD(out[i], n) * n
		}
	}
	return out
}
