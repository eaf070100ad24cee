package stepping

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
)

// repeated is a layout of a field without operations of its group, and the lattice on which its colours repeat too.
type repeated struct {
	l    *pattern.Layout
	fine lattice
	a, b cell // the layout's cell in cells of fine
}

// errOneColour is the refusal of plates where all openings have one colour.
var errOneColour = errors.New("plates are for several colours, and this panel has one: give motifs swatches of their " +
	"own in the step Paint, or step it as one sheet")

// unfolded returns a layout of the same field in which every copy of the block of cells after which the colours repeat
// is a motif of its own, in its colour, by translations alone: what is laid by steps in several colours is moved by
// those translations that keep all of them. It fails where such a block holds more copies than a draft has motifs.
func unfolded(l *pattern.Layout) (repeated, error) {
	block := l.ColourPeriod()
	if n := block[0] * block[1] * l.InCell(); n > draft.MaxMotifs {
		return repeated{}, fmt.Errorf("the colours repeat after %d × %d cells only, which hold %d copies, and plates "+
			"that are stepped take up to %d; take a colouring that repeats sooner, or cut plates of the whole panel",
			block[0], block[1], n, draft.MaxMotifs)
	}
	d := l.Draft
	d.Repeat = draft.Repeat{Group: "p1", A: float64(block[0]) * d.Repeat.A, B: float64(block[1]) * d.Repeat.B,
		Gamma: d.Repeat.Gamma}
	paint := *d.PaintOf()
	paint.Perms, paint.ByHand, paint.Of = nil, nil, map[string]int{}
	d.Paint, d.Silhouettes, d.Motifs, d.Ties = &paint, nil, nil, nil

	for k, o := range l.Orbits {
		if o.SameAs >= 0 {
			continue
		}
		// The ties of copies that coincide are off the outline already.
		s, _ := l.Draft.Silhouette(l.Draft.Motifs[o.Motif].Silhouette)
		s.ID = fmt.Sprintf("s%d", k)
		if o.Shape != o.Bare {
			s.Outline = o.Shape.Outline()
		}
		d.Silhouettes = append(d.Silhouettes, s)
		for _, image := range o.Images {
			for m := range block[0] {
				for n := range block[1] {
					one := placedBy(l.Op(image.Op, m, n).After(o.Place))
					one.ID, one.Silhouette = fmt.Sprintf("m%d", len(d.Motifs)), s.ID
					paint.Of[one.ID] = l.ColourOf(o.Motif, image.Op, m, n)
					d.Motifs = append(d.Motifs, one)
				}
			}
		}
	}
	for _, t := range l.Draft.Ties {
		if t.Silhouette != "" {
			continue
		}
		for op := range l.Group.Ops {
			for m := range block[0] {
				for n := range block[1] {
					d.Ties = append(d.Ties, t.Mapped(l.Op(op, m, n)))
				}
			}
		}
	}

	out := repeated{}
	out.fine, out.a, out.b = coloursRepeat(l, block)
	var err error
	out.l, err = pattern.NewLayout(d, l.Shapes)
	return out, err
}

// placedBy returns the motif that a map of a silhouette to the field makes.
func placedBy(m geometry.Map) draft.Motif {
	out := draft.Motif{At: [2]float64{m.X, m.Y}, Scale: math.Sqrt(math.Abs(m.Det())), Mirrored: m.Det() < 0}
	turn := math.Atan2(m.C, m.A)
	if out.Mirrored {
		turn = math.Atan2(-m.B, m.D)
	}
	out.Turn = turn * 180 / math.Pi
	return out
}

// coloursRepeat returns the lattice of the translations that keep every copy's colour, and a block of cells after which
// they repeat in cells of it.
func coloursRepeat(l *pattern.Layout, block [2]int) (fine lattice, a, b cell) {
	keeps := func(m, n int) bool {
		for _, o := range l.Orbits {
			for _, image := range o.Images {
				for i := range block[0] {
					for j := range block[1] {
						if l.ColourOf(o.Motif, image.Op, i, j) != l.ColourOf(o.Motif, image.Op, i+m, j+n) {
							return false
						}
					}
				}
			}
		}
		return true
	}
	along := 1
	for !keeps(along, 0) { // it keeps them after the block at the latest
		along++
	}
	up, aside := 1, 0
	for {
		var some bool
		if aside, some = firstOf(along, func(m int) bool { return keeps(m, up) }); some {
			break
		}
		up++
	}
	fine = lattice{l.Lattice(along, 0), l.Lattice(aside, up)}
	rows := block[1] / up
	return fine, cell{block[0] / along, 0}, cell{-rows * aside / along, rows}
}

