// Package measure writes lengths in files and on printed pages, in mm or in inches, whichever the person chose.
package measure

import (
	"fmt"
	"math"
	"regexp"
	"strconv"

	"openwork/pattern/sheet"
)

// Unit writes lengths as sheet.Unit does, and some that only shops ask for.
type Unit struct{ sheet.Unit }

// gramsPerOunce is the avoirdupois ounce of the international agreement of 1959: a sixteenth of 453.59237 g.
const (
	gramsPerOunce  = 28.349523125
	ouncesPerPound = 16
)

// PerInch is how many mm an inch has.
const PerInch = sheet.MMPerInch

// Inches is what inches are called in options; anything else is mm.
const Inches = "in"

// Of returns the unit of a name in options: in, or mm ("" too).
func Of(name string) Unit { return Unit{sheet.Unit{Inches: name == Inches}} }

// Check says when a name is none of a unit.
func Check(name string) error {
	if name != "" && name != "mm" && name != Inches {
		return fmt.Errorf("figures are written in mm or in, not in %.20q", name)
	}
	return nil
}

// Fine writes a small length with its unit, such as a kerf or a thickness: in mm as exactly as it is given, to a
// thousandth, in inches with three decimals, noughts and all, as shops do.
func (u Unit) Fine(mm float64) string {
	if u.Inches {
		return fmt.Sprintf("%.3f\u00a0in", mm/sheet.MMPerInch)
	}
	return sheet.Trim(mm, 3) + "\u00a0mm"
}

// Way writes a long way with its unit: metres, or feet.
func (u Unit) Way(mm float64) string {
	if u.Inches {
		return fmt.Sprintf("%.1f\u00a0ft", mm/sheet.MMPerInch/12)
	}
	return fmt.Sprintf("%.2f\u00a0m", mm/1000)
}

// Weight writes a weight given in grams as it is weighed, to three figures: in grams, from a kilogram on in kilograms
// to a hundredth; or in ounces, from a pound on in pounds to a hundredth.
func (u Unit) Weight(g float64) string {
	small, per, large := "g", 1000.0, "kg"
	if u.Inches {
		g, small, per, large = g/gramsPerOunce, "oz", ouncesPerPound, "lb"
	}
	if g < per {
		return fmt.Sprintf("%.3g\u00a0%s", g, small)
	}
	return fmt.Sprintf("%.2f\u00a0%s", g/per, large)
}

// figuresInMM finds one or several lengths or areas before their unit.
var figuresInMM = regexp.MustCompile(`((?:\(?-?\d+(?:\.\d+)?\)?(?:, | × | to | and | and of ))*` +
	`\(?-?\d+(?:\.\d+)?\)?)([ \x{a0}])mm(²|/s²|/s)?`)

// bareFigure finds a length whose unit was said before in its sentence: "this sheet needs 5."
var bareFigure = regexp.MustCompile(`(\bneeds )(\d+(?:\.\d+)?)([.;,](?:\s|$)|$)|` +
	`(\bat least )(\d+(?:\.\d+)?)([ \x{a0}]needed)`)

var oneFigure = regexp.MustCompile(`-?\d+(?:\.\d+)?`)

// Said returns a sentence whose figures are in mm in this unit; a sentence of others, which knows no unit.
func (u Unit) Said(sentence string) string {
	if !u.Inches {
		return sentence
	}
	sentence = bareFigure.ReplaceAllStringFunc(sentence, func(found string) string {
		m := bareFigure.FindStringSubmatch(found)
		if m[2] == "" {
			m = m[3:]
		}
		return m[1] + divided(m[2], sheet.MMPerInch) + m[3]
	})
	return figuresInMM.ReplaceAllStringFunc(sentence, func(found string) string {
		m := figuresInMM.FindStringSubmatch(found)
		by := sheet.MMPerInch
		if m[3] == "²" {
			by *= sheet.MMPerInch
		}
		return oneFigure.ReplaceAllStringFunc(m[1], func(figure string) string { return divided(figure, by) }) + m[2] +
			"in" + m[3]
	})
}

// divided returns a figure divided, to a thousandth.
func divided(figure string, by float64) string {
	v, err := strconv.ParseFloat(figure, 64)
	if err != nil {
		return figure
	}
	if v /= by; math.Abs(v) < 1 {
		return fmt.Sprintf("%.3f", v)
	}
	return sheet.Trim(v, 3)
}

// Speed writes a speed given in mm/s with its unit.
func (u Unit) Speed(v float64) string {
	if u.Inches {
		return sheet.Trim(v/sheet.MMPerInch, 2) + "\u00a0in/s"
	}
	return sheet.Trim(v, 2) + "\u00a0mm/s"
}

// Exact writes a length with its unit: in mm to a hundredth, in inches to a thousandth.
func (u Unit) Exact(mm float64) string { return u.Figure(mm) + "\u00a0" + u.Sign() }

// Figure is Exact without the unit.
func (u Unit) Figure(mm float64) string {
	if u.Inches {
		return sheet.Trim(mm/sheet.MMPerInch, 3)
	}
	return sheet.Trim(mm, 2)
}

// Tenth writes a length without its unit, in mm to a tenth.
func (u Unit) Tenth(mm float64) string {
	if u.Inches {
		return u.Figure(mm)
	}
	return sheet.Trim(mm, 1)
}

// Place writes a place with its unit, as it is found by hand: to a tenth of a mm, a hundredth of an inch.
func (u Unit) Place(x, y float64) string {
	if u.Inches {
		return fmt.Sprintf("(%s, %s)\u00a0in", sheet.Trim(x/sheet.MMPerInch, 2), sheet.Trim(y/sheet.MMPerInch, 2))
	}
	return fmt.Sprintf("(%s, %s)\u00a0mm", sheet.Trim(x, 1), sheet.Trim(y, 1))
}

// PerOunce is how many ml a US fluid ounce has, exactly.
const PerOunce = 29.5735295625

// Volume writes a volume given in ml with its unit: to the ml, or to a tenth of a fluid ounce; small ones finer.
func (u Unit) Volume(ml float64) string {
	if u.Inches {
		return places(ml/PerOunce, 1) + "\u00a0fl\u00a0oz"
	}
	return places(ml, 0) + "\u00a0ml"
}

// Surface writes an area given in mm² with its unit: in cm², or in square inches.
func (u Unit) Surface(mm2 float64) string {
	if u.Inches {
		return places(mm2/PerInch/PerInch, 0) + "\u00a0in²"
	}
	return places(mm2/100, 0) + "\u00a0cm²"
}

// places writes a figure with so many places, one more below ten and two more below one.
func places(v float64, n int) string {
	if v < 10 {
		n++
	}
	if v < 1 {
		n++
	}
	return sheet.Trim(v, n)
}
