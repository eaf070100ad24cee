package pattern

import (
	"errors"
	"fmt"
	"math"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// A lay of the trade: how columns or rows of the repeat stand beside each other.
const (
	Straight = "straight"  // each beside the next
	HalfDrop = "half-drop" // each column half a repeat lower than the last
	Brick    = "brick"     // each row half a repeat over from the last
)

// LayOf is a cell as the trade speaks of it: repeats Width mm wide stand Height mm apart, laid as Name says. There is
// one repeat for every lattice point, so a centred cell holds two.
type Lay struct {
	Name          string
	Width, Height float64
}

// laySlack in mm: how far from half a side a shift may be, after rounding of sides and angle to 1e-4, and still be
// half.
const laySlack = 2e-3

// LaysOf returns the ways in which the trade speaks of the repeat's lattice; none for an oblique one. A half-drop of
// wide repeats is also a brick lay of repeats half as wide and twice as high, so there can be two.
func LaysOf(r draft.Repeat) []Lay {
	g, err := symmetry.Find(r.Group)
	if err != nil {
		return nil
	}
	c := r.Cell()
	up := c.Area() / c.A
	shift := c.Basis().B // of b along a
	switch {
	case g.Centred:
		return []Lay{{HalfDrop, c.A / 2, c.B}, {Brick, c.A, c.B / 2}}
	case math.Abs(shift) < laySlack:
		return []Lay{{Straight, c.A, c.B}}
	case g.System == symmetry.Hexagonal:
		return []Lay{{Brick, c.A, up}}
	case math.Abs(math.Abs(shift)-c.A/2) < laySlack:
		return []Lay{{HalfDrop, c.A / 2, 2 * up}, {Brick, c.A, up}}
	}
	return nil
}

// LayChoices returns the lays that can be chosen in the repeat's group.
func LayChoices(r draft.Repeat) []string {
	g, err := symmetry.Find(r.Group)
	switch {
	case err != nil:
		return nil
	case g.System == symmetry.Oblique:
		return []string{Straight, HalfDrop, Brick}
	case g.Centred:
		return []string{HalfDrop, Brick}
	}
	return nil
}

// LayOf returns the repeat's lattice as the lay called name speaks of it, or, when it is laid otherwise, the first
// reading that holds; false when none does.
func LayOf(r draft.Repeat, name string) (Lay, bool) {
	lays := LaysOf(r)
	for _, l := range lays {
		if l.Name == name {
			return l, true
		}
	}
	if len(lays) == 0 {
		return Lay{}, false
	}
	return lays[0], true
}

// cell returns the cell, in a group of the given system, that lays repeats so.
func (l Lay) cell(g symmetry.Group) (symmetry.Cell, error) {
	w, h := l.Width, l.Height
	oblique := g.System == symmetry.Oblique
	sheared := func(a, shift, up float64) symmetry.Cell {
		return symmetry.Cell{A: geometry.Snap(a), B: geometry.Snap(math.Hypot(shift, up)),
			Gamma: geometry.Snap(math.Atan2(up, shift) * 180 / math.Pi)}
	}
	switch {
	case l.Name == Straight && !g.Centred && g.System != symmetry.Hexagonal:
		return symmetry.Cell{A: geometry.Snap(w), B: geometry.Snap(h), Gamma: 90}, nil
	case l.Name == HalfDrop && g.Centred:
		return symmetry.Cell{A: geometry.Snap(2 * w), B: geometry.Snap(h), Gamma: 90}, nil
	case l.Name == Brick && g.Centred:
		return symmetry.Cell{A: geometry.Snap(w), B: geometry.Snap(2 * h), Gamma: 90}, nil
	case l.Name == HalfDrop && oblique:
		return sheared(2*w, w, h/2), nil
	case l.Name == Brick && oblique:
		return sheared(w, w/2, h), nil
	case l.Name == Brick && g.System == symmetry.Hexagonal:
		return symmetry.Cell{A: geometry.Snap(w), B: geometry.Snap(w), Gamma: 120}, nil
	}
	return symmetry.Cell{}, fmt.Errorf("%s cannot be laid %.40q: its cell has another shape", g.Symbol, l.Name)
}

// applyLay lays the repeat as Text says, with the width and the height given, or else those it has now; "drop" is half
// the height and "step" half the width. Motifs keep their places in fractions of the cell.
func applyLay(d *draft.Draft, c Command) error {
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		return err
	}
	was := d.Repeat.Cell()
	now, ok := LayOf(d.Repeat, c.Text)
	if !ok {
		now = Lay{Width: was.A, Height: was.Area() / was.A}
	}
	now.Name = c.Text
	c.set("width", &now.Width)
	c.set("height", &now.Height)
	if c.set("drop", &now.Height) { // of a column beside the last
		now.Height *= 2
	}
	if c.set("step", &now.Width) { // of a row over the last
		now.Width *= 2
	}
	if !(now.Width > 0 && now.Height > 0) {
		return errors.New("repeat: a repeat needs a width and a height above nothing")
	}
	cell, err := now.cell(g)
	if err != nil {
		return err
	}
	if err := g.CheckCell(cell); err != nil {
		return fmt.Errorf("repeat.%w", err)
	}
	reshape(d, was, cell)
	return nil
}