// firstOf returns the first number below n for which is holds.
func firstOf(n int, is func(int) bool) (int, bool) {
	for m := range n {
		if is(m) {
			return m, true
		}
	}
	return 0, false
}

// Plate is the stepping sheet of one colour: all are of one outline, with registration at the same places.
type Plate struct {
	Number   int    `json:"number"` // from 1, in the order of the paint's colours
	Swatch   string `json:"swatch"`
	Name     string `json:"name"`
	Openings []int  `json:"openings"` // numbers of the sheet's openings that it has

	colour int
}

// parted returns the plates of a sheet in several colours. A colour that nothing on the panel has makes none.
func (s *Stepping) parted() ([]Plate, error) {
	d := s.l.Draft
	out := []Plate{}
	has := map[int]bool{}
	for _, p := range s.laid {
		has[p.colour] = true
	}
	for colour, id := range d.PaintOf().Colours {
		p := Plate{Number: len(out) + 1, colour: colour}
		for i, t := range s.sheet.slots {
			if s.sheet.f.kinds[t.kind].colour == colour {
				p.Openings = append(p.Openings, i+1)
			}
		}
		if swatch, ok := d.Swatch(id); ok && has[colour] {
			p.Swatch, p.Name = swatch.ID, swatch.Name
			out = append(out, p)
		}
	}
	if len(out) < 2 {
		return nil, errOneColour
	}
	return out, nil
}

// Key says which openings of the sheet are laid in a colour, and at which places.
type Key struct {
	Swatch   string `json:"swatch"`
	Name     string `json:"name"`
	Openings []int  `json:"openings"`
	Places   []int  `json:"places"` // none: wherever the openings are laid, for they have no other colour
}

// keyed returns the key of a field in several colours: by colour, the openings that are always laid in it, and those
// that are laid in it at the same places together. Openings of copies of several colours that run into each other are
// in none of its rows.
func (s *Stepping) keyed() []Key {
	d := s.l.Draft
	out := []Key{}
	has := map[int]map[int]bool{} // colours of each opening
	for _, p := range s.Places {
		for slot, c := range p.colours {
			if has[slot+1] == nil {
				has[slot+1] = map[int]bool{}
			}
			has[slot+1][c] = true
		}
	}
	for colour, id := range d.PaintOf().Colours {
		at := map[int][]int{} // places of each opening
		for _, p := range s.Places {
			for slot, c := range p.colours {
				if c == colour {
					at[slot+1] = append(at[slot+1], p.Number)
				}
			}
		}
		swatch, _ := d.Swatch(id)
		for opening := 1; opening <= len(s.Openings); opening++ {
			places := at[opening]
			if len(places) == 0 {
				continue
			}
			if len(has[opening]) == 1 {
				places = []int{}
			}
			k := slices.IndexFunc(out, func(k Key) bool { return k.Swatch == id && slices.Equal(k.Places, places) })
			if k < 0 {
				k = len(out)
				out = append(out, Key{Swatch: swatch.ID, Name: swatch.Name, Places: places})
			}
			out[k].Openings = append(out[k].Openings, opening)
		}
	}
	return out
}

// keyHead says how the key is used.
func (s *Stepping) keyHead() string {
	if len(s.Plates) > 0 {
		return "Each colour has a plate of its own, with these openings; lay all places of one, let it dry, and go " +
			"on with the next:"
	}
	return "One sheet serves for all colours: tape the other openings over, fill those of one colour, and let it dry " +
		"before the next:"
}

// keyWords are the key in words.
func (s *Stepping) keyWords() (out []string) {
	some := func(numbers []int, one, many string) string {
		if len(numbers) == 1 {
			return one + " " + runs(numbers)
		}
		return many + " " + runs(numbers)
	}
	for _, k := range s.Key {
		at := ", at " + some(k.Places, "place", "places")
		if len(k.Places) == 0 {
			at = ", wherever it is laid"
		}
		out = append(out, fmt.Sprintf("%s: %s%s.", k.Name, some(k.Openings, "opening", "openings"), at))
	}
	return out
}
