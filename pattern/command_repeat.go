package pattern

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/symmetry"
)

// trail is the way a draft came through plane groups by the command group alone: what each left behind, and what the
// last one made. It lets a group chosen again find its cell and places as they were. It is never part of a file.
type trail struct {
	stops []stop
	now   stop
}

// stopOf is a group with its cell, the places of the motifs by id, those of the field's ties, and the paint.
type stop struct {
	repeat draft.Repeat
	places map[string][2]float64
	ties   []tieStop
	paint  *draft.Paint
	left   *draft.Paint // what of it went on to the next group
}

func stopOf(d *draft.Draft) stop {
	s := stop{d.Repeat, map[string][2]float64{}, tieStops(d), d.Paint, d.Paint}
	for _, m := range d.Motifs {
		s.places[m.ID] = m.At
	}
	return s
}

// applyGroup sets the plane group named by Text. The cell becomes the nearest the group allows, of the same area;
// motifs keep their places in fractions of the cell. A group that is left and chosen again, with nothing else done to
// the cell in between, has its cell again, and the motifs that were not moved their places. The group that a fitted
// draft has gives this group with the cell as it was before the fit.
func applyGroup(d *draft.Draft, c Command) error {
	g, err := symmetry.Find(c.Text)
	if err != nil {
		return err
	}
	if g.Symbol == d.Repeat.Group && Fitted(*d) {
		unfit(d)
	}
	if g.Symbol == d.Repeat.Group {
		return nil
	}
	here := stopOf(d)
	way := trail{}
	if before, ok := d.Trail.(*trail); ok && before.now.repeat == d.Repeat {
		way.stops = before.since(here)
	}
	was := d.Repeat.Cell()
	d.Repeat.Group = g.Symbol
	leaveGroup(d)
	here.left = d.Paint
	back := slices.IndexFunc(way.stops, func(s stop) bool { return s.repeat.Group == g.Symbol })
	switch {
	case back >= 0:
		restore(d, way.stops[back], was)
		way.stops = append(way.stops[:back:back], way.stops[back+1:]...)
	case g.CheckCell(was) != nil:
		reshape(d, was, g.FitCell(was))
	}
	way.stops = append(way.stops, here)
	if n := len(symmetry.Groups()); len(way.stops) > n {
		way.stops = way.stops[len(way.stops)-n:]
	}
	way.now = stopOf(d)
	d.Trail = &way
	return nil
}

// since returns the stops without the places of motifs that were moved since the last one.
func (t *trail) since(here stop) []stop {
	var out []stop
	for _, s := range t.stops {
		kept := stop{s.repeat, map[string][2]float64{}, tiesSince(s.ties, t.now.ties, here.ties), s.paint, s.left}
		for id, at := range s.places {
			if left, ok := t.now.places[id]; ok && left == here.places[id] {
				kept.places[id] = at
			}
		}
		out = append(out, kept)
	}
	return out
}

// restore gives the repeat the cell it had at a stop. Motifs that were not moved since stand again as they stood then;
// others are carried along in cell fractions.
func restore(d *draft.Draft, to stop, was symmetry.Cell) {
	reshape(d, was, to.repeat.Cell())
	for i, m := range d.Motifs {
		if at, ok := to.places[m.ID]; ok {
			d.Motifs[i].At = at
		}
	}
	restoreTies(d, to.ties)
	repaint(d, to.paint, to.left)
}

// carried returns where a place in another cell lies in the draft's cell.
func carried(d *draft.Draft, at [2]float64, was symmetry.Cell) [2]float64 {
	inv, ok := was.Basis().Inverse()
	if !ok {
		return at
	}
	p := d.Repeat.Cell().Basis().After(inv).Apply(orb.Point(at))
	return [2]float64{geometry.Snap(p[0]), geometry.Snap(p[1])}
}

// reshape gives the repeat a new cell and carries every motif's place along in cell fractions, and the ends of the
// field's ties; these keep their widths.
func reshape(d *draft.Draft, was, cell symmetry.Cell) {
	d.Repeat.A, d.Repeat.B, d.Repeat.Gamma = cell.A, cell.B, cell.Gamma
	for i := range d.Motifs {
		d.Motifs[i].At = carried(d, d.Motifs[i].At, was)
	}
	d.Ties = slices.Clone(d.Ties)
	for i, t := range d.Ties {
		if t.Silhouette == "" {
			d.Ties[i].From, d.Ties[i].To = carried(d, t.From, was), carried(d, t.To, was)
		}
	}
}

// What a command cell keeps, in Text.
const (
	KeepArea       = "area"       // one side given, the other follows
	KeepProportion = "proportion" // one side given, the other stays in proportion
)

// applyCell sets a, b and gamma. In a square or hexagonal group one side given sets both; Text may say what else is
// kept. Motifs keep their places in fractions of the cell, so that what stands on a mirror or a rotation point goes on
// standing there.
func applyCell(d *draft.Draft, c Command) error {
	g, err := symmetry.Find(d.Repeat.Group)
	if err != nil {
		return err
	}
	was := d.Repeat.Cell()
	cell := was
	hasA, hasB := c.set("a", &cell.A), c.set("b", &cell.B)
	c.set("gamma", &cell.Gamma)
	even := g.EqualSides()
	switch c.Text {
	case "":
	case KeepArea:
		if even {
			return fmt.Errorf("repeat.a: the area is held, and a %s cell of the same area has the same sides; let "+
				"the area go first", g.System)
		}
		keepArea(&cell, was, hasA || !hasB)
	case KeepProportion:
		if !even {
			keepProportion(&cell, was, hasA || !hasB)
		}
	default:
		return fmt.Errorf("a cell keeps its %s or its %s, not its %.40q", KeepArea, KeepProportion, c.Text)
	}

	if even {
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
	reshape(d, was, cell)
	return nil
}

// keepArea lets one side follow, b when a leads.
func keepArea(cell *symmetry.Cell, was symmetry.Cell, aLeads bool) {
	if s := math.Sin(cell.Gamma / 180 * math.Pi); aLeads {
		cell.B = geometry.Snap(was.Area() / (cell.A * s))
	} else {
		cell.A = geometry.Snap(was.Area() / (cell.B * s))
	}
}

func keepProportion(cell *symmetry.Cell, was symmetry.Cell, aLeads bool) {
	if aLeads {
		cell.B = geometry.Snap(was.B * cell.A / was.A)
	} else {
		cell.A = geometry.Snap(was.A * cell.B / was.B)
	}
}