// Fit says how many repeats fill the field, across and down the panel.
type Fit struct{ Across, Down float64 }

// RepeatsOf returns how many repeats the field holds across and down, with the lay that counts them; false when the
// field is turned, and its sides do not run along the cell's.
func RepeatsOf(d draft.Draft, lay string) (Fit, Lay, bool) {
	quarter, ok := quarterTurns(d.Field.Turn)
	if !ok {
		return Fit{}, Lay{}, false
	}
	l, ok := LayOf(d.Repeat, lay)
	if !ok {
		l = Lay{Width: d.Repeat.A, Height: d.Repeat.Cell().Area() / d.Repeat.A}
	}
	w, h := fieldSides(d, quarter)
	if quarter%2 == 1 {
		return Fit{h / l.Height, w / l.Width}, l, true
	}
	return Fit{w / l.Width, h / l.Height}, l, true
}

// fieldSides returns the field's sides along the cell's a and square to it.
func fieldSides(d draft.Draft, quarter int) (along, up float64) {
	b := d.FieldBound()
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	if quarter%2 == 1 {
		return h, w
	}
	return w, h
}

func quarterTurns(turn float64) (int, bool) {
	q := math.Round(turn / 90)
	return int(q) & 3, math.Abs(turn-90*q) < 1e-9
}

// applyRepeats sets the cell so that a whole number of repeats fills the field: "across" and "down", either or both,
// counted as the lay in Text counts them. A square or hexagonal cell fits one way: where both are given, the way that
// changes the cell less. The corner of a cell comes to lie on the field's corner.
func applyRepeats(d *draft.Draft, c Command) error {
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		return err
	}
	_, l, ok := RepeatsOf(*d, c.Text)
	if !ok {
		return fmt.Errorf("field.turn: the field is turned by %g°, and whole repeats fit its sides only when these "+
			"run along the cell's; set the turn to 0 first", d.Field.Turn)
	}
	across, down := c.Values["across"], c.Values["down"]
	for _, n := range []float64{across, down} {
		if n != 0 && (n < 1 || n > 1000 || n != math.Floor(n)) {
			return fmt.Errorf("repeat: whole repeats are counted from 1 to 1000, not %g", n)
		}
	}
	quarter, _ := quarterTurns(d.Field.Turn)
	w, h := fieldSides(*d, quarter)
	if quarter%2 == 1 {
		across, down = down, across // from here on along the cell's a and square to it
	}
	was := d.Repeat.Cell()
	var cell symmetry.Cell
	switch {
	case across == 0 && down == 0:
		return errors.New("repeat: say how many repeats go across, or down, or both")
	case g.EqualSides():
		cell = evenCell(was, l, w, h, across, down)
	default:
		cell, err = freeCell(d.Repeat, g, l, w, h, across, down)
	}

	if err != nil {
		return err
	}
	if err := g.CheckCell(cell); err != nil {
		return fmt.Errorf("repeat.%w", err)
	}
	reshape(d, was, cell)
	return cornerToCorner(d)
}

// evenCell returns the cell with equal sides that fits across or down.
func evenCell(was symmetry.Cell, l Lay, w, h, across, down float64) symmetry.Cell {
	best := math.Inf(1)
	side := was.A
	for _, want := range [][2]float64{{w, across * l.Width}, {h, down * l.Height}} {
		if want[1] == 0 {
			continue
		}
		if s := was.A * want[0] / want[1]; math.Abs(math.Log(s/was.A)) < best {
			best, side = math.Abs(math.Log(s/was.A)), s
		}
	}
	return symmetry.Cell{A: geometry.Snap(side), B: geometry.Snap(side), Gamma: was.Gamma}
}

// freeCell returns the cell whose width and height are free, fitted across and down.
func freeCell(r draft.Repeat, g symmetry.Group, l Lay, w, h, across, down float64) (symmetry.Cell, error) {
	if across != 0 {
		l.Width = w / across
	}
	if down != 0 {
		l.Height = h / down
	}
	if l.Name != "" {
		return l.cell(g)
	}
	return symmetry.Cell{A: geometry.Snap(l.Width), B: geometry.Snap(l.Height / math.Sin(r.Gamma/180*math.Pi)),
		Gamma: r.Gamma}, nil
}

// cornerToCorner moves the field by less than a cell, so that a cell's corner lies on the field's lower left corner.
func cornerToCorner(d *draft.Draft) error {
	l, err := NewLayout(draft.Draft{Repeat: d.Repeat}, nil)
	if err != nil {
		return err
	}
	corner := d.FieldBound().Min
	p := d.FieldMap().Rigid().Apply(corner)
	there := d.FieldMap().Apply(l.NearestLattice(p))
	for i := range d.Field.Origin {
		d.Field.Origin[i] = geometry.Snap(d.Field.Origin[i] + corner[i] - there[i])
	}
	return nil
}
