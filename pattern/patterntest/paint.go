package patterntest

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"openwork/pattern"
	"openwork/pattern/colouring"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// Perms returns how the group moves the places that a point of the cell has modulo n cells each way: one colour for
// each place, so that every operation permutes the colours. The point's numbers must not be of more than a few digits.
func Perms(g symmetry.Group, n int, point [2]symmetry.Fraction) colouring.Perms {
	home := func(p [2]symmetry.Fraction) [2]symmetry.Fraction { // modulo n
		for i := range p {
			p[i] = symmetry.Frac(p[i].Num, p[i].Den*n).Mod1().Times(n)
		}
		return p
	}
	right := symmetry.Op{W: [2][2]int{{1, 0}, {0, 1}},
		T: [2]symmetry.Fraction{symmetry.Frac(1, 1), symmetry.Frac(0, 1)}}
	up := symmetry.Op{W: right.W, T: [2]symmetry.Fraction{right.T[1], right.T[0]}}
	ops := append([]symmetry.Op{right, up}, g.Ops...)
	places := [][2]symmetry.Fraction{home(point)}
	for i := 0; i < len(places); i++ {
		for _, op := range ops {
			if to := home(op.Of(places[i])); !slices.Contains(places, to) {
				places = append(places, to)
			}
		}
	}

	var perms [][]int
	for _, op := range ops {
		var perm []int
		for _, p := range places {
			perm = append(perm, slices.Index(places, home(op.Of(p))))
		}
		perms = append(perms, perm)
	}
	return colouring.Perms{A: perms[0], B: perms[1], Ops: perms[2:]}
}

// Coloured returns the draft with random swatches and a random paint: some by motif, some by a perfect colouring, some
// with copies coloured by hand besides.
func Coloured(r *rand.Rand, d draft.Draft) draft.Draft {
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		panic(err) // a slip in a test
	}
	p := draft.NewPaint()
	colours := 1 + r.IntN(4)
	if r.IntN(2) == 0 {
		places := [][2]symmetry.Fraction{{symmetry.Frac(0, 1), symmetry.Frac(0, 1)},
			{symmetry.Frac(1, 2), symmetry.Frac(0, 1)}, {symmetry.Frac(1, 3), symmetry.Frac(2, 3)},
			{symmetry.Frac(1, 7), symmetry.Frac(2, 5)}}
		perms := Perms(g, 1+r.IntN(3), places[r.IntN(len(places))])
		if k := len(perms.A); k <= colouring.MaxColours {
			p.Perms, colours = &perms, k+r.IntN(2)
		}
	}
	d.Swatches = nil
	for i := range colours + 1 {
		d.Swatches = append(d.Swatches, draft.Swatch{ID: fmt.Sprintf("c%d", i+1), Name: fmt.Sprintf("Colour %d", i+1),
			Colour: fmt.Sprintf("#%06x", r.IntN(1<<24)), Note: []string{"", "umber, a little white"}[r.IntN(2)]})
	}
	for _, i := range r.Perm(colours + 1)[:colours] {
		p.Colours = append(p.Colours, d.Swatches[i].ID)
	}
	if r.IntN(3) > 0 {
		p.Ground = d.Swatches[r.IntN(len(d.Swatches))].ID
	}
	p.Of = map[string]int{}
	for _, m := range d.Motifs {
		p.Of[m.ID] = r.IntN(colours)
	}
	if r.IntN(2) == 0 {
		p.ByHand = byHand(r, d, g, colours)
	}
	if r.IntN(2) == 0 {
		p.Waste, p.Tub = float64(r.IntN(100))/100, 75
	}
	d.Paint = p.Kept()
	return d
}

func byHand(r *rand.Rand, d draft.Draft, g symmetry.Group, colours int) *draft.ByHand {
	h := &draft.ByHand{Cells: [2]int{1 + r.IntN(3), 1 + r.IntN(3)}}
	for _, m := range d.Motifs {
		for op := range g.Ops {
			if r.IntN(3) > 0 {
				continue
			}
			h.Copies = append(h.Copies, draft.HandColour{Motif: m.ID, Op: op,
				Cell: [2]int{r.IntN(h.Cells[0]), r.IntN(h.Cells[1])}, Colour: r.IntN(colours)})
		}
	}
	return h
}

// paint fills in a command that paints, and returns the numbers that it may carry.
func (s *Stream) paint(c *pattern.Command, d draft.Draft) []string {
	swatches, motifs := append(d.IDs(draft.Swatches), "", "c1"), append(d.IDs(draft.Motifs), "m1")
	c.ID, c.Text = s.Text(swatches...), s.Text(swatches...)
	switch c.Name {
	case "swatch", "reswatch":
		c.Swatches = []draft.Swatch{{Name: s.Text("Rust", ""), Colour: s.Text("#8a3b1c", "#FFFFFF", "teal"),
			Note: s.Text("", "umber")}}
	case "colour", "copy":
		c.ID = s.Text(motifs...)
	case "colouring":
		if g, err := symmetry.Find(d.Repeat.Group); err == nil && s.Flag() {
			point := [2]symmetry.Fraction{symmetry.Frac(s.Pick(3), 3), symmetry.Frac(s.Pick(2), 2)}
			perms := Perms(g, 1+s.Pick(2), point)
			c.Perms = &perms
		}
	}
	return []string{"op", "m", "n", "index"}
}
