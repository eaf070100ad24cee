package cutplan

import (
	"strings"
	"testing"

	"openwork/pattern/cutplan/plantest"
	"openwork/pattern/draft"
)

// Without a choice thin film and card under a laser are cut with the heat spread, and nothing else is; what the person
// chooses holds for any stock.
func TestHeatIsSpreadOverThinStock(t *testing.T) {
	for _, c := range []struct {
		name      string
		stock     string
		thickness float64
		how       draft.How
		o         Options
		spread    bool
	}{
		{"film", "polyester film", 0.35, "", Options{}, true},
		{"film, the laser named", "polyester film", 0.19, draft.Laser, Options{}, true},
		{"card", "Karton", 0.3, "", Options{}, true},
		{"film that is not thin", "polyester film", ThinStock, "", Options{}, false},
		{"thin wood", "birch veneer", 0.3, "", Options{}, false},
		{"a knife", "polyester film", 0.35, draft.Knife, Options{}, false},
		{"a waterjet", "polyester film", 0.35, draft.Waterjet, Options{}, false},
		{"the shortest way is asked for", "polyester film", 0.35, "", Options{Order: Shortest, Apart: 10}, false},
		{"spreading is asked for", "birch plywood", 3, "", Options{Order: Spread}, true},
		{"a distance is asked for", "birch plywood", 3, "", Options{Apart: 12}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := plantest.Rings()
			d.Sheet.Stock, d.Sheet.Thickness, d.Sheet.Cut = c.stock, c.thickness, c.how
			if c.how == draft.Knife {
				c.o.Overcut, c.o.Weed = -1, -1
			}
			if c.how == draft.Waterjet {
				c.o.Tabs.Number = -1
			}
			p, _ := built(t, d, c.o)
			near, n := 0, 0
			for i := 1; i < len(p.Contours)-1; i++ {
				a, b := p.Contours[i-1], p.Contours[i]
				n++
				if gapOf(a.Path.Under(a.Map).Bound(), b.Path.Under(b.Map).Bound()) < usualApart {
					near++
				}
			}
			if got := near <= n/10; got != c.spread {
				t.Errorf("%d of %d cuts lie beside the one before", near, n)
			}
			if strings.HasPrefix(p.Made.Order, "heat spread") != c.spread || !c.spread && p.Made.Near > 0 {
				t.Errorf("order %q, %d near", p.Made.Order, p.Made.Near)
			}
		})
	}
}
