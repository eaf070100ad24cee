package cutplan

import (
	"fmt"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// Order is the order in which openings are cut.
type Order string

// The orders.
const (
	// OrderByStock ("") is Spread for thin film and card that a laser cuts, and wherever Options.Apart is asked for;
	// otherwise Shortest.
	OrderByStock Order = ""
	// Shortest goes the shortest way that is found, whatever Options.Apart.
	Shortest Order = "short"
	// Spread goes from each contour to one that lies Options.Apart away, or usualApart where none is asked for, and
	// cuts what lies deepest first all over the sheet.
	Spread Order = "spread"
)

// Common practice, from memory: film and card thinner than a beam's own heat can leave through warp and curl beside a
// cut that is still hot, so that a laser does not cut two neighbours in a row. A knife and a waterjet do not heat.
const (
	ThinStock  = 0.5  // mm; film and card below it are thin
	usualApart = 10.0 // mm from box to box of two contours in a row
)

// spread returns how far contours in a row are to lie apart, in mm, and why; 0 for the shortest way.
func (o Options) spread(s Sheet) (apart float64, why string) {
	thin := (s.How == draft.Laser || s.How == "") && s.Thickness > 0 && s.Thickness < ThinStock &&
		pattern.FilmOrCard(s.Stock)
	switch {
	case o.Order == Shortest:
		return 0, "as asked for"
	case o.Apart > 0:
		return o.Apart, "as asked for"
	case o.Order == Spread:
		return usualApart, "as asked for"
	case thin:
		return usualApart, fmt.Sprintf("film and card under %g mm warp beside hot cuts (common practice)", ThinStock)
	}
	return 0, "by the stock"
}

// ordered says in words in which order the openings are cut, and why.
func (b *build) ordered() string {
	if b.apart > 0 {
		return b.o.unit().Said(fmt.Sprintf("heat spread, %g mm from cut to cut; %s", b.apart, b.why))
	}
	return "the shortest way, " + b.why
}

// checkOrder says when there is no such order.
func checkOrder(o Order) error {
	switch o {
	case OrderByStock, Shortest, Spread:
		return nil
	}
	return fmt.Errorf("there is no order %.20q of cutting; there are short and spread, and none for what the stock "+
		"asks",
		string(o))
}
