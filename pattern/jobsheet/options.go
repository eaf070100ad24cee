// Package jobsheet writes the sheet of paper that goes to the shop with a cut file, and comes back with the stencil:
// what it is, whether it holds, what cutting takes in length, time and cost, what to beware of, and how the stencil is
// laid on the panel.
package jobsheet

import (
	"fmt"
	"strings"

	"openwork/pattern/cutplan"
	"openwork/pattern/progress"
)

// Options of a job sheet. The machine's figures are the shop's; the defaults are common practice for thin film on a
// small CO₂ laser.
type Options struct {
	Paper       string  `json:"paper"`       // A4, A3, Letter or Tabloid
	CutSpeed    float64 `json:"cutSpeed"`    // mm/s
	TravelSpeed float64 `json:"travelSpeed"` // mm/s, between cuts
	Pierce      float64 `json:"pierce"`      // s for each piercing
	Rate        float64 `json:"rate"`        // of the machine, for an hour; 0: not known, and no cost is said
	Price       float64 `json:"price"`       // of the stock for this sheet
	Currency    string  `json:"currency"`
	Density     float64 `json:"density"` // of the stock, kg/m³; 0: by the stock's name
	Date        string  `json:"date"`
	File        string  `json:"file"`    // the draft's file, named where its link does not fit in a code
	Address     string  `json:"address"` // of the page that opens links; "": the code holds the link from # on

	// Chosen says what is cut and how it is laid where that is not the whole sheet, once: stepped, joined, several.
	Chosen []string `json:"chosen"`

	Cut cutplan.Options `json:"cut"` // of the cut file that it goes with

	Progress progress.Func `json:"-"` // receives how far the work has come
}

// Defaults returns the usual job sheet: A4, cutting at 20 mm/s, travelling at 200 mm/s, 0.2 s for a piercing (common
// practice; the shop knows its own), and the usual cut file.
func Defaults() Options {
	return Options{Paper: "A4", CutSpeed: 20, TravelSpeed: 200, Pierce: 0.2, Cut: cutplan.Defaults()}
}

// maxText is how many letters the options' texts have at most: an address is the longest.
const maxText = 500

func (o Options) check() error {
	for _, f := range []struct {
		what     string
		value    float64
		min, max float64
		unit     string
	}{{"the cutting speed", o.CutSpeed, 0.01, 1e5, " mm/s"}, {"the travel speed", o.TravelSpeed, 0.01, 1e5, " mm/s"},
		{"the time of a piercing", o.Pierce, 0, 3600, " s"}, {"the machine's rate", o.Rate, 0, 1e9, " an hour"},
		{"the price of the stock", o.Price, 0, 1e9, ""}, {"the stock's density", o.Density, 0, 25000, " kg/m³"}} {
		if !(f.value >= f.min && f.value <= f.max) {
			return fmt.Errorf("%s is %g%s; it must lie between %g and %g", f.what, f.value, f.unit, f.min, f.max)
		}
	}
	for _, f := range []struct{ what, text string }{{"the currency", o.Currency}, {"the date", o.Date},
		{"the file's name", o.File}, {"the address", o.Address}} {
		if n := len([]rune(f.text)); n > maxText {
			return fmt.Errorf("%s has %d letters; it may have %d", f.what, n, maxText)
		}
	}
	return nil
}

// densities in kg/m³, by a word in the stock's name: polyester film (PET) 1,390, cast acrylic (PMMA) 1,190, steel
// 7,850, brass 8,500, aluminium 2,700, copper 8,960, as materials handbooks and makers' data sheets give them; card,
// board and paper 750, fibreboard 750, birch plywood 680, other wood 600, which vary with the make. Common practice,
// from memory: the person sets what the maker states.
var densities = []struct {
	word  string
	value float64
}{{"polyester", 1390}, {"acrylic", 1190}, {"steel", 7850}, {"brass", 8500}, {"alumin", 2700}, {"copper", 8960},
	{"mdf", 750}, {"fibreboard", 750},
	{"ply", 680}, {"card", 750}, {"board", 750}, {"paper", 750}, {"wood", 600}, {"film", 1390}}

// Density returns a stock's density in kg/m³ by its name; false when nothing in it says it.
func Density(stock string) (value float64, ok bool) {
	name := strings.ToLower(stock)
	for _, d := range densities {
		if strings.Contains(name, d.word) {
			return d.value, true
		}
	}
	return 0, false
}
