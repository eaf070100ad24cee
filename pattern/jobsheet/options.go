// Package jobsheet writes the sheet of paper that goes to the shop with a cut file, and comes back with the stencil:
// what it is, whether it holds, what cutting takes in length, time and cost, what to beware of, and how the stencil is
// laid on the panel.
package jobsheet

import (
	"fmt"
	"strings"

	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/letters"
	"openwork/pattern/machine"
	"openwork/pattern/measure"
	"openwork/pattern/paint"
	"openwork/pattern/progress"
)

// Options of a job sheet. The machine's figures are the shop's; the defaults are common practice.
type Options struct {
	// Paper is A4, A3, Letter or Tabloid; empty: A4, or Letter where figures are in inches.
	Paper string `json:"paper"`
	Units string `json:"units"` // of figures: in for inches, mm ("" too)
	Head  Head   `json:"head"`
	// Lettering is what of the title is drawn, because no font here has it.
	Lettering []letters.Drawn `json:"lettering"`
	// CutSpeed in mm/s; 0: by Speeds, whose rows go before those of machine.Usual.
	CutSpeed    float64         `json:"cutSpeed"`
	Speeds      []machine.Speed `json:"speeds"`
	MarkSpeed   float64         `json:"markSpeed"`   // mm/s, of marking and scoring
	TravelSpeed float64         `json:"travelSpeed"` // mm/s, between cuts
	// Acceleration of the head in mm/s², along its way and across it, and how far it rounds a corner off, in mm.
	Acceleration float64 `json:"acceleration"`
	Cornering    float64 `json:"cornering"`
	Pierce       float64 `json:"pierce"`  // s for each piercing
	Setup        float64 `json:"setup"`   // minutes: to load, to focus, to try, to clear
	Rate         float64 `json:"rate"`    // of the machine, for an hour; 0: not known, and no cost is said
	Price        float64 `json:"price"`   // of the stock for this sheet
	Minimum      float64 `json:"minimum"` // charge, whatever the time
	Currency     string  `json:"currency"`
	Density      float64 `json:"density"` // of the stock, kg/m³; 0: by the stock's name
	Date         string  `json:"date"`
	CutFile      string  `json:"cutFile"` // the name of the cut file it goes with
	File         string  `json:"file"`    // the draft's file, named where its link does not fit in a code
	Address      string  `json:"address"` // of the page that opens links; "": the code holds the link from # on

	// Chosen says what is cut and how it is laid where that is not the whole sheet, once: stepped, joined, several.
	Chosen []string `json:"chosen"`

	Panels int      `json:"panels"` // that paste is reckoned for; 0: one
	Order  paint.By `json:"order"`  // of laying plates: "" from dark to light, light: from light to dark, or listed

	Cut cutplan.Options `json:"cut"` // of the cut file that it goes with

	Progress progress.Func `json:"-"` // receives how far the work has come
}

// Defaults returns the usual job sheet: with a line to sign, cutting at the usual speed of the stock, marking at 100
// mm/s, travelling at 300 mm/s, 2,000 mm/s² (a fifth of the earth's), corners within 0.05 mm, 0.2 s for a piercing,
// ten minutes to set up (common practice, from memory; the shop knows its own), and the usual cut file.
func Defaults() Options {
	return Options{Head: Head{Approval: true}, MarkSpeed: 100, TravelSpeed: 300, Acceleration: 2000, Cornering: 0.05,
		Pierce: 0.2,
		Setup:  10, Cut: cutplan.Defaults()}
}

// speed returns at what speed a sheet is cut, and where that is from.
func (o Options) speed(s draft.Sheet) (speed float64, from string) {
	if o.CutSpeed > 0 {
		return o.CutSpeed, "the shop's"
	}
	if v, _, ok := machine.SpeedOf(o.Speeds, s.How(), s.Stock, s.Thickness); ok {
		return v, "the shop's, for this stock"
	}
	v, row, _ := machine.SpeedOf(machine.Usual(), s.How(), s.Stock, s.Thickness)
	if row.Stock == "" {
		return v, "common practice for other stock"
	}
	return v, "common practice for this stock"
}

// machine returns the machine that cuts a sheet.
func (o Options) machine(s draft.Sheet) machine.Machine {
	cut, _ := o.speed(s)
	return machine.Machine{Motion: machine.Motion{Acceleration: o.Acceleration, Corner: o.Cornering}, Cut: cut,
		Mark: o.MarkSpeed, Travel: o.TravelSpeed, Pierce: o.Pierce}
}

// maxText is how many letters the options' texts have at most: an address is the longest.
const maxText = 500

func (o Options) check() error {
	for _, f := range []struct {
		what     string
		value    float64
		min, max float64
		unit     string
	}{{"the cutting speed", o.CutSpeed, 0, 1e5, " mm/s"}, {"the travel speed", o.TravelSpeed, 0.01, 1e5, " mm/s"},
		{"the marking speed", o.MarkSpeed, 0.01, 1e5, " mm/s"}, {"the acceleration", o.Acceleration, 1, 1e7, " mm/s²"},
		{"the cornering", o.Cornering, 0.0001, 10, " mm"}, {"the setting up", o.Setup, 0, 1e5, " min"},
		{"the minimum charge", o.Minimum, 0, 1e9, ""},
		{"the time of a piercing", o.Pierce, 0, 3600, " s"}, {"the machine's rate", o.Rate, 0, 1e9, " an hour"},
		{"the price of the stock", o.Price, 0, 1e9, ""}, {"the stock's density", o.Density, 0, 25000, " kg/m³"}} {
		if !(f.value >= f.min && f.value <= f.max) {
			return fmt.Errorf("%s is %g%s; it must lie between %g and %g", f.what, f.value, f.unit, f.min, f.max)
		}
	}
	if err := machine.Check(o.Speeds); err != nil {
		return err
	}
	for _, f := range []struct{ what, text string }{{"the currency", o.Currency}, {"the date", o.Date},
		{"the file's name", o.File}, {"the cut file's name", o.CutFile}, {"the address", o.Address}} {
		if err := checkText(f.what, f.text); err != nil {
			return err
		}
	}
	if err := measure.Check(o.Units); err != nil {
		return err
	}
	if _, ok := orders[o.Order]; !ok {
		return fmt.Errorf("plates are laid from dark to light (no order), light or listed, not %.20q", o.Order)
	}
	if o.Panels < 0 || o.Panels > paint.MaxPanels {
		return fmt.Errorf("paste is reckoned for 1 to %d panels, not for %d", paint.MaxPanels, o.Panels)
	}
	if err := letters.CheckDrawn(o.Lettering); err != nil {
		return err
	}
	return o.Head.check()
}

func checkText(what, text string) error {
	if n := len([]rune(text)); n > maxText {
		return fmt.Errorf("%s has %d letters; it may have %d", what, n, maxText)
	}
	return nil
}

// unit is what figures are written in.
func (o Options) unit() measure.Unit { return measure.Of(o.Units) }

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
