package desk

import (
	"math"
	"strconv"
	"strings"

	"openwork/pattern"
)

// mmPerInch is exact by definition.
const mmPerInch = 25.4

// length writes a length in the display unit: whole or one decimal in mm, two in inches, with more where it is small.
func (k *Desk) length(mm float64) string {
	if k.Inches {
		return trim(mm/mmPerInch, 3)
	}
	if math.Abs(mm) < 10 {
		return trim(mm, 2)
	}
	return trim(mm, 1)
}

// unit is the display unit's sign.
func (k *Desk) unit() string {
	if k.Inches {
		return "in"
	}
	return "mm"
}

// measure writes a length with its unit.
func (k *Desk) measure(mm float64) string { return k.length(mm) + " " + k.unit() }

// size writes width × height with the unit.
func (k *Desk) size(w, h float64) string {
	return k.length(w) + " × " + k.length(h) + " " + k.unit()
}

func trim(v float64, decimals int) string {
	p := math.Pow(10, float64(decimals))
	v = math.Round(v*p) / p
	if v == 0 {
		v = 0 // no minus sign before a nought
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// count writes a number with its noun: "1 bridge", "4 bridges", "no islands".
func count(n int, one, many string) string {
	switch n {
	case 0:
		return "no " + many
	case 1:
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// list joins words: "a", "a and b", "a, b and c".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

func edgeWords(e pattern.Edge) string {
	switch e {
	case pattern.Whole:
		return "whole copies only"
	case pattern.Touching:
		return "copies run over the margin"
	}
	return "cropped at the margin"
}
