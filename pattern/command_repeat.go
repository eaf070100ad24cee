package pattern

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/symmetry"
)

// applyGroup sets the plane group named by Text. The cell becomes the nearest the group allows, of the same area;
// motifs keep their places in fractions of the cell.
func applyGroup(d *Draft, c Command) error {
	g, err := symmetry.Find(c.Text)
	if err != nil {
		return err
	}
	was := d.Repeat.Cell()
	d.Repeat.Group = g.Symbol
	if g.CheckCell(was) == nil {
		return nil
	}
	d.reshape(was, g.FitCell(was))
	return nil
}

// applyCell sets a, b and gamma. In a square or hexagonal group one side given sets both. Motifs keep their places in
// fractions of the cell, so that what stands on a mirror or a rotation point goes on standing there.
func applyCell(d *Draft, c Command) error {
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		return err
	}
	was := d.Repeat.Cell()
	cell := was
	hasA, hasB := c.set("a", &cell.A), c.set("b", &cell.B)
	c.set("gamma", &cell.Gamma)
	if g.System == symmetry.Square || g.System == symmetry.Hexagonal {
		switch {
		case hasA && hasB && cell.A != cell.B:
			return fmt.Errorf("repeat.b: %s has a %s cell, whose sides are equal; a is %g and b is %g",
				g.Symbol, g.System, cell.A, cell.B)
		case hasB:
			cell.A = cell.B
		case hasA:
			cell.B = cell.A
		}
	}
	if err := g.CheckCell(cell); err != nil {
		return fmt.Errorf("repeat.%w", err)
	}
	d.reshape(was, cell)
	return nil
}

// reshape gives the repeat a new cell and carries every motif's place along in cell fractions.
func (d *Draft) reshape(was, cell symmetry.Cell) {
	d.Repeat.A, d.Repeat.B, d.Repeat.Gamma = cell.A, cell.B, cell.Gamma
	inv, ok := was.Basis().Inverse()
	if !ok {
		return
	}
	carry := cell.Basis().After(inv)
	for i := range d.Motifs {
		p := carry.Apply(orb.Point(d.Motifs[i].At))
		d.Motifs[i].At = [2]float64{geometry.Snap(p[0]), geometry.Snap(p[1])}
	}
}
