// Package pages prints what does not go on one page: the full-scale study, a panel at its true size over many ordinary
// pages that are put together by their marks, with a map of them first. It has the sizes of paper and the drawing of
// the pattern that other printed sheets use too.
package pages

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"openwork/pattern/letters"
	"openwork/pattern/measure"
	"openwork/pattern/progress"
)

// Style is how openings are drawn.
type Style string

// The styles.
const (
	Outlines Style = "outlines" // their edges alone
	Light    Style = "light"    // a light tone, and their edges
	Full     Style = "full"     // a full tone
)

// The ways a page may lie.
const (
	Fewer   = "fewer" // whichever needs fewer pages; upright when both need as many
	Upright = "upright"
	Lying   = "lying"
)

// Options of a study. Lengths in mm.
type Options struct {
	// Paper is A4, A3, Letter or Tabloid; empty: A4, or Letter where figures are in inches.
	Paper   string  `json:"paper"`
	Units   string  `json:"units"`   // of figures and rules: in for inches, mm ("" too)
	Way     string  `json:"way"`     // fewer, upright or lying; "": fewer
	Margin  float64 `json:"margin"`  // that the printer leaves on every side
	Overlap float64 `json:"overlap"` // of neighbouring pages
	// Correction in percent for a printer that is off: everything is drawn that much larger, or smaller where it is
	// negative. A printer that makes 97 mm of 100 needs 3.09.
	Correction float64 `json:"correction"`
	Draw       Style   `json:"draw"`
	Pattern    bool    `json:"pattern"` // the openings
	Cell       bool    `json:"cell"`    // the cells of the repeat
	Marks      bool    `json:"marks"`   // crop and joining marks
	// Key: openings have the number of their colour, so that one stencil serves for all colours.
	Key bool `json:"key"`
	// Registration is where the stencil's registration marks lie, in panel mm, to be drawn too; nil: they are not
	// known.
	Registration []orb.Point `json:"-"`
	// Lettering is what of the title is drawn, because no font here has it.
	Lettering []letters.Drawn `json:"lettering"`

	Progress progress.Func `json:"-"` // is told how far the work has come
}

// Defaults returns the usual study: the 5 mm that printers leave (common practice), 10 mm of overlap, outlines and
// marks.
func Defaults() Options {
	return Options{Way: Fewer, Margin: 5, Overlap: 10, Draw: Outlines, Pattern: true, Marks: true}
}

// Limits of the options.
const (
	maxMargin     = 40.0
	maxOverlap    = 60.0
	maxCorrection = 10.0 // percent; a printer that is further off scales its pages to fit, which is to be switched off
	maxPages      = 600  // besides the map: a wall of 6 × 6 m on A4
)

func (o Options) check() error {
	if err := letters.CheckDrawn(o.Lettering); err != nil {
		return err
	}
	if err := measure.Check(o.Units); err != nil {
		return err
	}
	for _, f := range []struct {
		what     string
		value    float64
		min, max float64
		unit     string
	}{{"the printer's margin", o.Margin, 0, maxMargin, "mm"}, {"the overlap", o.Overlap, 0, maxOverlap, "mm"},
		{"the correction", o.Correction, -maxCorrection, maxCorrection, "%"}} {
		if !(f.value >= f.min && f.value <= f.max) {
			return fmt.Errorf("%s is %g %s; it must lie between %g and %g", f.what, f.value, f.unit, f.min, f.max)
		}
	}
	switch o.Draw {
	case Outlines, Light, Full:
	default:
		return fmt.Errorf("a study is drawn as outlines, light or full, not %.20q", string(o.Draw))
	}
	switch o.Way {
	case Fewer, Upright, Lying, "":
	default:
		return fmt.Errorf("pages lie upright, lying or whichever way needs fewer, not %.20q", o.Way)
	}
	return nil
}

// unit is what figures are written in.
func (o Options) unit() measure.Unit { return measure.Of(o.Units) }

// figure writes a length: to a tenth of a millimetre, without what is not needed, or in inches.
func (o Options) figure(mm float64) string { return o.unit().Tenth(mm) }

// rule is a rule on a page: how long it is, how many parts it has, and every how many of them a tick is longer.
type rule struct {
	name        string
	long        float64 // mm
	parts, each int
}

// rule returns the rule of the unit: 100 mm in tenths, or 4 inches in quarters.
func (o Options) rule() rule {
	if o.unit().Inches {
		return rule{"4\u00a0in", 4 * measure.PerInch, 16, 4}
	}
	return rule{"100\u00a0mm", 100, 10, 5}
}

// factor is by what everything is drawn larger.
func (o Options) factor() float64 { return 1 + o.Correction/100 }

// span returns how many windows of a size, overlapping, cover a length; at least one. A length that is over by rounding
// takes no more.
func span(length, window, overlap float64) int {
	const rounding = 1e-6 // mm
	return max(1, int(math.Ceil((length-overlap-rounding)/(window-overlap))))
}
