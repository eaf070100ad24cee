package cutplan

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/letters"
	"openwork/pattern/measure"
	"openwork/pattern/progress"
)

// Options of a cut file. The zero value is the contours alone, as curves.
type Options struct {
	Polygons  bool    `json:"polygons"`  // straight edges only
	Tolerance float64 `json:"tolerance"` // mm that curves may lie from the outlines, from 0.001; 0: 0.02
	Colours   Colours `json:"colours"`   // go before those of Lines
	Lines     Lines   `json:"lines"`
	Order     Order   `json:"order"` // of cutting: short or spread; empty: by the stock
	// mm that two contours cut one after the other lie apart, so that none is hot; 0: as Order has it
	Apart   float64 `json:"apart"`
	Holes   Holes   `json:"holes"`
	Fixings Fixings `json:"fixings"`
	Label   Label   `json:"label"`
	Bar     bool    `json:"bar"`   // a check bar of 100 mm
	Units   string  `json:"units"` // of figures that are written: in for inches, mm ("" too)
	Link    string  `json:"link"`  // that opens the draft; the file carries it
	// Lettering is what of the title is marked as outlines, because it has no strokes.
	Lettering []letters.Drawn `json:"lettering"`
	// mm that a contour is cut on past where it began; 0: 0.3 for a knife, and none otherwise; less than 0: none
	Overcut float64 `json:"overcut"`
	// mm from line to line that part the waste; 0: 100 for a knife, and none otherwise; less than 0: none
	Weed float64 `json:"weed"`
	Tabs Tabs    `json:"tabs"`
	// mm that the beam runs in from inside the waste of an opening before it meets the contour; 0: it begins on it
	LeadIn float64 `json:"leadIn"`
	// Mirrored: the sheet is cut from its back.
	Mirrored bool `json:"mirrored"`
	// StockEdge: the sheet's outline is the stock's own edge, so that it is not widened by the kerf.
	StockEdge bool `json:"stockEdge"`
	// of a whole sheet: mark or none where the stock's edge is the sheet's; empty: cut
	Trim    Trim     `json:"trim"`
	Unsound []string `json:"unsound"` // why the sheet does not hold; the file carries it
	// Unchecked: nobody has looked whether the sheet holds; the file carries that.
	Unchecked bool `json:"unchecked"`

	Progress progress.Func `json:"-"` // receives how far the work has come
}

// Holes are the registration holes or marks.
type Holes struct {
	Diameter float64     `json:"diameter"` // mm; 0: none
	Layer    Layer       `json:"layer"`    // cut, or mark ("" too) for marks with a cross
	At       []orb.Point `json:"at"`       // middles in panel mm; nil: found in the margin
}

// Label is what is written in the margin.
type Label struct {
	Height float64 `json:"height"` // mm of its capitals at most; 0: no label
	Date   string  `json:"date"`
	Layer  Layer   `json:"layer"` // mark ("" too), score or cut
}

// Defaults returns the usual furniture: registration marks of 4 mm, a label of 3 mm and a check bar, all on the layer
// mark.
func Defaults() Options {
	return Options{Holes: Holes{Diameter: 4, Layer: Mark}, Label: Label{Height: 3, Layer: Mark}, Bar: true}
}

// filled returns the options with the usual values where nothing is said, or what keeps a sheet of that stock from
// being cut with them.
func (o Options) filled(stock string, how draft.How) (Options, error) {
	if err := pattern.RefuseStock(stock, how); err != nil {
		return o, err
	}
	var err error
	if o.Lines, err = o.ShopLines(); err != nil {
		return o, err
	}
	if err := o.check(); err != nil {
		return o, err
	}
	if _, err := o.Fixings.filled(); err != nil {
		return o, err
	}
	if o.Tolerance == 0 {
		o.Tolerance = curve.DefaultTolerance
	}
	return o, nil
}

// check says what is wrong with the numbers of the options.
func (o Options) check() error {
	for _, f := range []struct {
		what       string
		value, max float64
	}{{"the curves' tolerance", o.Tolerance, 1}, {"the distance of cuts in a row", o.Apart, 1e4},
		{"the registration holes' diameter", o.Holes.Diameter, 100}, {"the label's height", o.Label.Height, 100},
		{"the lead-in", o.LeadIn, maxLead}} {
		if !(f.value >= 0 && f.value <= f.max) {
			return fmt.Errorf("%s is %g mm; it must lie between 0 and %g", f.what, f.value, f.max)
		}
	}

	for _, f := range []struct {
		what       string
		value, max float64
	}{{"the overcut", o.Overcut, 100}, {"the distance of lines that part the waste", o.Weed, 1e4},
		{"the tabs' width", o.Tabs.Width, 100}} {
		if !(f.value >= -f.max && f.value <= f.max) {
			return fmt.Errorf("%s is %g mm; it must lie between 0 and %g, or be less for none", f.what, f.value, f.max)
		}
	}
	if o.Tabs.Number > maxTabs {
		return fmt.Errorf("%d tabs are asked for; a contour has %d at most", o.Tabs.Number, maxTabs)
	}
	if o.Weed > 0 && o.Weed < minWeed {
		return fmt.Errorf("lines that part the waste are %g mm apart; the least is %g", o.Weed, minWeed)
	}
	if o.Tolerance > 0 && o.Tolerance < minTolerance {
		return fmt.Errorf("the curves' tolerance is %g mm; no machine cuts finer than %g mm, which is the least that "+
			"may be asked for (0 takes the usual %g mm)",
			o.Tolerance, minTolerance, curve.DefaultTolerance)
	}
	if err := letters.CheckDrawn(o.Lettering); err != nil {
		return err
	}
	if err := measure.Check(o.Units); err != nil {
		return err
	}
	if err := checkOrder(o.Order); err != nil {
		return err
	}
	if err := checkTrim(o.Trim); err != nil {
		return err
	}
	for _, l := range []Layer{o.Holes.Layer, o.Label.Layer} {
		if l != "" && l != Cut && l != Score && l != Mark {
			return fmt.Errorf("there is no layer %.20q; there are cut, score and mark", string(l))
		}
	}
	if o.Holes.Layer == Score {
		return fmt.Errorf("registration holes are cut or marked, not scored")
	}
	return nil
}
